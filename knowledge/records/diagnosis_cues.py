"""Words a complaint is steered by: what it is about, which stage or figure a number belongs to, plain talk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue(Record):
    """Ways of saying one steering word.

    kind: subject (bread, dough, starter: what the complaint is about), figure (the stage or thing a number is of),
    agent (what is in the bath), talk (words that carry no fact), ask (turns of the dialogue: skip, what else, no idea),
    state (where the thing stands now: in the oven, just out, in the fridge, eaten),
    turn (what makes up the question what is to be done: asks, deed, lot, ahead; one of two of them has both names),
    alike (single words that say in a turn of speech what `name` says in it: "stinks" of beer for "smells").
    The id is `kind_name`; `name` what the reader calls it.
    """

    COMPLAINT_KIND: ClassVar[str] = "cue"

    kind: Literal["subject", "figure", "agent", "talk", "ask", "alike", "state", "turn"]
    name: str
    said_as: tuple[str, ...]
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Cues nobody can say."""
        if not self.said_as:
            yield "said_as: is empty"
        if self.id != f"{self.kind}_{self.name}":
            yield f"name: the id must be '{self.kind}_{self.name}'"
        if self.kind == "alike" and any(" " in form for form in self.said_as):
            yield "said_as: words that are alike are single words"


FAMILY = Family(folder="diagnosis/cues", record=Cue)
