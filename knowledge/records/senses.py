"""Words that say the same where a question is asked, and how much such a word tells of what it is about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Sense(Record):
    """One sense and the words and turns for it, in their plain form: endings of verbs and plurals follow by themselves.

    weight: what share of its rarity counts, from 0 (it only asks: "reason", "really") over 0.3 (nearly every question
    has it: "bread") to 1.
    """

    said_as: tuple[str, ...]
    weight: float = 1.0
    source: str = "plain English"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A weight that is no share."""
        if not 0 <= self.weight <= 1:
            yield "weight: is not between 0 and 1"


FAMILY = Family(folder="senses", record=Sense)
