"""The book of kitchen measures: what a cup, a spoon, a pack and a heap hold, and how an amount is stated.

Volumes are scaled by millilitres between cup systems. `weighing.py` turns an amount into grams by this book.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from knowledge import Knowledge
from knowledge.records.fills import Fill
from knowledge.records.ingredients import Ingredient
from knowledge.records.manners import Manner
from knowledge.records.measures import Measure
from knowledge.records.namesakes import Namesake
from knowledge.records.packs import Pack

CupSystem = Literal["us", "metric", "imperial", "australian", "japanese"]
EGG_SIZES = {
    "small": "egg_small", "medium": "egg_medium", "large": "egg_whole", "extra large": "egg_xl", "jumbo": "egg_jumbo",
}  # fmt: skip

SYSTEM_NAMES = {
    "us": "US", "metric": "metric", "imperial": "imperial", "australian": "Australian", "japanese": "Japanese",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """One amount as stated: `low` to `high` of a measure (its id), with what was said of size, filling and pack."""

    low: float
    high: float
    unit: str
    size: str | None = None
    manner: str | None = None
    pack: Said | None = None
    system: str | None = None

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True)
class MeasureBook:
    """The facts of measuring, ready to be looked up."""

    measures: Mapping[str, Measure]
    ingredients: Mapping[str, Ingredient]
    manners: Mapping[str, Manner]
    packs: tuple[Pack, ...]
    fills: Mapping[str, tuple[Fill, ...]]
    namesakes: tuple[Namesake, ...]
    _patterns: dict[str, re.Pattern[str]] = field(default_factory=dict, repr=False, compare=False)

    def ml(self, unit: str, system: str) -> float:
        """Millilitres of one measure under a cup system. KeyError for what is no volume."""
        volumes = self.measures[unit].ml
        return volumes.get(system, volumes["us"])

    def dimension(self, unit: str) -> str:
        return self.measures[unit].dimension

    def packed_as(self, unit: str, items: Sequence[str]) -> str:
        """The one of these things that comes in such a pack (a cube of yeast is fresh), else the first."""
        packed = {item for pack in self.packs if pack.unit == unit for item in pack.items}
        return next((item for item in items if item in packed), items[0])

    def fill_of(self, item: str, states: str) -> Fill | None:
        """How the thing is filled or cut when it is measured, the longest saying first."""
        at = _outside_comma(states)
        before, later = states[:at], states[at:]
        sayings = [(form, fill) for fill in self.fills.get(item, ()) for form in fill.said_as]
        for form, fill in sorted(sayings, key=lambda pair: -len(pair[0])):
            if self._says(before, form) or (fill.after_comma and self._says(later, form)):
                return fill
        if later:
            for fill in self.fills.get(item, ()):
                if any(self._says(later, form) for form in fill.later_as):
                    return fill
        return None

    def _says(self, text: str, form: str) -> bool:
        pattern = self._patterns.get(form)
        if pattern is None:
            pattern = re.compile(rf"(?<![a-z])(?<!not )(?<!un){re.escape(form)}(?![a-z])")
            self._patterns[form] = pattern
        return pattern.search(text) is not None


def _outside_comma(text: str) -> int:
    """Place of the first comma outside brackets that follows a letter; the text's end where there is none."""
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth <= 0 and re.search(r"[a-z]{3}", text[:place]):
            return place
    return len(text)


def measure_book(kb: Knowledge) -> MeasureBook:
    """The book of measures from the trade facts."""
    fills: dict[str, tuple[Fill, ...]] = {}
    for fill in kb.all(Fill).values():
        for item in fill.items:
            fills[item] = (*fills.get(item, ()), fill)
    return MeasureBook(
        kb.all(Measure),
        kb.ingredients,
        kb.all(Manner),
        tuple(kb.all(Pack).values()),
        fills,
        tuple(kb.all(Namesake).values()),
    )


def item_meant(item: str, phrase: str, size: str | None, system: str, book: MeasureBook) -> tuple[str, str | None]:
    """(ingredient id, why it is another than the word's first meaning).

    Egg sizes choose the egg; a name that differs between countries goes by the cup system that was said or set, and
    by its spelling where none was (`system` empty).
    """
    if item == "egg_whole" and size:
        item = EGG_SIZES.get(size, item)
    for namesake in book.namesakes:
        named = not namesake.words or phrase in namesake.words or (item == "egg_whole" and size == "large")
        meant = namesake.means.get(system) if system else namesake.unsaid
        if namesake.item == item and named and meant is not None and meant != item:
            return meant, namesake.because
    return item, None
