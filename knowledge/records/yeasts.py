"""The kinds of commercial yeast and how much of each does the same work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Yeast(Record):
    """One kind of yeast; the id is the ingredient's. per_fresh: grams that do the work of 1 g of fresh yeast."""

    per_fresh: float

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Yeasts that do not exist, and ratios that cannot be."""
        if self.id not in kb.ingredients:
            yield f"id: no ingredient '{self.id}'"
        if not 0 < self.per_fresh <= 1:
            yield f"per_fresh: {self.per_fresh:g} is not above 0 and at most 1"


FAMILY = Family(folder="yeasts", record=Yeast)
