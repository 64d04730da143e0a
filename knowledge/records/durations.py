"""Plain lengths of steps that no model computes: kneading, resting, heating an oven."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration(Record):
    """How long a step takes, minutes, with its usual range.

    stage: the step; sign: how to tell that it is done.
    """

    stage: str
    low_min: float
    usual_min: float
    high_min: float
    sign: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """The usual time lies inside its range."""
        if not 0 < self.low_min <= self.usual_min <= self.high_min:
            yield "usual_min: not between low_min and high_min"


FAMILY = Family(folder="durations", record=Duration)
