"""Minutes that work by hand and hot things take in a home kitchen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchWork(Record):
    """One kind of work: `minutes` for any batch, plus `per_piece_min` a piece and `per_kg_min` a kilogram of dough."""

    meaning: str
    minutes: float
    per_piece_min: float = 0.0
    per_kg_min: float = 0.0

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if min(self.minutes, self.per_piece_min, self.per_kg_min) < 0:
            yield "minutes: cannot be negative"


FAMILY = Family(folder="bench_work", record=BenchWork)
