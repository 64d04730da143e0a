"""What may stand in for an ingredient, at what weight, and what else of the dough moves with it.

A swap on record is taken first; then one read backwards; then one reckoned from two ingredients of the same circle at
equal sugar, fat, water, salt or mass. Corrections keep the dough's water, sugars and salt as they were. An allergen is
gained when the new dough carries it and the old one did not; it is lost only when nothing else in the dough carries it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from assistant.engine.bowl import STARTER, Bowl, Foods
from assistant.engine.composition import Portion, counted_water_share, dough_salt_share
from assistant.engine.refusal import Refused
from knowledge.records.kin import Kin
from knowledge.records.swaps import Swap, SwapPart
from knowledge.records.traces import Trace

DOUGH_FUNCTIONS = (
    "sweetener",
    "fat",
    "liquid",
    "binder",
    "enzyme",
    "strength",
    "wholegrain",
    "salt",
    "leavening",
    "flavour",
    "topping",
    "colour",
)
"""Jobs inside a dough, in the order in which a bare "out of X" is understood; the jobs outside it follow."""

OUTSIDE_FUNCTIONS = ("wash", "alkali", "release")

NOT_A_MASS = 1e-6
LEAST_WATER_G, LEAST_SUGAR_G, LEAST_SALT_G = 0.5, 1.0, 0.3
"""Corrections below these are inside what a kitchen scale and a spoon can tell apart."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """The facts swaps are drawn from."""

    swaps: Mapping[str, Swap]
    kin: Mapping[str, Kin]
    traces: Mapping[str, Trace]
    foods: Foods


@dataclass(frozen=True, slots=True)
class Avoid:
    """What must not come in: allergen tags, single ingredients, whole groups. `medical`: traces count too."""

    allergens: frozenset[str] = frozenset()
    items: frozenset[str] = frozenset()
    groups: frozenset[str] = frozenset()
    medical: bool = False

    def hit_by(self, item: str, shelf: Shelf) -> bool:
        """Whether this ingredient is one to keep out."""
        food = shelf.foods.get(item)
        if food is None:
            return False
        if item in self.items or food.group in self.groups or self.allergens.intersection(food.allergens):
            return True
        return self.medical and bool(self.allergens.intersection(may_carry(item, shelf)))


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to replace `out_g` grams: what goes in, what else to add (+) or take off (-), and what to expect.

    limit: the largest sensible share of the ingredient to replace. beyond_limit: more than that was asked for.
    rank: lower is better.
    labels: ingredients whose label must be read, with what they may carry. basis: "table", "reversed" or "reckoned".
    """

    into: tuple[Portion, ...]
    also: tuple[Portion, ...]
    effect: str
    limit: float
    beyond_limit: bool
    gains: tuple[str, ...]
    loses: tuple[str, ...]
    labels: tuple[tuple[str, tuple[str, ...]], ...]
    function: str
    basis: str
    source: str
    rank: int = 0


@dataclass(frozen=True, slots=True)
class Swapped:
    """The answer for one ingredient. `leave_out`: what leaving it out does, or what serves that is no ingredient."""

    out: Portion
    choices: tuple[Choice, ...]
    leave_out: str | None


def may_carry(item: str, shelf: Shelf) -> tuple[str, ...]:
    """Allergen tags that labels of this ingredient often show beyond its plain name."""
    return tuple(tag for trace in shelf.traces.values() if trace.ingredient == item for tag in trace.may_carry)


