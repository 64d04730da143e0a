"""How much more (or less) water a flour wants than white wheat flour for the same feel."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Thirst(Record):
    """One flour; the id is the ingredient's.

    points_per_10_pct: points of hydration to add for every 10 % of all flour that is this one; below 0: take off.
    """

    points_per_10_pct: float

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Flours that do not exist."""
        if self.id not in kb.ingredients:
            yield f"id: no ingredient '{self.id}'"


FAMILY = Family(folder="thirst", record=Thirst)
