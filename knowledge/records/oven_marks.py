"""Oven settings that are no temperatures: gas marks and words such as "hot oven"."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenMark(Record):
    """One gas mark: `mark` its number, `c` and `f` the settings usually printed beside it."""

    mark: float
    c: float
    f: float

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if abs((self.f - 32) / 1.8 - self.c) > 7:
            yield "c: more than 7 degrees from f"


FAMILY = Family(folder="oven_marks", record=OvenMark)