def swaps_for(
    out: str,
    out_g: float,
    shelf: Shelf,
    *,
    bowl: Bowl | None = None,
    into: str | None = None,
    function: str | None = None,
    avoid: Avoid | None = None,
) -> Swapped:
    """What may replace `out_g` grams of `out`.

    Args:
        bowl: the dough it is in; decides the job meant, how much of the whole is replaced, and which allergens change.
        into: only this replacement is wanted. function: the job, where it was said. avoid: what must not come in.
    Raises Refused where the replacement asked for would spoil the dough (a record with limit 0).
    """
    if out_g <= 0:
        raise Refused(f"{out_g:g} g is nothing to replace.", "Give the weight that is missing.")
    said, out = out, _any_size(out, shelf)
    records = [swap for swap in shelf.swaps.values() if swap.out == out and function in (None, swap.function)]
    if not any(swap.function == "wholegrain" for swap in records) and function in (None, "wholegrain"):
        records += _as_white_flour(out, shelf)
    if function is None:
        records = _of_one_job(records, out, bowl, into)
    candidates = [*records, *_reversed(out, shelf, function, records), *_reckoned(out, shelf, function, records)]
    whole_g = bowl.g(said) if bowl is not None and bowl.g(said) > 0 else out_g
    share = min(out_g / whole_g, 1.0)
    choices: list[Choice] = []
    leave_out: str | None = None
    for swap in candidates:
        if not swap.into or swap.thing:
            leave_out = leave_out or (f"{swap.thing}: {swap.effect}" if swap.thing else swap.effect)
            continue
        if into is not None and into not in (part.item for part in swap.into):
            continue
        if swap.limit <= 0:
            if into is not None:
                raise Refused(f"{_name(into, shelf)} instead of {_name(out, shelf)}: {swap.effect}.")
            continue
        if avoid is not None and any(avoid.hit_by(part.item, shelf) for part in swap.into):
            continue
        choice = _choice(swap, said, out_g, share, shelf, bowl)
        if choice is not None:
            choices.append(choice)
        else:
            leave_out = leave_out or swap.effect
    ranked = sorted(_without_repeats(choices), key=lambda choice: _lateness(choice, out, into, shelf))
    return Swapped(Portion(said, out_g), tuple(ranked), leave_out if into is None or not ranked else None)


def offenders(bowl: Bowl, avoid: Avoid, shelf: Shelf) -> tuple[Portion, ...]:
    """Rows of the dough that a diet keeps out, heaviest first; the starter is judged by its flour."""
    hits = [portion for portion in bowl.portions if portion.g > NOT_A_MASS and avoid.hit_by(portion.item, shelf)]
    if bowl.starter_g > 0 and avoid.hit_by(bowl.starter_flour, shelf):
        hits.append(Portion(STARTER, bowl.starter_g))
    return tuple(sorted(hits, key=lambda portion: -portion.g))


def replaced(bowl: Bowl, answer: Swapped, choice: Choice) -> Bowl:
    """The dough after the swap: `out` taken out, the choice and its corrections put in."""
    out = Portion(STARTER if answer.out.item.startswith("starter") else answer.out.item, -answer.out.g)
    return bowl.with_added((out, *_as_rows(choice.into), *_as_rows(choice.also)))


def strong_share(target_pct: float, weak_pct: float, strong_pct: float) -> float:
    """Share of the strong flour, 0 to 1, in a blend of that protein: x = (target - weak) / (strong - weak).

    Percent protein of each. Refused when the target lies outside the two.
    """
    low, high = sorted((weak_pct, strong_pct))
    if strong_pct == weak_pct or not low <= target_pct <= high:
        raise Refused(
            f"{target_pct:g} % protein cannot be blended from {weak_pct:g} % and {strong_pct:g} %.",
            f"Anything from {low:g} to {high:g} % works.",
        )
    return (target_pct - weak_pct) / (strong_pct - weak_pct)


def gluten_to_replace_g(flour_g: float, target_pct: float, weak_pct: float, gluten_pct: float) -> float:
    """Grams of gluten powder that take the place of as much flour, so that the total stays `flour_g`."""
    return flour_g * strong_share(target_pct, weak_pct, gluten_pct)


def gluten_on_top_g(flour_g: float, target_pct: float, weak_pct: float, gluten_pct: float) -> float:
    """Grams of gluten powder added to `flour_g` of flour: flour × (target - weak) / (gluten - target)."""
    strong_share(target_pct, weak_pct, gluten_pct)
    return flour_g * (target_pct - weak_pct) / (gluten_pct - target_pct)


