"""The temperatures of a line about water: of flour, room, starter, bowl, tap, of the water itself and of the dough."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, fits
from grammar.phrases import Phrase
from grammar.requests.warmth import WARMEST_C, Degrees, degrees_of
from grammar.requests.water_slots import COLD, FLOUR, MILK, STARTER, TEMPS, WATER

HOTTEST_WATER_C = 60.0
"""A bare figure above this, said of water, is Fahrenheit."""


@dataclass(frozen=True, slots=True)
class Parts:
    """Degrees Celsius of each thing that goes into the bowl, and of what comes out. was_water_c: water already used."""

    degrees: Degrees
    target_c: float | None = None
    flour_c: float | None = None
    room_c: float | None = None
    starter_c: float | None = None
    bowl_c: float | None = None
    milk_c: float | None = None
    tap_c: float | None = None
    need_c: float | None = None
    came_out_c: float | None = None
    was_water_c: float | None = None
    cold_is_others: bool = False  # what comes from the fridge is milk or flour

    @property
    def any(self) -> bool:
        """Whether any of them was said."""
        said = (self.target_c, self.flour_c, self.room_c, self.tap_c, self.need_c, self.starter_c, self.bowl_c)
        return any(one is not None for one in (*said, self.milk_c))


def parts_said(bound: Bound, fahrenheit: bool = False) -> Parts:
    """The temperatures by what they are of; fahrenheit: the talk was in it before."""
    degrees = degrees_of(bound, TEMPS, goes_on=fahrenheit)

    def of(slot: str, most_c: float = WARMEST_C) -> float | None:
        hit = bound.first(slot)
        return degrees.celsius(hit.amount, most_c) if hit else None

    parts = Parts(
        degrees, of("target_c"), of("flour_c"), of("room_c"), of("starter_c"), of("bowl_c"), of("milk_c"), of("tap_c"),
        of("need_c", HOTTEST_WATER_C), of("came_out_c"),
    )  # fmt: skip
    cups = bound.first("flour_cups")
    if cups is not None and parts.flour_c is None and cups.amount is not None and cups.amount.quantity is not None:
        parts = replace(parts, flour_c=cups.amount.quantity.value)  # "12 c flour" beside temperatures is no measure
    parts = _shared(_from_the_fridge(_by_nearest(_from_to(parts, bound), bound), bound), bound)
    return _water_or_dough(_as_it_was(parts, bound), bound)


def _as_it_was(parts: Parts, bound: Bound) -> Parts:
    """A dough that was: how warm it came out, the water it was mixed with, and what it should have been."""
    hit = bound.first("came_out_c")
    span = hit.amount if hit is not None else None
    if span is not None and span.high is not None:  # "22 instead of 25"
        came_c, meant_c = (parts.degrees.value_c(q.value, q.unit, WARMEST_C) for q in (span.quantity, span.high) if q)
        parts = replace(parts, came_out_c=came_c, target_c=meant_c if parts.target_c is None else parts.target_c)
    if parts.came_out_c is None and parts.target_c is not None and bound.said("mistake:water_was"):
        parts = replace(parts, came_out_c=parts.target_c, target_c=None)
    meant = bound.first("meant_c")
    if meant is not None and parts.target_c is None:
        parts = replace(parts, target_c=parts.degrees.celsius(meant.amount))
    water = bound.first("need_c")
    named = water is not None and water.label is not None and fits(water.label, (*WATER, "mistake:water_was"))
    if parts.came_out_c is None or not named or bound.said("heat:dough_asked"):
        return parts
    return replace(parts, was_water_c=parts.need_c, need_c=None)


def blends(bound: Bound, parts: Parts) -> bool:
    """Whether water is asked to be mixed of two, apart from any dough: kettle, ice, tap, no thermometer."""
    if parts.flour_c is not None or parts.room_c is not None:
        return False
    poured = parts.tap_c is not None and (bound.first("water_g") or bound.said("heat:kettle"))
    return bound.said("heat:ice", "heat:no_thermometer") or bool(poured) or _two_waters(bound, parts)


def _two_waters(bound: Bound, parts: Parts) -> bool:
    figures = (parts.target_c, parts.need_c, parts.tap_c)
    return bound.said("heat:kettle") and sum(one is not None for one in figures) >= 2


def _from_to(parts: Parts, bound: Bound) -> Parts:
    """ "from 22 to 10": what the water has and what it is to have."""
    hit = bound.first("from_c")
    span = hit.amount if hit is not None else None
    if span is None or span.quantity is None:
        return parts
    has_c = parts.degrees.value_c(span.quantity.value, span.quantity.unit, HOTTEST_WATER_C)
    if span.high is None:
        return replace(parts, tap_c=parts.tap_c if parts.tap_c is not None else has_c)
    return replace(parts, tap_c=has_c, need_c=parts.degrees.value_c(span.high.value, span.high.unit, HOTTEST_WATER_C))


def _by_nearest(parts: Parts, bound: Bound) -> Parts:
    """A bare figure is of the nearest thing before it that has none: "the flour's in from the shed at 6"."""
    hit = bound.first("need_c")
    if hit is None or hit.label is not None or hit.amount is None:
        return parts
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    for phrase in reversed(bound.phrases[:place]):
        if phrase.kind == "amount":
            return parts
        if phrase.kind == "label" and fits(phrase, FLOUR) and parts.flour_c is None:
            return replace(parts, flour_c=parts.need_c, need_c=None)
        if phrase.kind == "label" and fits(phrase, ("cue:kitchen",)) and parts.room_c is None:
            return replace(parts, room_c=parts.need_c, need_c=None)
    return parts


def _from_the_fridge(parts: Parts, bound: Bound) -> Parts:
    """What is said to come from the fridge behind the milk or the flour is theirs, not the starter's."""
    hit = bound.first("starter_c")
    if hit is None or hit.label is None or not fits(hit.label, COLD):
        return parts
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.label), 0)
    owner = next((p for p in reversed(bound.phrases[:place]) if fits(p, (*MILK, *FLOUR, *STARTER))), None)
    if owner is not None and fits(owner, MILK) and parts.milk_c is None:
        return replace(parts, milk_c=parts.starter_c, starter_c=None, cold_is_others=True)
    if owner is not None and fits(owner, FLOUR) and parts.flour_c is None:
        return replace(parts, flour_c=parts.starter_c, starter_c=None, cold_is_others=True)
    return parts


