"""Another flour or another starter in the bowl than planned: what sets the water right."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.bowl import Bowl, Foods
from assistant.engine.composition import Portion
from assistant.engine.mend_pieces import divided
from assistant.engine.mend_rows import flour_rows, growth_of, made_up, salt_rows, weighable
from assistant.engine.refusal import Refused


def thirst_changed(plan: Bowl, used: Bowl, points: float, foods: Foods) -> tuple[Portion, ...]:
    """What to add when another flour than planned is in the bowl and drinks `points` of hydration more (less: below 0).

    More: water. Less: flour with its salt, until the hydration is lower by as much.
    """
    whole = used.holds(foods)
    if points >= 0:
        return weighable((Portion("water", whole.flour_g * points / 100),))
    target = (used.hydration_pct(foods) or 0.0) + points
    if target <= 0:
        return ()
    flour_g = 100 * whole.water_g / target - whole.flour_g
    return weighable((*flour_rows(used, flour_g, foods), *salt_rows(used, flour_g, foods)))


def other_starter(plan: Bowl, hydration_pct: float, foods: Foods) -> tuple[tuple[Portion, ...], Bowl]:
    """Starter of another hydration went in, weight for weight: what sets the dough right, and the dough then.

    `hydration_pct` of the starter that is in the bowl, above 0. Refused where there is no starter in the dough.
    """
    if plan.starter_g <= 0 or hydration_pct <= 0:
        raise Refused("There is no starter in this dough.", "Say how much starter went in, and of what hydration.")
    have = replace(plan, starter_hydration_pct=hydration_pct)
    growth = growth_of(plan, have, foods, starter_apart=False)
    add = weighable(made_up(plan, have, growth, False, foods))
    after = have.with_added(add)
    pieces, piece_g = divided(plan, after.dough_g)
    return add, replace(after, pieces=pieces, piece_g=piece_g)
