"""What may stand in for an ingredient, at what weight, and what else of the dough moves with it.

A swap on record is taken first; then one read backwards; then one reckoned from two ingredients of the same circle at
equal sugar, fat, water, salt or mass. Corrections keep the dough's water, sugars and salt as they were. An allergen is
gained when the new dough carries it and the old one did not; it is lost only when nothing else in the dough carries it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.composition import Portion
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Avoid, Shelf, may_carry
from assistant.engine.swap_candidates import any_size, candidates
from knowledge.records.swaps import Swap

NOT_A_MASS = 1e-6
LEAST_WATER_G, LEAST_SUGAR_G, LEAST_SALT_G = 0.5, 1.0, 0.3
"""Corrections below these are inside what a kitchen scale and a spoon can tell apart."""


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
    said, out = out, any_size(out, shelf)
    whole_g = bowl.g(said) if bowl is not None and bowl.g(said) > 0 else out_g
    share = min(out_g / whole_g, 1.0)
    choices: list[Choice] = []
    leave_out: str | None = None
    for swap in candidates(out, shelf, bowl, into, function):
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


def _lateness(choice: Choice, out: str, into: str | None, shelf: Shelf) -> tuple[bool, bool, bool, int]:
    """What goes to the end: more than the one thing asked for, parts of the missing egg, too large a share."""
    mixed = into is not None and tuple(part.item for part in choice.into) != (into,)
    same_egg = out == "egg_whole" and any(shelf.foods[part.item].group == "egg" for part in choice.into)
    return mixed, same_egg, choice.beyond_limit and choice.limit < 0.5, choice.rank


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
