"""Kitchen measures: what a unit is called and how much it holds, per cup system where systems differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge

CUP_SYSTEMS = ("us", "metric", "imperial", "australian", "japanese")
"""The cup systems a kitchen may have in force; `metric` is 250/15/5 ml."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure(Record):
    """A unit a kitchen weighs, measures or counts with.

    said_as: every way it is written; names of one or two capitals are matched as typed ("T" is a tablespoon, "t" a
    teaspoon). dimension: "count" covers packs and pieces whose weight depends on the thing (a stick, a packet).
    g: grams of one, for masses. ml: millilitres of one by cup system, `us` always there; a system left out is as `us`.
    low_share, high_share: how far one measure of this name is from the next, as a share of it (a pinch, a handful).
    """

    name: str
    said_as: tuple[str, ...]
    dimension: Literal["mass", "volume", "count"]
    g: float | None = None
    ml: Mapping[str, float] = field(default_factory=dict)
    low_share: float | None = None
    high_share: float | None = None
    note: str = ""

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if (self.dimension == "mass") != (self.g is not None):
            yield "g: a mass has grams, and nothing else has"
        if (self.dimension == "volume") != ("us" in self.ml):
            yield "ml: a volume has millilitres under us, and nothing else has"
        for system in self.ml:
            if system not in CUP_SYSTEMS:
                yield f"ml: {system} is no cup system ({', '.join(CUP_SYSTEMS)})"


FAMILY = Family(folder="measures", record=Measure)
