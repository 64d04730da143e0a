"""What a plan is for and how it is to go: the dough, the air, the starter, the cold."""

from __future__ import annotations

from grammar.frames import Bound, Hit, celsius, fits
from grammar.requests.formula import Part
from grammar.requests.formula_parts import number, own_hydration, without_amount

AUTOLYSE_MIN = 30.0
"""Flour and water rest so long where only the rest was asked for."""


def doughs(bound: Bound) -> tuple[Hit, ...]:
    """The numbers of pieces said, in the order of the line."""
    hits = (*bound.of("pieces"), *bound.of("others"))
    return tuple(sorted(hits, key=lambda hit: 0 if hit.amount is None else bound.phrases.index(hit.amount)))


def for_heads(main: Hit | None, bound: Bound) -> bool:
    """Whether the number is of the people a bread is for: "focaccia for 12"."""
    if main is None or main.amount is None or main.label is None:
        return False
    place = bound.phrases.index(main.amount)
    led = place > 0 and "for" in bound.phrases[place - 1].ids("link")
    return led and bound.phrases.index(main.label) < place


def kinds(bound: Bound, doughs: tuple[Hit, ...]) -> tuple[str | None, str | None]:
    """The bread and the piece named, by a word of their own or by what is counted."""
    bread, piece = bound.term("bread", "bread"), bound.term("piece", "piece")
    for hit in (*doughs[:1], *bound.hits):
        if hit in doughs[1:]:
            continue
        bread = bread or next(iter(hit.ids("bread")), None)
        piece = piece or next(iter(hit.ids("piece")), None)
    return bread, piece


def degrees(bound: Bound, slot: str) -> float | None:
    """A temperature in °C."""
    hit = bound.first(slot)
    quantity = hit.amount.quantity if hit is not None and hit.amount is not None else None
    return None if quantity is None else celsius(quantity.value, quantity.unit, 45)


def starter(bound: Bound) -> str | None:
    """Whether the starter is ripe or is to be fed first; None where nothing was said."""
    states = [i for p in bound.phrases if not p.negated for i in p.ids("starter_state")]
    if "feed" in states:
        return "feed"
    return "ripe" if states else None


def cold(bound: Bound) -> str | None:
    """Where the dough goes cold: "bulk", "shaped", "both", "some" or "none"; None where nothing was said."""
    if bound.first("no_cold") is not None or bound.said("cold:none"):
        return "none"
    ids = list(bound.terms("cold", "cold"))
    hour = bound.first("cold_h")
    if hour is not None:
        ids += list(hour.ids("cold")) or ["some"]
    if "both" in ids or {"bulk", "shaped"} <= set(ids):
        return "both"
    for one in ("bulk", "shaped", "some"):
        if one in ids:
            return one
    alone = any("overnight" in p.ids("span") for p in bound.phrases) and not _of_the_air(bound)
    return "some" if alone else None


def autolyse(bound: Bound) -> float | None:
    """Minutes flour and water rest; 0 where that was refused."""
    if bound.first("no_autolyse") is not None:
        return 0.0
    if bound.first("autolyse_min") is not None:
        return bound.base("autolyse_min")
    return None if bound.first("autolyse") is None else AUTOLYSE_MIN


def risen(bound: Bound) -> float | None:
    """How far the bulk has got, in %."""
    hit = bound.first("risen")
    quantity = hit.amount.quantity if hit is not None and hit.amount is not None else None
    if quantity is None:
        return None
    return quantity.value * 100 if quantity.fraction else quantity.base


def _of_the_air(bound: Bound) -> bool:
    """Whether the night is said of the room rather than of the dough."""
    return bound.first("night_c") is not None or bound.first("night_fall_c") is not None


def air(bound: Bound) -> tuple[float | None, float | None]:
    """The air by day and by night in °C. "boathouse 9 at night, 14 by day": the word for the day says which is which;
    "drops by 5 overnight" is so much less than by day."""
    kitchen_c, night_c, day_c = (degrees(bound, slot) for slot in ("kitchen_c", "night_c", "day_c"))
    box_c = degrees(bound, "box_c")
    if box_c is not None:
        return box_c, box_c
    if day_c is not None:
        kitchen_c, night_c = day_c, night_c if night_c is not None else kitchen_c
    fall = bound.base("night_fall_c")
    if fall is not None and night_c is None and kitchen_c is not None:
        night_c = kitchen_c - fall
    return kitchen_c, night_c


def flours(bound: Bound) -> tuple[Part, ...]:
    """The flours of the dough: "20 rye rolls", "30 % rye"."""
    shares = tuple(
        Part((hit.ids("ingredient")[0],), pct=hit.amount.quantity.value)
        for hit in bound.of("flour_pct")
        if hit.amount is not None and hit.amount.quantity is not None
    )
    named = {part.item[0] for part in shares}
    words = (one for one in bound.terms("flour", "ingredient") if one not in named and one != "flour_bread")
    return shares or tuple(Part((one,), rest=True, flour=True) for one in dict.fromkeys(words))


Ferments = tuple[tuple[str, float | None, float | None, float | None], ...]


def rows(bound: Bound, within: range | None = None) -> tuple[Part, ...]:
    """What else is in the dough, by its share: "24 rings with 2 % malt"; within: said at these places of the line."""
    return tuple(
        Part((item,), pct=hit.amount.quantity.value)
        for hit in bound.of("row_pct")
        if hit.amount is not None and hit.amount.quantity is not None and _inside(hit, bound, within)
        for item in hit.ids("ingredient")[:1]
    )


def _inside(hit: Hit, bound: Bound, within: range | None) -> bool:
    return within is None or (hit.amount is not None and bound.phrases.index(hit.amount) in within)


def preferments(bound: Bound, within: range | None = None) -> Ferments:
    """The preferments said, with their share or mass; named alone, the kind's usual share."""
    sized = [
        (hit, hit.slot == "preferment_pct") for one in _SIZED for hit in bound.of(one) if _inside(hit, bound, within)
    ]
    said = tuple(
        (kind, number(hit) if by_share else None, None if by_share else number(hit), own_hydration(bound, hit))
        for hit, by_share in sized
        for kind in hit.ids("preferment")[:1]
    )
    there = bound.phrases if within is None else [bound.phrases[place] for place in within]
    named = {kind for phrase in there for kind in phrase.ids("preferment")}
    return (*said, *((kind, None, None, None) for kind in without_amount(bound) if kind in named))


_SIZED = ("preferment_pct", "preferment_g")


def bath(bound: Bound) -> str | None:
    """The bath named, or what is dissolved in it: "12 pretzels in lye"."""
    named = bound.term("bath", "bath")
    return named if named is not None else bound.term("bath", "ingredient")


def trays(bound: Bound) -> dict[str, float | None]:
    """Trays of the oven or of the fridge, by which of them takes them, and the fridge's litres."""
    count, millilitres = bound.base("trays"), bound.base("fridge_l")
    room = {"fridge_l": None if millilitres is None else millilitres / 1000}
    hit = bound.first("fridge_pieces")
    if hit is None or hit.amount is None:
        of_fridge = bound.said("holds:fridge") and not bound.said("holds:oven")
        return {"fridge_trays" if of_fridge else "trays": count, **room}
    behind = bound.phrases[bound.phrases.index(hit.amount) + 1 :][:1]
    if behind and fits(behind[0], ("holds:tray", "cue:tin")):
        return {"trays": count, "fridge_trays": bound.base("fridge_pieces"), "fridge_pieces": None, **room}
    return {"trays": count, **room}
