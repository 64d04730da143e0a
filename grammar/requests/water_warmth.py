"""The temperatures of a line about water: of flour, room, starter, bowl, tap, of the water itself and of the dough."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Any

from grammar.frames import NOTHING, Bound, fits
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

    def has(self, *names: str) -> bool:
        """Whether all of these were said."""
        return all(getattr(self, name) is not None for name in names)

    def moved(self, **to: str) -> Parts:
        """The same with figures in other places: `was_water_c="need_c"` takes the water's for that of the one used."""
        changed: dict[str, Any] = dict.fromkeys(to.values())
        return replace(self, **changed | {place: getattr(self, source) for place, source in to.items()})


def parts_said(bound: Bound, fahrenheit: bool = False) -> Parts:
    """The temperatures by what they are of; fahrenheit: the talk was in it before."""
    degrees = degrees_of(bound, TEMPS, goes_on=fahrenheit)

    def of(slot: str, most_c: float = WARMEST_C) -> float | None:
        return degrees.celsius(bound.amount(slot), most_c)

    parts = Parts(
        degrees, of("target_c"), of("flour_c"), of("room_c"), of("starter_c"), of("bowl_c"), of("milk_c"), of("tap_c"),
        of("need_c", HOTTEST_WATER_C), of("came_out_c"),
    )  # fmt: skip
    cups = bound.amount("flour_cups").quantity
    if cups is not None and parts.flour_c is None:
        parts = replace(parts, flour_c=cups.value)  # so many "c" of flour beside temperatures are no measure
    for step in (_from_to, _by_nearest, _from_the_fridge, _shared, _as_it_was, _water_or_dough):
        parts = step(parts, bound)
    return parts


def _as_it_was(parts: Parts, bound: Bound) -> Parts:
    """A dough that was: how warm it came out, the water it was mixed with, and what it should have been."""
    span = bound.amount("came_out_c")
    if span.high is not None:  # so warm, in the place of what it should have been
        came_c, meant_c = (parts.degrees.value_c(q.value, q.unit, WARMEST_C) for q in (span.quantity, span.high) if q)
        parts = replace(parts, came_out_c=came_c, target_c=meant_c if parts.target_c is None else parts.target_c)
    if parts.has("target_c") and not parts.has("came_out_c") and bound.said("mistake:water_was"):
        parts = parts.moved(came_out_c="target_c")
    if not parts.has("target_c"):
        parts = replace(parts, target_c=parts.degrees.celsius(bound.amount("meant_c")))
    named = fits(bound.word("need_c"), (*WATER, "mistake:water_was"))
    was = parts.has("came_out_c") and named and not bound.said("heat:dough_asked")
    return parts.moved(was_water_c="need_c") if was else parts


def blends(bound: Bound, parts: Parts) -> bool:
    """Whether water is asked to be mixed of two, apart from any dough: kettle, ice, tap, no thermometer."""
    if parts.has("flour_c") or parts.has("room_c"):
        return False
    poured = parts.has("tap_c") and (bound.first("water_g") or bound.said("heat:kettle"))
    return bound.said("heat:ice", "heat:no_thermometer") or bool(poured) or _two_waters(bound, parts)


def _two_waters(bound: Bound, parts: Parts) -> bool:
    return bound.said("heat:kettle") and sum(parts.has(one) for one in ("target_c", "need_c", "tap_c")) >= 2


def _from_to(parts: Parts, bound: Bound) -> Parts:
    """What the water has and, behind it, what it is to have."""
    span = bound.amount("from_c")
    has_c, need_c = (
        None if end is None else parts.degrees.value_c(end.value, end.unit, HOTTEST_WATER_C)
        for end in (span.quantity, span.high)
    )
    if need_c is not None:
        return replace(parts, tap_c=has_c, need_c=need_c)
    return parts if parts.has("tap_c") else replace(parts, tap_c=has_c)


def _owned(parts: Parts, figure: str, words: Iterable[Phrase], owners: Mapping[str, tuple[str, ...]]) -> Parts:
    """A figure given to the first of these words that owns one and has none yet."""
    named = (name for word in words for name, patterns in owners.items() if fits(word, patterns))
    name = next((one for one in named if not parts.has(one)), None)
    return parts if name is None else parts.moved(**{name: figure})


