"""A mistake in the bowl put right: the smallest dough of the same formula that holds all that is already in it.

What was poured cannot come out, so the other rows grow until every share of the flour is again what it was. The ripe
starter counts as its flour and water; only where the dough grows a lot is its own share made up too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from assistant.engine.bowl import STARTER, Bowl, Foods
from assistant.engine.composition import Portion
from assistant.engine.mend_pieces import divided
from assistant.engine.mend_rows import PartKept, flour_rows, growth_of, made_up, part_kept, row_of, salt_rows, weighable
from assistant.engine.refusal import Refused
from knowledge.records.lapses import STAGES, Lapse

STARTER_MADE_UP_ABOVE = 1.25
"""From this growth on the leaven would be thin enough to matter: its share is made up as well."""
MUCH_YEAST = 1.25
"""More yeast than this is not grown round: the clock and the fridge mend it."""
HOPELESS_ABOVE = 4.0
"""A dough that would have to grow beyond this is not mended but begun again from a part of it."""
FEEL_STEP = 0.02
"""What is offered when a dough only feels wet or dry: 2 % of the flour, in two goes."""
BORNE = frozenset({"sugar"})
SUGAR_BORNE = 0.08
"""Sugar up to this share of the flour hardly slows yeast (osmosis is felt over 5 %, clear over 10 %): it may stay."""
OUNCE_G = 28.349523125


@dataclass(frozen=True, slots=True)
class Mend:
    """What to add, and the dough after it.

    growth: dough after over dough planned. part: how to stay at the planned size instead, where that is worth saying.
    clock: what it does to the times. bowl: the dough after the mend, pieces and their size set anew.
    """

    add: tuple[Portion, ...]
    bowl: Bowl
    advice: str
    clock: str
    growth: float
    part: PartKept | None
    source: str


def over(plan: Bowl, item: str, poured_g: float, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """More of `item` is in the bowl than planned: `poured_g` in all, grams.

    Raises Refused where less than planned was poured, or where nothing else was planned to set it against.
    """
    meant_g = plan.g(item)
    if poured_g < meant_g:
        raise Refused(f"{poured_g:g} g is less than the {meant_g:g} g planned.", "Say how much is missing.")
    lapse = lapse_for(lapses, "over", item, stage, foods)
    have = plan.with_added((Portion(row_of(item), poured_g - meant_g),))
    lively = item in foods and foods[item].group == "leavening" and poured_g > MUCH_YEAST * meant_g
    if not lapse.add or lively:
        return _as_it_is(plan, have, lapse)
    return _grown(plan, have, lapse, foods, starter_too=row_of(item) != STARTER)


def exchanged(plan: Bowl, first: str, second: str, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """Two things went in each at the other's weight. What is too much sets the size the dough grows to."""
    more, less = sorted((first, second), key=lambda item: plan.g(item))
    off_g = plan.g(less) - plan.g(more)
    have = plan.with_added((Portion(row_of(more), off_g), Portion(row_of(less), -off_g)))
    lapse = lapse_for(lapses, "over", more, stage, foods)
    if not lapse.add:
        return _mended(plan, have, (Portion(row_of(less), off_g),), lapse)
    return _grown(plan, have, lapse, foods, starter_too=True)


