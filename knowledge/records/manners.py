"""How full a cup or spoon is said to be: scant, heaped, generous, level."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner(Record):
    """One way of filling: shares of the level measure, for cups and for spoons, each with its low and high."""

    cup: float
    cup_low: float
    cup_high: float
    spoon: float
    spoon_low: float
    spoon_high: float

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if not (self.cup_low <= self.cup <= self.cup_high and self.spoon_low <= self.spoon <= self.spoon_high):
            yield "cup: a share is not between its low and high"


FAMILY = Family(folder="manners", record=Manner)
