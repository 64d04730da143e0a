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
    led = "for" in bound.next_to(main.amount, -1).ids("link")
    return led and bound.phrases.index(main.label) < bound.phrases.index(main.amount)


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
    quantity = bound.amount(slot).quantity
    return None if quantity is None else celsius(quantity.value, quantity.unit, 45)


def starter(bound: Bound) -> str | None:
    """Whether the starter is ripe or is to be fed first; None where nothing was said."""
    states = (("feed", "starter_state:feed"), ("ripe", "starter_state:*"))
    return next((state for state, word in states if bound.said(word)), None)


def cold(bound: Bound) -> str | None:
    """Where the dough goes cold: "bulk", "shaped", "both", "some" or "none"; None where nothing was said."""
    if bound.first("no_cold") is not None or bound.said("cold:none"):
        return "none"
    ids = set(bound.terms("cold", "cold"))
    ids |= {one for hit in bound.of("cold_h")[:1] for one in hit.ids("cold") or ("some",)}
    overnight = any("overnight" in p.ids("span") for p in bound.phrases) and not _of_the_air(bound)
    ids |= {"both"} if {"bulk", "shaped"} <= ids else {"some"} if overnight else set()
    return next((one for one in ("both", "bulk", "shaped", "some") if one in ids), None)


def autolyse(bound: Bound) -> float | None:
    """Minutes flour and water rest; 0 where that was refused."""
    if bound.first("no_autolyse") is not None:
        return 0.0
    named = None if bound.first("autolyse") is None else AUTOLYSE_MIN
    return bound.base("autolyse_min") or named


def risen(bound: Bound) -> float | None:
    """How far the bulk has got, in %."""
    quantity = bound.amount("risen").quantity
    return None if quantity is None else quantity.value * (100 if quantity.fraction else 1)


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
        Part(hit.ids("ingredient")[:1], pct=number(hit)) for hit in bound.of("flour_pct") if number(hit) is not None
    )
    named = {part.item[0] for part in shares}
    words = (one for one in bound.terms("flour", "ingredient") if one not in named and one != "flour_bread")
    return shares or tuple(Part((one,), rest=True, flour=True) for one in dict.fromkeys(words))


Ferments = tuple[tuple[str, float | None, float | None, float | None], ...]


def rows(bound: Bound, within: range | None = None) -> tuple[Part, ...]:
    """What else is in the dough, by its share: "24 rings with 2 % malt"; within: said at these places of the line."""
    return tuple(
        Part((item,), pct=number(hit))
        for hit in bound.of("row_pct")
        if number(hit) is not None and _inside(hit, bound, within)
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
    return bound.term("bath", "bath") or bound.term("bath", "ingredient")


def trays(bound: Bound) -> dict[str, float | None]:
    """Trays of the oven or of the fridge, by which of them takes them, and the fridge's litres."""
    count, millilitres = bound.base("trays"), bound.base("fridge_l")
    room = {"fridge_l": None if millilitres is None else millilitres / 1000}
    fridge_pieces = bound.base("fridge_pieces")
    if fridge_pieces is None:
        of_fridge = bound.said("holds:fridge") and not bound.said("holds:oven")
        return {"fridge_trays" if of_fridge else "trays": count, **room}
    by_tray = fits(bound.next_to(bound.amount("fridge_pieces")), ("holds:tray", "cue:tin"))
    own = {"fridge_trays": fridge_pieces, "fridge_pieces": None} if by_tray else {}
    return {"trays": count, **own, **room}
