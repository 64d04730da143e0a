"""Whether what went wrong may still be eaten."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Eating(Record):
    """What is said to somebody who asks whether it is safe to eat.

    symptoms: those it is about; with none, every other fault of what it is `of`. say: the answer, the verdict first.
    """

    of: Literal["bread", "dough", "starter"]
    symptoms: tuple[str, ...] = ()
    say: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Symptoms nobody knows."""
        yield from (f"symptoms: no symptom '{one}'" for one in self.symptoms if one not in kb.all(Symptom))


def eating(symptoms: tuple[str, ...], of: str, kb: Knowledge) -> str:
    """Whether it may be eaten, by the first symptom that has a word of its own, else by what it is."""
    records = kb.all(Eating).values()
    own = (one.say for symptom in symptoms for one in records if symptom in one.symptoms)
    return next(own, "") or next(one.say for one in records if one.of == of and not one.symptoms)


FAMILY = Family(folder="diagnosis/eating", record=Eating)
