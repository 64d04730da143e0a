"""The figures of a mistake as they are told: what was meant, what went in, how far it is off, what else is there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.mishap_places import nearest, role_of, thing_beside
from grammar.mishap_words import ids_of, left_out, of_flour, things_in


@dataclass(slots=True)
class Told:
    """A mishap's figures. item: place of its word in the line. share: "half" of it, 0 to 1. more: said to be extra.
    counted: its amounts are pieces (eggs).

    meant_pct, poured_pct: said in percent of the flour where the other was a weight.
    """

    item: int | None = None
    meant: float | None = None
    poured: float | None = None
    off: float | None = None
    meant_pct: float | None = None
    poured_pct: float | None = None
    share: float | None = None
    more: bool = False
    in_ml: bool = False
    counted: bool = False


def told_in(bound: Bound, things: list[int]) -> tuple[Told, list[tuple[str, float]]]:
    """The item gone wrong with its figures, and what else is said to be in the bowl."""
    told = Told()
    inside: list[tuple[str, float]] = []
    loose: list[float] = []
    many_times = bound.said("mistake:twice", "mistake:thrice")
    if many_times:
        told.item = nearest(bound, things, ("mistake:twice", "mistake:thrice"))
    elif left_out(bound):
        word = "mistake:forgot" if bound.said("mistake:forgot") else "mistake:poured"
        told.item = nearest(bound, things, (word,))
    for hit in bound.hits:
        if hit.amount is None or not (hit.slot == "mass" or of_flour(bound, hit)):
            continue
        value = amount_base(hit.amount)
        if value is None:
            continue
        place = next(i for i, p in enumerate(bound.phrases) if p is hit.amount)
        _place_amount(bound, told, inside, loose, hit, place, value, many_times)
    _settle_two(bound, told, inside, loose, many_times)
    _settle_shares(bound, told)
    flour = any(item.startswith("flour") for item, _ in inside)
    if left_out(bound) and told.item is not None:
        name = ids_of(bound.phrases[told.item])[0]
        own = next((g for item, g in inside if item == name), told.off)
        if own is not None:  # with the flour said, "20 g salt" is what was to go in; without, what is short
            told.meant, told.off = (own, None) if flour else (None, own)
            inside = [(item, g) for item, g in inside if item != name]
    if loose and told.off is None and (told.poured is None or told.item is None):
        told.off = loose[0]
    if told.item is None and things:
        named_inside = {item for item, _ in inside}
        free = [i for i in things if ids_of(bound.phrases[i])[0] not in named_inside]
        off = ("mistake:over", "mistake:under") if told.off is not None else ()
        told.item = nearest(bound, free, off) if off else None
        told.item = told.item if told.item is not None else next(iter(free), None)
    _of_which(bound, told, inside)
    water = next((g for item, g in inside if item == "water"), None)
    if told.meant_pct is not None and told.poured is None and told.item is None and water is not None:
        told.item = next(i for i in things if "water" in ids_of(bound.phrases[i]))
        told.poured = water  # "500 g flour, 300 g water, should have been 65 %"
        inside = [(item, g) for item, g in inside if item != "water"]
    if told.item is None and told.off is None and told.poured is None and len(inside) == 1 and things:
        told.item, told.off = things[0], inside.pop()[1]
    return told, inside


def _of_which(bound: Bound, told: Told, inside: list[tuple[str, float]]) -> None:
    """The thing a share that was wanted is of, where it is not said: "1.2 kg flour had 30 g salt, wanted 2 %"."""
    if told.meant_pct is None or told.poured is not None or told.item is not None or told.meant_pct >= _LEAST_WATER_PCT:
        return
    others = [(item, g) for item, g in inside if not item.startswith("flour") and item != "water"]
    if len(others) == 1:
        told.item = next((i for i in things_in(bound) if ids_of(bound.phrases[i])[0] == others[0][0]), None)
        told.poured = others[0][1]
        inside.remove(others[0])


_LEAST_WATER_PCT = 40.0
"""A wanted share of this much and more is of water."""


def _settle_two(
    bound: Bound, told: Told, inside: list[tuple[str, float]], loose: list[float], many_times: bool
) -> None:
    """Two values of one thing where only one is said to be meant, poured or too much: the other is the other one."""
    if told.item is None and told.poured is None and told.off is None and told.meant is not None:
        told.item = _likest(bound, told.meant, inside)
    name = ids_of(bound.phrases[told.item])[0] if told.item is not None else None
    if name is not None and not name.startswith("flour"):
        own = next((g for item, g in inside if item == name), None)
        if own is not None and (told.meant is None or told.poured is None) and told.meant != told.poured:
            inside[:] = [(item, g) for item, g in inside if item != name]
            told.meant, told.poured = (own, told.poured) if told.meant is None else (told.meant, own)
        elif own is not None and told.off is not None and told.meant is None:
            inside[:] = [(item, g) for item, g in inside if item != name]
            told.meant = own  # "60 g too much milk, it was 500 flour, 300 milk"
    if told.meant is not None and told.poured is None and told.off is None:
        other = next((g for g in loose if g != told.meant and _alike(g, told.meant)), None)
        if other is not None:  # "the dough is at 60 %, should be 65"
            told.poured = other
            loose.remove(other)
    if many_times and told.meant is None and loose:
        told.meant = loose.pop(0)  # "salt is in it twice, 20 g each time"


_LIKE = 2.5
"""Two values of one thing, what was meant and what is there, lie within this factor of one another."""


def _alike(first: float, second: float) -> bool:
    """Whether two figures may be two values of one thing."""
    return first > 0 and second > 0 and 1 / _LIKE <= first / second <= _LIKE


def _likest(bound: Bound, meant: float, inside: list[tuple[str, float]]) -> int | None:
    """The place of the thing told whose amount is nearest to what was meant, where no word says which: "supposed to
    be 650" behind flour and 700 g water."""
    in_pct = any(h.amount is not None and h.amount.dim == "pct" and amount_base(h.amount) == meant for h in bound.hits)
    fitting = [
        (abs(math.log(g / meant)), item)
        for item, g in inside
        if _alike(g, meant) and (item == "hydration" or not in_pct)
    ]
    if not fitting:
        return None
    name = min(fitting)[1]
    return next((i for i in things_in(bound) if ids_of(bound.phrases[i])[0] == name), None)


