"""Signs that come before any weighing of odds: mould, pink starter, rope, burning alkali."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record
from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger(Record):
    """One danger.

    symptoms: those that are this danger; said_as: other words for it.
    cause: the cause that stands first, with no odds; act: what to do, first and before anything else.
    harmless: what looks like it and is none (a fresh rye tint), said beside it.
    """

    COMPLAINT_KIND: ClassVar[str] = "danger"

    said_as: tuple[str, ...]
    symptoms: tuple[str, ...] = ()
    cause: str | None = None
    act: str
    why: str
    harmless: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Dangers that point at nothing."""
        if self.cause is not None and self.cause not in kb.all(Cause):
            yield f"cause: no cause '{self.cause}'"
        for symptom in self.symptoms:
            if symptom not in kb.all(Symptom):
                yield f"symptoms: no symptom '{symptom}'"


FAMILY = Family(folder="diagnosis/dangers", record=Danger)