def starter_for_yeast(bowl: Bowl, foods: Foods, starter_pct: float, starter_hydration_pct: float = 100.0) -> Choice:
    """Ripe starter in place of commercial yeast, the dough's flour and water kept: no gram rule, a share of the flour.

    `starter_pct` is grams of starter per 100 g of the flour outside it; 15 to 25 is usual. Flour and water of the
    starter come off the bowl's. Source: flour balance F_out = F / (1 + S / (1 + h)).
    """
    if bowl.starter_g > 0:
        raise Refused("There is starter in this dough already.", "Say how much starter it should have.")
    flour_g = bowl.bowl_flour_g(foods)
    h = starter_hydration_pct / 100
    outside_g = flour_g / (1 + starter_pct / 100 / (1 + h))
    starter_g = outside_g * starter_pct / 100
    inside_g = flour_g - outside_g
    flours = tuple(
        Portion(portion.item, -inside_g * portion.g / flour_g)
        for portion in bowl.portions
        if foods[portion.item].group == "flour"
    )
    water = Portion("water", -(starter_g - inside_g))
    return Choice(
        into=(Portion(STARTER, starter_g),),
        also=(*flours, water),
        effect="dosed by flour and clock, not by the yeast: slower, sourer, keeps longer",
        limit=1.0,
        beyond_limit=False,
        gains=(),
        loses=(),
        labels=(),
        function="leavening",
        basis="reckoned",
        source="flour balance; yeast equivalents have no gram rule for starter",
    )


def yeast_for_starter(starter_g: float, hydration_pct: float, yeast: str, overnight: bool, flour: str) -> Choice:
    """Commercial yeast in place of ripe starter: its flour and water go in as they are.

    A same-day dough takes 0.03 g instant yeast per gram of 100 % starter, an overnight one 0.004; 3 times as much
    fresh, 1.25 times as much active dry. The starter's own flour decides, whatever its hydration.
    Source: yeast equivalents (bread textbooks; US Armed Forces cards) and the swap on record.
    """
    flour_g = starter_g / (1 + hydration_pct / 100)
    instant_g = flour_g * 2 * (0.004 if overnight else 0.03)
    per_instant = {"yeast_instant": 1.0, "yeast_active_dry": 1.25, "yeast_fresh": 3.0}[yeast]
    clock = "overnight at room temperature" if overnight else "same day: 1.5-2 h of bulk at 24 °C"
    return Choice(
        into=(
            Portion(yeast, instant_g * per_instant),
            Portion(flour, flour_g),
            Portion("water", starter_g - flour_g),
        ),
        also=(),
        effect=f"{clock}; no acid: blander crumb, stales sooner; rye over 30 % needs acid",
        limit=1.0,
        beyond_limit=False,
        gains=(),
        loses=(),
        labels=(),
        function="leavening",
        basis="table",
        source="yeast equivalents (bread textbooks; US Armed Forces cards); own estimate",
    )


def _lateness(choice: Choice, out: str, into: str | None, shelf: Shelf) -> tuple[bool, bool, bool, int]:
    """What goes to the end: more than the one thing asked for, parts of the missing egg, too large a share."""
    mixed = into is not None and tuple(part.item for part in choice.into) != (into,)
    same_egg = out == "egg_whole" and any(shelf.foods[part.item].group == "egg" for part in choice.into)
    return mixed, same_egg, choice.beyond_limit and choice.limit < 0.5, choice.rank


def _any_size(out: str, shelf: Shelf) -> str:
    """A whole egg of any size is replaced by weight as the usual one is."""
    food = shelf.foods.get(out)
    whole = food is not None and food.group == "egg" and out not in ("egg_white", "egg_yolk")
    return "egg_whole" if whole else out


def _as_white_flour(out: str, shelf: Shelf) -> list[Swap]:
    """What whole grain in place of bread flour does, said of another white flour of its circle."""
    if not any(kin.id == "white_flours" and out in kin.members for kin in shelf.kin.values()):
        return []
    return [
        replace(swap, out=out)
        for swap in shelf.swaps.values()
        if swap.out == "flour_bread" and swap.function == "wholegrain"
    ]