def _settle_shares(bound: Bound, told: Told) -> None:
    """Percent said for one side only is kept apart: "wanted 65 %, only put 300 g water in"."""
    amounts = [hit.amount for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim == "pct"]
    pct = {amount_base(amount) for amount in amounts}
    pct |= {amount.old.base for amount in amounts if amount.old is not None}  # "3 % instead of 2"
    whole = bool(told.item is not None and ids_of(bound.phrases[told.item])[:1] == ("hydration",))
    bare = {amount_base(hit.amount) for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim == "num"}
    if told.item is not None and "water" in ids_of(bound.phrases[told.item]):
        bare = set()  # "wanted 65 %, only put 300 water in"
    meant_pct, poured_pct = told.meant in pct, told.poured in pct
    meant_pct = meant_pct or (poured_pct and told.meant in bare)  # "3 % salt instead of 2"
    poured_pct = poured_pct or (meant_pct and told.poured in bare)
    if meant_pct and poured_pct and not whole and told.item is not None:
        told.meant_pct, told.poured_pct = told.meant, told.poured
        told.meant = told.poured = None
        return
    if whole or meant_pct == poured_pct:
        return
    if meant_pct:
        told.meant_pct, told.meant = told.meant, None
    elif told.poured is not None:
        told.poured_pct, told.poured = told.poured, None


def _place_amount(
    bound: Bound, told: Told, inside: list[tuple[str, float]], loose: list[float], hit: Hit, place: int, value: float,
    many_times: bool,
) -> None:  # fmt: skip
    """Put one amount where it belongs."""
    phrases, amount = bound.phrases, hit.amount
    assert amount is not None
    thing = thing_beside(bound, place)
    role = role_of(bound, place)
    if role == "meant" and thing is not None and thing < place and fits(phrases[place - 1], ("link:instead_of",)):
        thing = None  # "into 800 g flour instead of 520": the 520 is of what went wrong, not of the flour
    if amount.dim == "num" and thing is not None and ids_of(phrases[thing])[0].startswith("egg"):
        told.counted = True
    same = told.item is None or thing is None or ids_of(phrases[thing])[:1] == ids_of(phrases[told.item])[:1]
    if amount.dim == "share":
        told.share = value
        told.item = thing if thing is not None else told.item
        return
    if many_times and thing is not None:
        if same:
            told.meant = value
        else:
            inside.append((ids_of(phrases[thing])[0], value))
        return
    if amount.old is not None:  # "300 instead of 250"
        told.poured, told.meant = value, amount.old.base
        told.item = thing if thing is not None else told.item
    elif role == "bowl" and thing is not None:
        inside.append((ids_of(phrases[thing])[0], value))
        return
    elif (
        role is None
        and same
        and thing is not None
        and told.poured is not None
        and told.meant is None
        and (bound.said("mistake:only_in"))
    ):  # "only 500 of the 620 water"
        told.meant, told.item = value, thing
    elif role in ("meant", "poured", "over", "under") and same:
        if role == "meant":
            told.meant = value
        elif role == "poured":
            told.poured = value
        else:
            told.off, told.more = value, role == "over"
        told.item = thing if thing is not None and told.item is None else told.item
    elif thing is not None:
        inside.append((ids_of(phrases[thing])[0], value))
        return
    else:
        loose.append(value)
    told.in_ml = told.in_ml or amount.dim == "volume"
