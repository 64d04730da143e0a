"""What units are called, and which definition a name stands for in which kitchen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

SYSTEMS = ("us", "metric", "imperial", "australian", "japanese")
"""The kitchens whose cups, spoons and pints differ."""

Dimension = Literal["mass", "volume", "length", "time", "temperature"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit(Record):
    """One unit as it is said.

    `said_as` in any case of letters, plurals included; `typed_as` only in exactly these letters ("T" is a tablespoon,
    "t" a teaspoon). `definition` names its definition in units.txt, `by_system` another one for kitchens that differ.
    """

    dimension: Dimension
    definition: str
    said_as: tuple[str, ...]
    typed_as: tuple[str, ...] = ()
    by_system: Mapping[str, str] = field(default_factory=dict)
    source: str = "named in units.txt"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        for system in self.by_system:
            if system not in SYSTEMS:
                yield f"by_system: no kitchen '{system}' (known: {', '.join(SYSTEMS)})"


FAMILY = Family(folder="units", record=Unit)
