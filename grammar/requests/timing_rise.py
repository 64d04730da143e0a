"""How far a dough is to rise, how far it has risen, and the starter of a feed or of the question before."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, fits
from grammar.requests.timing_leaven import parts_of
from grammar.requests.timing_slots import STARTER
from grammar.requests.timing_spans import is_goal, share_pct

_SIZES = (("look:tripled", 200.0), ("look:doubled", 100.0))
_TIMES = (
    ("act:double", 2.0), ("look:doubled", 2.0), ("mistake:twice", 2.0), ("act:halve", 0.5), ("act:triple", 3.0),
    ("look:tripled", 3.0),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Rise:
    """Per cent of the volume it began with. to_pct: what it is to get to; now_pct: what it has."""

    to_pct: float | None = None
    now_pct: float | None = None


def rise_of(bound: Bound) -> Rise:
    """A rise is what it has ("is up 40 %"), what it is to get to ("till up 40 %"), or both ("from 30 to 75 %")."""
    aim, seen = bound.first("rise_pct"), bound.first("risen_now") or bound.first("risen_from")
    span = aim.amount if aim is not None else None
    if span is not None and span.quantity is not None and span.high is not None and "from" in _links(bound, span):
        unit = 100 if span.dim == "share" else 1
        return Rise(span.high.base * unit, span.quantity.base * unit)
    to_pct = _aimed(bound)
    if seen is None:
        return Rise(to_pct)
    sought = bound.said("ask:how_warm", "ask:what_share") or is_goal(bound, seen)
    return Rise(share_pct(seen)) if sought and to_pct is None else Rise(to_pct, share_pct(seen))


def _links(bound: Bound, amount: object) -> tuple[str, ...]:
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is amount), 0)
    return bound.phrases[place - 1].ids("link") if place else ()


def _aimed(bound: Bound) -> float | None:
    hit = bound.first("rise_pct")
    if hit is not None:
        return share_pct(hit)
    number = bound.base("rise_num")
    if number is not None or starter_times(bound) is not None:
        return number
    return next((pct for word, pct in _SIZES if bound.said(word)), None)


def ratio_of(bound: Bound) -> tuple[float, float, float] | None:
    """A feed's starter, flour and water."""
    parts = parts_of(bound.first("ratio"))
    if parts is None and bound.said("feeding:equal_parts"):
        return 1.0, 1.0, 1.0
    return (parts[0], parts[1], parts[2]) if parts is not None and len(parts) == 3 else None


def starter_times(bound: Bound) -> float | None:
    """How many times as much starter: "double the starter", "half the amount of levain", "cut the starter in half"."""
    told = [one for one in bound.phrases if one.kind != "link"]
    for place, phrase in enumerate(told):
        if not fits(phrase, STARTER):
            continue
        before = told[place - 1] if place else None
        part = bound.next_to(phrase, -1)  # "a fifth of starter" is a share of the flour
        if part.kind == "amount" and part.dim == "share" and part.quantity is not None:
            return part.quantity.value if part.quantity.value <= 0.5 else None
        number = told[place - 2].quantity if place > 1 and before is not None and fits(before, ("act:scale",)) else None
        if number is not None:
            return number.value
        # what only "doubles" behind it is the dough
        behind = [one for one in told[place + 1 : place + 2] if fits(one, ("act:halve",))]
        beside = [one for one in (before, *behind) if one is not None and one.kind == "label"]
        said = next((times for one in beside for word, times in _TIMES if fits(one, (word,))), None)
        if said is not None:
            return said
    return None