def _of_one_job(records: list[Swap], out: str, bowl: Bowl | None, into: str | None) -> list[Swap]:
    """The records of the job most likely meant: the one that knows the wanted replacement, else the first dough job."""
    if into is not None:
        wanted = [swap for swap in records if into in (part.item for part in swap.into)]
        if wanted:
            order = (*DOUGH_FUNCTIONS, *OUTSIDE_FUNCTIONS)
            first = min((swap.function for swap in wanted), key=order.index)
            return [swap for swap in wanted if swap.function == first]
    inside = bowl is None or bowl.g(out) > 0
    order = (*DOUGH_FUNCTIONS, *OUTSIDE_FUNCTIONS) if inside else (*OUTSIDE_FUNCTIONS, *DOUGH_FUNCTIONS)
    if not inside and not any(swap.function in OUTSIDE_FUNCTIONS for swap in records):
        order = (*DOUGH_FUNCTIONS, *OUTSIDE_FUNCTIONS)
    for job in order:
        chosen = [swap for swap in records if swap.function == job]
        if chosen:
            if job == "strength":  # a white flour may also be stretched with whole grain
                return chosen + [swap for swap in records if swap.function == "wholegrain"]
            return chosen
    return []


def _known(records: Iterable[Swap]) -> set[tuple[str, ...]]:
    return {tuple(part.item for part in swap.into) for swap in records}


def _reversed(out: str, shelf: Shelf, function: str | None, records: list[Swap]) -> Iterator[Swap]:
    """Records of one ingredient by another, read backwards where the whole may be replaced and the mass is honest."""
    known = _known(records)
    job = function or (records[0].function if records else None)
    for swap in shelf.swaps.values():
        if len(swap.into) != 1 or swap.into[0].item != out or (swap.out,) in known:
            continue
        # A flour that may only be part of a dough is itself replaced whole by the flour of the rest.
        if swap.limit < 1 and swap.function != "wholegrain":
            continue
        ratio = swap.into[0].per_g
        if not ratio or (job is not None and swap.function != job):
            continue
        if swap.function in ("wash", "alkali", "release", "colour", "enzyme", "leavening"):
            continue  # one way only: what milk does on a crust, egg does otherwise
        known.add((swap.out,))
        yield replace(
            swap,
            id=f"{swap.id}_backwards",
            out=out,
            into=(SwapPart(item=swap.out, per_g=1 / ratio),),
            water_g=None if swap.water_g is None else -swap.water_g / ratio,
            sugar_g=None if swap.sugar_g is None else -swap.sugar_g / ratio,
            salt_g=None if swap.salt_g is None else -swap.salt_g / ratio,
            effect=_circle_effect(out, swap.out, shelf) or _plain_effect(swap.function),
            limit=1.0,
            gains=(),
            loses=(),
        )


def _plain_effect(job: str) -> str:
    if job in ("wholegrain", "strength"):
        return "nearer to a plain white dough: taste and colour of the other flour go, water set for the same feel"
    return "does the same job; taste and colour are its own"


def _circle_effect(out: str, item: str, shelf: Shelf) -> str | None:
    return next((kin.effect for kin in shelf.kin.values() if out in kin.members and item in kin.members), None)


def _reckoned(out: str, shelf: Shelf, function: str | None, records: list[Swap]) -> Iterator[Swap]:
    """Swaps reckoned inside a circle of kin: the first circle that holds both rules."""
    known = _known(records)
    job = function or (records[0].function if records else None)
    for kin in shelf.kin.values():
        if out not in kin.members or (job is not None and kin.function != job) or kin.id == "eggs":
            continue
        for item in kin.members:
            if item == out or (item,) in known:
                continue
            ratio = _ratio(out, item, kin.equal, shelf)
            if ratio is None:
                continue
            known.add((item,))
            yield _from_kin(out, item, ratio, kin, shelf)


def _ratio(out: str, item: str, equal: str, shelf: Shelf) -> float | None:
    a, b = shelf.foods[out], shelf.foods[item]
    if equal == "mass":
        return 1.0
    if equal == "water":
        held, brought = counted_water_share(a), counted_water_share(b)
    else:
        name = {"sugar": "sugar_pct", "fat": "fat_pct", "salt": "salt_pct"}[equal]
        held, brought = (getattr(a, name) or 0.0) / 100, (getattr(b, name) or 0.0) / 100
    return held / brought if held > 0.02 and brought > 0.02 else None


