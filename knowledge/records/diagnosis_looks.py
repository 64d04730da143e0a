"""How a thing looks, feels, tastes, smells or behaves, and the fault that is on each part of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from knowledge.record import Confidence, Family, Record
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Part(Record):
    """A part a fault shows on, or (`of: context`) what a line must speak of for some looks to mean anything.

    of: the whole it belongs to.
    """

    said_as: tuple[str, ...]
    of: Literal["bread", "dough", "starter", "context"]
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look(Record):
    """One property with its likenesses.

    adjectives: further words, heard in their degrees too ("flat", "flatter"); verbs: likewise in their forms ("tear",
    "tears", "tearing"). of: part to the symptom it is there; a part that is not listed is taken as its whole. denied:
    likewise where it is said not to be so ("won't rise"). alone: the symptom where no part is said; empty: none.
    unsaid: likewise, denied. when: the context it needs, if any.
    """

    said_as: tuple[str, ...] = ()
    adjectives: tuple[str, ...] = ()
    verbs: tuple[str, ...] = ()
    of: Mapping[str, str] = field(default_factory=dict)
    denied: Mapping[str, str] = field(default_factory=dict)
    alone: str = ""
    unsaid: str = ""
    when: str = ""
    source: str = "bakers' words (the fault sheet, forums, teachers)"
    confidence: Confidence = "rule_of_thumb"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Looks that point at nothing."""
        for parts in (self.of, self.denied):
            for part, symptom in parts.items():
                if part not in kb.all(Part):
                    yield f"of: no part '{part}'"
                if symptom and symptom not in kb.all(Symptom):
                    yield f"of.{part}: no symptom '{symptom}'"
        for symptom in (self.alone, self.unsaid):
            if symptom and symptom not in kb.all(Symptom):
                yield f"alone: no symptom '{symptom}'"
        if self.when and self.when not in kb.all(Part):
            yield f"when: no context '{self.when}'"


PARTS = Family(folder="diagnosis/parts", record=Part)
LOOKS = Family(folder="diagnosis/looks", record=Look)
