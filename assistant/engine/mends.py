"""A mistake in the bowl put right: the smallest dough of the same formula that holds all that is already in it.

What was poured cannot come out, so the other rows grow until every share of the flour is again what it was. The ripe
starter counts as its flour and water; only where the dough grows a lot is its own share made up too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from assistant.engine.bowl import STARTER, Bowl, Foods
from assistant.engine.composition import Portion, is_flour
from assistant.engine.refusal import Refused
from knowledge.records.lapses import STAGES, Lapse

LEAST_G = 0.05
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


@dataclass(frozen=True, slots=True)
class PartKept:
    """To stay at the planned size: keep so much of the spoilt dough and add these."""

    keep_g: float
    add: tuple[Portion, ...]


def over(plan: Bowl, item: str, poured_g: float, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """More of `item` is in the bowl than planned: `poured_g` in all, grams.

    Raises Refused where less than planned was poured, or where nothing else was planned to set it against.
    """
    meant_g = plan.g(item)
    if poured_g < meant_g:
        raise Refused(f"{poured_g:g} g is less than the {meant_g:g} g planned.", "Say how much is missing.")
    lapse = lapse_for(lapses, "over", item, stage, foods)
    have = plan.with_added((Portion(_row(item), poured_g - meant_g),))
    lively = item in foods and foods[item].group == "leavening" and poured_g > MUCH_YEAST * meant_g
    if not lapse.add or lively:
        return _as_it_is(plan, have, lapse)
    return _grown(plan, have, lapse, foods, starter_too=_row(item) != STARTER)


def exchanged(plan: Bowl, first: str, second: str, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """Two things went in each at the other's weight. What is too much sets the size the dough grows to."""
    more, less = sorted((first, second), key=lambda item: plan.g(item))
    off_g = plan.g(less) - plan.g(more)
    have = plan.with_added((Portion(_row(more), off_g), Portion(_row(less), -off_g)))
    lapse = lapse_for(lapses, "over", more, stage, foods)
    if not lapse.add:
        return _mended(plan, have, (Portion(_row(less), off_g),), lapse)
    return _grown(plan, have, lapse, foods, starter_too=True)


