"""What each step of a bake is called, what to look for and what to do when it is not there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from knowledge.record import Family, Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Step(Record):
    """One step. `label` may hold {rise}, {temp}, {pieces}, {piece}, {count}; so may the other texts.

    hands_on: somebody works all the while; else whoever starts it must be there for its first minute only.
    look_for: the sign that it is done. fallback: what to do when the sign and the clock disagree. said_as: what a baker
    calls it, asking for its hour.
    """

    TERM_KIND: ClassVar[str] = "step"

    label: str
    hands_on: bool
    look_for: str
    fallback: str
    said_as: tuple[str, ...]


FAMILY = Family(folder="steps", record=Step)
