"""Words a danger is heard by: things ("starter", "tray") and signs ("fuzz", "splinters"), each with its likenesses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class DangerWord(Record):
    """One thing or sign, said in any of these ways.

    said_as: its words; plurals come by themselves, the longest words that fit at a place are meant. A word may stand
    under several ids. `harmless` holds what only sounds like a sign ("orange zest", "cake mould"): it takes its words
    away from all others.
    """

    said_as: tuple[str, ...]
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Words nobody can say."""
        if not self.said_as:
            yield "said_as: is empty"


FAMILY = Family(folder="diagnosis/danger_words", record=DangerWord)
