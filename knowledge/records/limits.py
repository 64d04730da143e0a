"""What a figure can be at all: beyond it a request is refused, whatever topic it belongs to, and nothing changes.

One record serves every field of that name, in requests, in what a dough is solved from, and in a kitchen's settings.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureLimit(Record):
    """The least and the most of one figure, in the unit its fields end in (g, %, °C, min, m; pieces are counted).

    fields: names of fields it holds for; `topic:name` holds for that topic alone and goes before the plain name.
    said: how the figure is named, {} standing for it. above: it must be more than `least`, not just as much.
    too_little, too_much: why it cannot be. nearest_low, nearest_high: the nearest that works.
    """

    TERM_KIND: ClassVar[str] = ""

    fields: tuple[str, ...]
    said: str
    least: float
    most: float
    above: bool = False
    too_little: str = ""
    too_much: str
    nearest_low: str
    nearest_high: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A figure that has no room, or no place in its own words."""
        if not self.least < self.most:
            yield "most: is not more than least"
        if "{}" not in self.said:
            yield "said: has no {} for the figure"
        if not self.fields:
            yield "fields: is empty"


FAMILY = Family(folder="limits", record=FigureLimit)