def _from_kin(out: str, item: str, ratio: float, kin: Kin, shelf: Shelf) -> Swap:
    a, b = shelf.foods[out], shelf.foods[item]
    corrected = kin.function in ("sweetener", "fat", "liquid", "binder", "salt")
    return Swap(
        id=f"{kin.id}_{out}_by_{item}",
        out=out,
        function=kin.function,
        into=(SwapPart(item=item, per_g=ratio),),
        water_g=counted_water_share(a) - ratio * counted_water_share(b) if corrected else None,
        sugar_g=None,
        salt_g=dough_salt_share(a) - ratio * dough_salt_share(b) if kin.function in ("fat", "liquid") else None,
        limit=1.0,
        effect=kin.effect,
        certainty="medium",
        source=kin.source,
        confidence=kin.confidence,
    )


def _choice(swap: Swap, out: str, out_g: float, share: float, shelf: Shelf, bowl: Bowl | None) -> Choice | None:
    if any(part.per_g is None for part in swap.into):
        return None
    into = tuple(Portion(part.item, (part.per_g or 0.0) * out_g) for part in swap.into)
    also = tuple(_corrections(swap, out_g, bowl, shelf))
    gains, loses = _allergen_change(swap, out, out_g, (*into, *also), shelf, bowl)
    labels = tuple((part.item, tags) for part in swap.into if (tags := may_carry(part.item, shelf)))
    basis = "reversed" if swap.id.endswith("_backwards") else "table" if swap.id in shelf.swaps else "reckoned"
    return Choice(
        into,
        also,
        swap.effect,
        swap.limit,
        share > swap.limit + 1e-9,
        gains,
        loses,
        labels,
        swap.function,
        basis,
        swap.source,
        swap.rank,
    )


def _corrections(swap: Swap, out_g: float, bowl: Bowl | None, shelf: Shelf) -> Iterator[Portion]:
    water_g = (swap.water_g or 0.0) * out_g
    if abs(water_g) >= LEAST_WATER_G:
        yield Portion("water", water_g)
    sugar_g = (swap.sugar_g or 0.0) * out_g
    if abs(sugar_g) >= LEAST_SUGAR_G and (sugar_g > 0 or bowl is None or bowl.g("sugar_granulated") >= -sugar_g):
        yield Portion("sugar_granulated", sugar_g)
    salt_g = (swap.salt_g or 0.0) * out_g
    salt = _salt_in(bowl, shelf)
    if abs(salt_g) >= LEAST_SALT_G and (salt_g > 0 or bowl is None or bowl.g(salt) >= -salt_g):
        yield Portion(salt, salt_g)


def _salt_in(bowl: Bowl | None, shelf: Shelf) -> str:
    rows = bowl.portions if bowl is not None else ()
    return next((row.item for row in rows if shelf.foods[row.item].group == "salt"), "salt_table")


def _allergen_change(
    swap: Swap, out: str, out_g: float, added: tuple[Portion, ...], shelf: Shelf, bowl: Bowl | None
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Tags the dough gains and loses. Without a dough: those of the two sides alone."""
    coming = {tag for part in added if part.g > 0 for tag in shelf.foods[part.item].allergens} | set(swap.gains)
    going = set(shelf.foods[out].allergens)
    if bowl is None or bowl.g(out) <= 0:
        return tuple(sorted(coming - going)), tuple(sorted(going - coming))
    before = set(bowl.allergens(shelf.foods))
    taken = Portion(STARTER if out.startswith("starter") else out, -min(out_g, bowl.g(out)))
    after_bowl = bowl.with_added((taken, *_as_rows(part for part in added if part.g > 0)))
    after = set(after_bowl.allergens(shelf.foods)) | set(swap.gains)
    return tuple(sorted(after - before)), tuple(sorted(before - after))


def _as_rows(parts: Iterable[Portion]) -> tuple[Portion, ...]:
    return tuple(replace(part, item=STARTER) if part.item.startswith("starter") else part for part in parts)


def _without_repeats(choices: Iterable[Choice]) -> Iterator[Choice]:
    seen: set[tuple[str, ...]] = set()
    for choice in choices:
        key = tuple(part.item for part in choice.into)
        if key not in seen:
            seen.add(key)
            yield choice


def _name(item: str, shelf: Shelf) -> str:
    food = shelf.foods.get(item)
    return food.name.lower() if food is not None else item