def _back_from(phrase: Phrase, bound: Bound) -> list[Phrase]:
    """The phrases before one of the line, the nearest first."""
    return list(bound.phrases[: bound.phrases.index(phrase)][::-1])


def _by_nearest(parts: Parts, bound: Bound) -> Parts:
    """A bare figure is of the nearest thing before it that has none."""
    figure = bound.amount("need_c")
    if figure is NOTHING or bound.word("need_c") is not NOTHING:
        return parts
    near = takewhile(lambda phrase: phrase.kind != "amount", _back_from(figure, bound))
    return _owned(parts, "need_c", near, {"flour_c": FLOUR, "room_c": _ROOM})


def _from_the_fridge(parts: Parts, bound: Bound) -> Parts:
    """What is said to come from the fridge behind the milk or the flour is theirs, not the starter's."""
    cold = bound.word("starter_c")
    if not fits(cold, COLD):
        return parts
    owner = [p for p in _back_from(cold, bound) if fits(p, (*MILK, *FLOUR, *STARTER))][:1]
    given = _owned(parts, "starter_c", owner, {"milk_c": MILK, "flour_c": FLOUR})
    return replace(given, cold_is_others=given is not parts)


_ROOM = ("cue:kitchen",)


def _shared(parts: Parts, bound: Bound) -> Parts:
    """One figure for two things joined: for flour and room both."""
    for name, other, words in (("flour_c", "room_c", FLOUR), ("room_c", "flour_c", _ROOM)):
        if not parts.has(name) and _joined(bound, bound.word(other), words):
            return replace(parts, **{name: getattr(parts, other)})
    return parts


def _joined(bound: Bound, word: Phrase, other: tuple[str, ...]) -> bool:
    """Whether another thing stands joined before the one a figure is of, with no figure of its own."""
    return word is not NOTHING and _and(bound.next_to(word, -1)) and fits(bound.next_to(word, -2), other)


def _and(phrase: Phrase) -> bool:
    return "and" in phrase.ids("link") or (phrase.kind == "sep" and phrase.text.strip() in (",", "/"))


def _water_or_dough(parts: Parts, bound: Bound) -> Parts:
    """Which of two figures is the water's own and which the dough's."""
    if bound.said("heat:dough_asked") and not parts.has("came_out_c"):
        water = next((one for one in ("need_c", "tap_c", "target_c") if parts.has(one)), "need_c")
        return replace(parts.moved(was_water_c=water), need_c=None, target_c=None, tap_c=None)
    if parts.has("came_out_c", "need_c", "target_c"):
        return parts.moved(was_water_c="need_c")
    if blends(bound, parts):
        return _of_two_waters(parts, bound)
    alone = parts.has("need_c") and not parts.has("target_c") and (parts.has("flour_c") or parts.has("room_c"))
    return parts.moved(target_c="need_c") if alone else parts


def _of_two_waters(parts: Parts, bound: Bound) -> Parts:
    """The water there is and the water wanted: from the kettle it gets warmer, with ice colder."""
    if parts.has("need_c", "target_c") and not parts.has("tap_c"):
        return replace(parts, target_c=None, **_cold_and_warm(parts.need_c, parts.target_c, "tap_c", "need_c"))
    if not parts.has("need_c"):
        parts = parts.moved(need_c="target_c")
    if not parts.has("tap_c", "need_c") or not bound.said("heat:kettle", "heat:ice"):
        return parts
    colder, warmer = ("tap_c", "need_c") if bound.said("heat:kettle") else ("need_c", "tap_c")
    return replace(parts, **_cold_and_warm(parts.tap_c, parts.need_c, colder, warmer))


def _cold_and_warm(one_c: float | None, other_c: float | None, colder: str, warmer: str) -> dict[str, Any]:
    """Two temperatures by name, the lower one first."""
    return dict(zip((colder, warmer), sorted((one_c or 0.0, other_c or 0.0)), strict=True))
