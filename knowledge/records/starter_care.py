"""Keeping a starter: while away, and with little thrown away."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class StarterCare(Record):
    """One way of keeping a starter. up_to_days: how long it serves (None: not about time); steps: in order."""

    title: str
    steps: tuple[str, ...]
    up_to_days: float | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """There is something to do."""
        if not self.steps:
            yield "steps: is empty"


FAMILY = Family(folder="starter_care", record=StarterCare)
