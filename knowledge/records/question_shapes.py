"""The shapes a question about a thing of the trade can have: what is, why, is it needed, how, X or Y."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionShape(Record):
    """One shape. before: words in front of the thing asked about; after: words behind it."""

    before: tuple[str, ...]
    after: tuple[str, ...] = ()
    source: str = "plain English"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A shape nobody can ask in."""
        if not (self.before or self.after):
            yield "before: is empty"


FAMILY = Family(folder="question_shapes", record=QuestionShape)
