"""Which swaps may serve at all: on record, read backwards, or reckoned between two of a kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from assistant.engine.bowl import Bowl
from assistant.engine.composition import counted_water_share, dough_salt_share
from assistant.engine.shelf import Shelf
from knowledge.records.kin import Kin
from knowledge.records.swaps import Swap, SwapPart

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


def candidates(out: str, shelf: Shelf, bowl: Bowl | None, into: str | None, function: str | None) -> Iterator[Swap]:
    """Swaps that may serve: those on record for the job meant, those read backwards, those reckoned among kin.

    `out` is an ingredient id as records name it (see `any_size`).
    """
    records = [swap for swap in shelf.swaps.values() if swap.out == out and function in (None, swap.function)]
    if not any(swap.function == "wholegrain" for swap in records) and function in (None, "wholegrain"):
        records += _as_white_flour(out, shelf)
    if function is None:
        records = _of_one_job(records, out, bowl, into)
    yield from records
    yield from _reversed(out, shelf, function, records)
    yield from _reckoned(out, shelf, function, records)
    if into is not None and function in (None, "wholegrain"):
        yield from _by_thirst(out, into, shelf)


def _by_thirst(out: str, into: str, shelf: Shelf) -> Iterator[Swap]:
    """One whole grain for another, weight for weight: each drinks so much more than bread flour on record.

    The water that moves is the difference of the two.
    """
    against_bread = {
        swap.into[0].item: swap
        for swap in shelf.swaps.values()
        if swap.out == "flour_bread" and swap.function == "wholegrain" and len(swap.into) == 1
    }
    first, second = against_bread.get(out), against_bread.get(into)
    if first is None or second is None or first is second:
        return
    yield replace(
        second,
        id=f"{second.id}_for_{out}",
        out=out,
        water_g=(second.water_g or 0.0) - (first.water_g or 0.0),
        limit=max(second.limit, first.limit),
        loses=(),
        gains=(),
    )


def any_size(out: str, shelf: Shelf) -> str:
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