def _shared(parts: Parts, bound: Bound) -> Parts:
    """ "flour and room both at 20": one figure for two things joined; "everything at 20" is the kitchen's and all's."""
    flour, room = bound.first("flour_c"), bound.first("room_c")
    if parts.flour_c is None and _joined(bound, room, FLOUR):
        return replace(parts, flour_c=parts.room_c)
    if parts.room_c is None and _joined(bound, flour, ("cue:kitchen",)):
        return replace(parts, room_c=parts.flour_c)
    return parts


def _joined(bound: Bound, hit: Hit | None, other: tuple[str, ...]) -> bool:
    """Whether another thing stands joined before the one a figure is of, with no figure of its own."""
    if hit is None or hit.label is None:
        return False
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.label), 0)
    joint = bound.phrases[place - 1] if place >= 2 else None
    return joint is not None and _and(joint) and fits(bound.phrases[place - 2], other)


def _and(phrase: Phrase) -> bool:
    return "and" in phrase.ids("link") or (phrase.kind == "sep" and phrase.text.strip() in (",", "/"))


def _water_or_dough(parts: Parts, bound: Bound) -> Parts:
    """Which of two figures is the water's own and which the dough's."""
    if bound.said("heat:dough_asked") and parts.came_out_c is None:
        said = (parts.need_c, parts.tap_c, parts.target_c)
        water_c = next((one for one in said if one is not None), None)
        return replace(parts, was_water_c=water_c, need_c=None, target_c=None, tap_c=None)
    if parts.came_out_c is not None and parts.need_c is not None and parts.target_c is not None:
        return replace(parts, was_water_c=parts.need_c, need_c=None)
    if blends(bound, parts):
        if parts.tap_c is None and parts.need_c is not None and parts.target_c is not None:
            cold_c, warm_c = sorted((parts.need_c, parts.target_c))
            return replace(parts, tap_c=cold_c, need_c=warm_c, target_c=None)
        if parts.need_c is None:
            parts = replace(parts, need_c=parts.target_c, target_c=None)
        if bound.said("heat:kettle") and parts.tap_c is not None and parts.need_c is not None:
            parts = replace(parts, tap_c=min(parts.tap_c, parts.need_c), need_c=max(parts.tap_c, parts.need_c))
        elif bound.said("heat:ice") and parts.tap_c is not None and parts.need_c is not None:
            parts = replace(parts, tap_c=max(parts.tap_c, parts.need_c), need_c=min(parts.tap_c, parts.need_c))
        return parts
    if parts.target_c is None and parts.need_c is not None and (parts.flour_c is not None or parts.room_c is not None):
        return replace(parts, target_c=parts.need_c, need_c=None)  # "water for 25, flour 22"
    return parts
