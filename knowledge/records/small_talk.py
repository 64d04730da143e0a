"""Lines that are no request, and the one line said back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallTalk(Record):
    """One kind of small talk, or of what is not ours. reply: one line, of at most 72 characters.

    holds: what it is heard beside: a bread named ("bread_told": only where nothing is asked), or hours and scores of
    what happens elsewhere ("figures").
    """

    said_as: tuple[str, ...]
    reply: str
    holds: Literal["", "bread_told", "bread", "figures"] = ""
    source: str = "plain English"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A reply that is more than a line."""
        if len(self.reply) > 72 or "\n" in self.reply:
            yield "reply: more than one line"


FAMILY = Family(folder="small_talk", record=SmallTalk)
