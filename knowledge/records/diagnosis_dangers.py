"""Signs that come before any weighing of odds: mould, pink starter, glass, burning alkali, an animal full of dough."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record
from knowledge.records.danger_words import DangerWord
from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_symptoms import Symptom
from knowledge.records.explanations import Explanation

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger(Record):
    """One danger.

    when: any of these is enough, each made of danger words that must all be said near each other ("starter+fuzz"); one
    said of the other is written "bowl~broken"; "@9" at the end is its own number of words for `within`.
    unless: danger words that, said anywhere, make it something else; within: words between the first and the last of
    them at most; rank: of several heard the lowest stands.
    title: what it is, in a few words. cause: the fault that stands first, with no odds; without one it is a question of
    health and answered as such. symptoms: those that are this danger; topic: the explanation told instead of act and
    why. act: what to do, first and before anything else. whom: whom to call. harmless: what looks like it and is none.
    """

    title: str
    when: tuple[str, ...]
    unless: tuple[str, ...] = ()
    within: int = 14
    rank: int = 50
    symptoms: tuple[str, ...] = ()
    cause: str | None = None
    topic: str | None = None
    act: str = ""
    why: str = ""
    whom: str = ""
    harmless: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Dangers that point at nothing."""
        if self.cause is not None and self.cause not in kb.all(Cause):
            yield f"cause: no cause '{self.cause}'"
        if self.topic is not None and self.topic not in kb.all(Explanation):
            yield f"topic: no topic '{self.topic}'"
        if self.topic is None and not (self.act and self.why):
            yield "act: a danger without what to do and why"
        for symptom in self.symptoms:
            if symptom not in kb.all(Symptom):
                yield f"symptoms: no symptom '{symptom}'"
        for rule in self.when:
            for word in (w for part in parts_of(rule, 0)[0] for w in part.split("~")):
                if word not in kb.all(DangerWord):
                    yield f"when: no danger word '{word}'"
        for word in self.unless:
            if word not in kb.all(DangerWord):
                yield f"unless: no danger word '{word}'"


def parts_of(rule: str, within: int) -> tuple[tuple[str, ...], int]:
    """The parts of a rule as written, and the most words from the first to the last."""
    words, _, own = rule.partition("@")
    return tuple(words.split("+")), int(own) if own else within


FAMILY = Family(folder="diagnosis/dangers", record=Danger)
