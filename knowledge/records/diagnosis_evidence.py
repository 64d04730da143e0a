"""How often a symptom is seen under a cause, and what then tells that cause from its rivals."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record
from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge

Strength = Literal["strong", "usual", "possible", "against"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign(Record):
    """One cell of the table symptom x cause.

    tells_apart: what to look for that speaks for this cause and not for another with the same symptom.
    """

    symptom: str
    cause: str
    strength: Strength
    tells_apart: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Cells that point at nothing."""
        if self.symptom not in kb.all(Symptom):
            yield f"symptom: no symptom '{self.symptom}'"
        if self.cause not in kb.all(Cause):
            yield f"cause: no cause '{self.cause}'"


FAMILY = Family(folder="diagnosis/evidence", record=Sign)