def under(plan: Bowl, item: str, poured_g: float, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """Less of `item` is in the bowl than planned: `poured_g` in all, grams. What is missing goes in."""
    missing_g = plan.g(item) - poured_g
    if missing_g < 0:
        raise Refused(f"{poured_g:g} g is more than the {plan.g(item):g} g planned.", "Say how much was too much.")
    lapse = lapse_for(lapses, "under", item, stage, foods)
    have = plan.with_added((Portion(_row(item), -missing_g),))
    if not lapse.add:
        return _as_it_is(plan, have, lapse)
    return _mended(plan, have, (Portion(_row(item), missing_g),), lapse)


def forgotten(plan: Bowl, item: str, stage: str, lapses: Mapping[str, Lapse], foods: Foods) -> Mend:
    """`item` was left out; it goes in as planned where the stage still allows. Refused when none was planned."""
    missing_g = plan.g(item)
    if missing_g <= 0:
        raise Refused(
            f"There is no {_name(item, foods)} in this dough, so none is missing.", "Say which one was left out."
        )
    lapse = lapse_for(lapses, "forgotten", item, stage, foods)
    have = plan.with_added((Portion(_row(item), -missing_g),))
    if not lapse.add:
        return _as_it_is(plan, have, lapse)
    return _mended(plan, have, (Portion(_row(item), missing_g),), lapse)


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
    have = plan.with_added((Portion(_row(meant), -plan.g(meant)), Portion(_row(used), g)))
    if plan.g(used) > 0:
        return _grown(plan, have, lapse_for(lapses, "over", used, stage, foods), foods, starter_too=True)
    flour_g = plan.holds(foods).flour_g
    if used not in foods or foods[used].group not in BORNE or g > SUGAR_BORNE * flour_g:
        raise Refused(
            f"{_name(used, foods).capitalize()} does not belong in this dough and does not come out.", "Begin it again."
        )
    lapse = lapse_for(lapses, "forgotten", meant, stage, foods)
    add = (Portion(_row(meant), plan.g(meant)),) if lapse.add else ()
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
    if wet:
        add = (*_flour_rows(plan, flour_g, foods), *_salt_rows(plan, flour_g, foods))
    else:
        add = (Portion("water", flour_g),)
    return _mended(plan, plan, add, lapse)


def thirst_changed(plan: Bowl, used: Bowl, points: float, foods: Foods) -> tuple[Portion, ...]:
    """What to add when another flour than planned is in the bowl and drinks `points` of hydration more (less: below 0).

    More: water. Less: flour with its salt, until the hydration is lower by as much.
    """
    whole = used.holds(foods)
    if points >= 0:
        return _weighable((Portion("water", whole.flour_g * points / 100),))
    target = (used.hydration_pct(foods) or 0.0) + points
    if target <= 0:
        return ()
    flour_g = 100 * whole.water_g / target - whole.flour_g
    return _weighable((*_flour_rows(used, flour_g, foods), *_salt_rows(used, flour_g, foods)))


def other_starter(plan: Bowl, hydration_pct: float, foods: Foods) -> tuple[tuple[Portion, ...], Bowl]:
    """Starter of another hydration went in, weight for weight: what sets the dough right, and the dough then.

    `hydration_pct` of the starter that is in the bowl, above 0. Refused where there is no starter in the dough.
    """
    if plan.starter_g <= 0 or hydration_pct <= 0:
        raise Refused("There is no starter in this dough.", "Say how much starter went in, and of what hydration.")
    have = replace(plan, starter_hydration_pct=hydration_pct)
    growth = _growth(plan, have, foods, starter_apart=False)
    add = _weighable(_made_up(plan, have, growth, False, foods))
    after = have.with_added(add)
    pieces, piece_g = divided(plan, after.dough_g)
    return add, replace(after, pieces=pieces, piece_g=piece_g)


def short_of_pieces(plan: Bowl, wanted: int, piece_g: float, dough_g: float) -> tuple[float, tuple[Portion, ...]]:
    """The dough on the bench does not make `wanted` pieces of `piece_g`.

    Returns the piece mass it does make, and what a little dough of the same formula for the missing pieces takes.
    """
    if wanted < 1 or piece_g <= 0:
        raise Refused("No pieces to divide into.", "Say how many pieces, and of what size.")
    loss = 1 + plan.loss_pct / 100
    missing_g = max(wanted * piece_g * loss - dough_g, 0.0)
    factor = missing_g / plan.dough_g if plan.dough_g > 0 else 0.0
    rows = (*plan.portions, *((Portion(STARTER, plan.starter_g),) if plan.starter_g > 0 else ()))
    return dough_g / loss / wanted, _weighable(Portion(row.item, row.g * factor) for row in rows)


def divided(plan: Bowl, dough_g: float) -> tuple[int | None, float | None]:
    """Pieces and piece mass for a dough of this weight: as near as can be to the planned piece."""
    if plan.pieces is None or plan.piece_g is None:
        return None, None
    net_g = dough_g / (1 + plan.loss_pct / 100)
    pieces = max(round(net_g / plan.piece_g), 1)
    return pieces, net_g / pieces


def lapse_for(lapses: Mapping[str, Lapse], mistake: str, item: str, stage: str, foods: Foods) -> Lapse:
    """The record for a slip: one that names the item, else its group, else any."""
    if stage not in STAGES:
        raise ValueError(f"no stage {stage!r}")
    group = "starter" if _row(item) == STARTER else foods[item].group if item in foods else ""
    fitting = [lapse for lapse in lapses.values() if lapse.mistake == mistake and stage in lapse.stages]
    for wanted in (item, _row(item), f"group:{group}"):
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
    growth = _growth(plan, have, foods, starter_apart=False)
    make_up = starter_too and growth > STARTER_MADE_UP_ABOVE and plan.starter_g > 0
    if make_up:
        growth = _growth(plan, have, foods, starter_apart=True)
    add = _weighable(_made_up(plan, have, growth, make_up, foods))
    part = _part_kept(plan, have, growth) if growth > 1.25 else None
    if growth > HOPELESS_ABOVE:
        kept = part.add if part is not None else ()
        after = plan if part is not None else have
        return Mend(kept, after, _hopeless(part, lapse), lapse.clock, growth, part, lapse.source)
    return _mended(plan, have, add, lapse, growth, part)


def _growth(plan: Bowl, have: Bowl, foods: Foods, *, starter_apart: bool) -> float:
    """How many times the plan's flour is needed so that no row is above its share.

    `starter_apart`: the starter is a row of its own; otherwise its flour and water count with the rest.
    """
    needs = []
    for planned_g, there_g in (
        (_flour_g(plan, foods, starter_apart), _flour_g(have, foods, starter_apart)),
        (_plain_water_g(plan, starter_apart), _plain_water_g(have, starter_apart)),
    ):
        if planned_g > 0:
            needs.append(there_g / planned_g)
    if starter_apart and plan.starter_g > 0:
        needs.append(have.starter_g / plan.starter_g)
    for portion in have.portions:
        if portion.item == "water" or is_flour(foods[portion.item]):
            continue
        planned_g = plan.g(portion.item)
        if planned_g > 0:
            needs.append(portion.g / planned_g)
    return max(needs)


def _flour_g(bowl: Bowl, foods: Foods, starter_apart: bool) -> float:
    return bowl.bowl_flour_g(foods) if starter_apart else bowl.holds(foods).flour_g


def _plain_water_g(bowl: Bowl, starter_apart: bool) -> float:
    return bowl.g("water") if starter_apart else bowl.g("water") + bowl.starter_water_g


def _made_up(plan: Bowl, have: Bowl, growth: float, starter_too: bool, foods: Foods) -> Iterable[Portion]:
    """Rows to add so that every share of the flour is the plan's, the flour grown by `growth`."""
    starter_g = max(plan.starter_g * growth - have.starter_g, 0.0) if starter_too else 0.0
    inside = starter_g / (1 + plan.starter_hydration_pct / 100)
    planned, there = plan.holds(foods), have.holds(foods)
    yield from _flour_rows(plan, planned.flour_g * growth - there.flour_g - inside, foods)
    plain_g = (plan.g("water") + plan.starter_water_g) * growth - have.g("water") - have.starter_water_g
    yield Portion("water", plain_g - (starter_g - inside))
    if starter_g > 0:
        yield Portion(STARTER, starter_g)
    for portion in plan.portions:
        if portion.item != "water" and not is_flour(foods[portion.item]):
            yield Portion(portion.item, portion.g * growth - have.g(portion.item))


def _flour_rows(plan: Bowl, flour_g: float, foods: Foods) -> tuple[Portion, ...]:
    """So much flour in the plan's own blend."""
    whole_g = plan.bowl_flour_g(foods)
    if whole_g <= 0:
        return (Portion(plan.starter_flour, flour_g),)
    return tuple(
        Portion(portion.item, flour_g * portion.g / whole_g)
        for portion in plan.portions
        if is_flour(foods[portion.item]) and portion.g > 0
    )


def _salt_rows(plan: Bowl, flour_g: float, foods: Foods) -> tuple[Portion, ...]:
    """The salt that goes with so much flour."""
    whole_g = plan.holds(foods).flour_g
    return tuple(
        Portion(portion.item, portion.g * flour_g / whole_g)
        for portion in plan.portions
        if foods[portion.item].group == "salt"
    )


def _part_kept(plan: Bowl, have: Bowl, growth: float) -> PartKept:
    """Keep 1/growth of what is in the bowl; the rest of the plan goes in afresh."""
    share = 1 / growth
    rows = [Portion(row.item, row.g - have.g(row.item) * share) for row in plan.portions]
    if plan.starter_g > 0:
        rows.append(Portion(STARTER, plan.starter_g - have.starter_g * share))
    return PartKept(have.dough_g * share, _weighable(rows))


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
    rows = _weighable(add)
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


def _weighable(rows: Iterable[Portion]) -> tuple[Portion, ...]:
    return tuple(row for row in rows if row.g >= LEAST_G)


def _row(item: str) -> str:
    return STARTER if item.startswith("starter") else item


def _name(item: str, foods: Foods) -> str:
    return foods[item].name.lower() if item in foods else item