def under(plan: Bowl, item: str, poured_g: float, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """Less of `item` is in the bowl than planned: `poured_g` in all, grams. What is missing goes in."""
    missing_g = plan.g(item) - poured_g
    if missing_g < 0:
        raise Refused(f"{poured_g:g} g is more than the {plan.g(item):g} g planned.", "Say how much was too much.")
    lapse = lapse_for(lapses, "under", item, stage, foods)
    have = plan.with_added((Portion(row_of(item), -missing_g),))
    if not lapse.add:
        return _as_it_is(plan, have, lapse)
    return _mended(plan, have, (Portion(row_of(item), missing_g),), lapse)


def forgotten(plan: Bowl, item: str, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """`item` was left out; it goes in as planned where the stage still allows. Refused when none was planned."""
    missing_g = plan.g(item)
    if missing_g <= 0:
        raise Refused(
            f"There is no {_name(item, foods)} in this dough, so none is missing.", "Say which one was left out."
        )
    lapse = lapse_for(lapses, "forgotten", item, stage, foods)
    have = plan.with_added((Portion(row_of(item), -missing_g),))
    if not lapse.add:
        return _as_it_is(plan, have, lapse)
    return _mended(plan, have, (Portion(row_of(item), missing_g),), lapse)


def mistaken(
    plan: Bowl,
    meant: str,
    used: str,
    stage: str,
    lapses: Mapping[str, Lapse],
    foods: Foods,
    poured_g: float | None = None,
) -> Mend:
    """`used` went in for `meant` (salt for sugar): the dough that holds it, or the part to keep.

    poured_g: how much of it, at the weight of what was meant where that was not said. Refused where it does not belong
    in the dough and is too much to be borne: then nothing can be grown round it.
    """
    g = plan.g(meant) if poured_g is None else poured_g
    have = plan.with_added((Portion(row_of(meant), -plan.g(meant)), Portion(row_of(used), g)))
    if plan.g(used) > 0:
        return _grown(plan, have, lapse_for(lapses, "over", used, stage, foods), foods, starter_too=True)
    flour_g = plan.holds(foods).flour_g
    if used not in foods or foods[used].group not in BORNE or g > SUGAR_BORNE * flour_g:
        raise Refused(
            f"{_name(used, foods).capitalize()} does not belong in this dough and does not come out.", "Begin it again."
        )
    lapse = lapse_for(lapses, "forgotten", meant, stage, foods)
    add = (Portion(row_of(meant), plan.g(meant)),) if lapse.add else ()
    share = 100 * g / flour_g
    borne = f"{_name(used, foods)[:1].upper()}{_name(used, foods)[1:]} at {share:.1f} % of the flour stays in and does "
    borne += "no harm: a little browner and sweeter."
    if not add:
        made = _as_it_is(plan, have, lapse)
        return replace(made, advice=f"{borne} {made.advice}")
    made = _mended(plan, have, add, lapse)
    return replace(made, advice=f"{borne} {made.advice}")


def by_feel(plan: Bowl, wet: bool, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """The dough feels too wet or too dry and nobody knows by how much: 2 % of the flour, in two goes.

    For a wet dough that much flour with its salt; for a dry one that much water.
    """
    lapse = lapse_for(lapses, "wet_by_feel" if wet else "dry_by_feel", "", stage, foods)
    if not lapse.add:
        return _as_it_is(plan, plan, lapse)
    flour_g = plan.holds(foods).flour_g * FEEL_STEP
    with_salt = (*flour_rows(plan, flour_g, foods), *salt_rows(plan, flour_g, foods))
    return _mended(plan, plan, with_salt if wet else (Portion("water", flour_g),), lapse)


def lapse_for(lapses: Mapping[str, Lapse], mistake: str, item: str, stage: str, foods: Foods) -> Lapse:
    """The record for a slip: one that names the item, else its group, else any."""
    if stage not in STAGES:
        raise ValueError(f"no stage {stage!r}")
    group = "starter" if row_of(item) == STARTER else foods[item].group if item in foods else ""
    fitting = [lapse for lapse in lapses.values() if lapse.mistake == mistake and stage in lapse.stages]
    for wanted in (item, row_of(item), f"group:{group}"):
        for lapse in fitting:
            if wanted in lapse.of:
                return lapse
    for lapse in fitting:
        if not lapse.of:
            return lapse
    raise Refused("That cannot be mended at this stage.", "Say what went wrong, and how far the bake is.")


def grams_from_ounces(ounces: float) -> float:
    """Grams in so many ounces."""
    return ounces * OUNCE_G


def _grown(plan: Bowl, have: Bowl, lapse: Lapse, foods: Foods, *, starter_too: bool) -> Mend:
    """The smallest dough of the plan's shares that holds `have`."""
    whole = plan.holds(foods)
    if whole.flour_g <= 0:
        raise Refused("There is no flour to set this against.", "Say how much flour is in the bowl.")
    growth = growth_of(plan, have, foods, starter_apart=False)
    make_up = starter_too and growth > STARTER_MADE_UP_ABOVE and plan.starter_g > 0
    if make_up:
        growth = growth_of(plan, have, foods, starter_apart=True)
    add = weighable(made_up(plan, have, growth, make_up, foods))
    part = part_kept(plan, have, growth) if growth > 1.25 else None
    if growth > HOPELESS_ABOVE:
        kept = part.add if part is not None else ()
        after = plan if part is not None else have
        return Mend(kept, after, _hopeless(part, lapse), lapse.clock, growth, part, lapse.source)
    return _mended(plan, have, add, lapse, growth, part)


def _hopeless(part: PartKept | None, lapse: Lapse) -> str:
    if part is None:
        return f"{lapse.advice} Too far gone to mend: begin again."
    return (
        f"Too much to grow round. Keep {part.keep_g:.0f} g of it, add the rest of the formula; the remainder is waste."
    )


def _mended(
    plan: Bowl,
    have: Bowl,
    add: Iterable[Portion],
    lapse: Lapse,
    growth: float | None = None,
    part: PartKept | None = None,
) -> Mend:
    rows = weighable(add)
    after = have.with_added(rows)
    pieces, piece_g = divided(plan, after.dough_g)
    after = replace(after, pieces=pieces, piece_g=piece_g)
    grown = growth if growth is not None else after.dough_g / plan.dough_g if plan.dough_g > 0 else 1.0
    return Mend(rows, after, lapse.advice, lapse.clock, grown, part, lapse.source)


def _as_it_is(plan: Bowl, have: Bowl, lapse: Lapse) -> Mend:
    pieces, piece_g = divided(plan, have.dough_g)
    kept = (
        replace(have, pieces=plan.pieces, piece_g=have.dough_g / (1 + plan.loss_pct / 100) / plan.pieces)
        if (plan.pieces)
        else replace(have, pieces=pieces, piece_g=piece_g)
    )
    return Mend((), kept, lapse.advice, lapse.clock, 1.0, None, lapse.source)


def _name(item: str, foods: Foods) -> str:
    return foods[item].name.lower() if item in foods else item
