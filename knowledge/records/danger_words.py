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
    under several ids. verbs: plain forms of regular verbs ("nibble"), heard in all their forms. made_of: two danger
    words one after the other, "place>food" with only small words between, "smells..cellar" with any two at most.
    numbers: the least and the most of a bare number that is this word.
    `harmless` holds what only sounds like a sign ("orange zest"): it takes its words away from all others.
    """

    said_as: tuple[str, ...] = ()
    verbs: tuple[str, ...] = ()
    made_of: tuple[str, ...] = ()
    numbers: tuple[float, ...] = ()
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Words nobody can say, and words made of none."""
        if not (self.said_as or self.verbs or self.made_of or self.numbers):
            yield "said_as: is empty"
        if self.numbers and len(self.numbers) != 2:
            yield "numbers: the least and the most, and no more"
        for name in (name for rule in self.made_of for name in both_of(rule)[:2]):
            if name not in kb.all(DangerWord):
                yield f"made_of: no danger word '{name}'"


def both_of(rule: str) -> tuple[str, str, bool]:
    """The two words of a made one, and whether only small words may stand between them."""
    close = ">" in rule
    first, _, second = rule.partition(">" if close else "..")
    return first, second, close


FAMILY = Family(folder="diagnosis/danger_words", record=DangerWord)
