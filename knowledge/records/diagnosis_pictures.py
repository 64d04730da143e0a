"""Pictures and half words bakers complain in: a brick, soup, a dead jar."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture(Record):
    """Half words ("brick", "soup", "dead"); the id is that of the symptom.

    One picture may stand under several symptoms ("puddle": a flat loaf, a slack dough, liquid in the jar); what the
    line is about (baked bread, dough, starter) then decides.
    """

    COMPLAINT_KIND: ClassVar[str] = "picture"

    symptom: str
    said_as: tuple[str, ...]

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Pictures of nothing."""
        if self.symptom != self.id or self.symptom not in kb.all(Symptom):
            yield f"symptom: '{self.symptom}' must be the id and a symptom"


FAMILY = Family(folder="diagnosis/pictures", record=Picture)
