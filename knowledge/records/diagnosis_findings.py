"""Facts of a bake that are said in words: the lid left on, the dent that stayed, the salt forgotten."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record
from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding(Record):
    """One thing a baker may report.

    about: what it is a report on (dent, steam, cover ...); a bake has one finding about each, a later one replaces it.
    shows: the symptom it is by itself, if any ("the dent stayed"); it is then named as one too.
    opposite: the finding that holds when this one is denied ("the dent did not fill").
    usual, moves, say, family: as for a measure's band.
    """

    COMPLAINT_KIND: ClassVar[str] = "finding"

    about: str
    said_as: tuple[str, ...]
    short: str
    family: str
    usual: float = 1.0
    moves: Mapping[str, float]
    say: str
    opposite: str | None = None
    shows: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Findings that point at nothing."""
        for cause, weight in self.moves.items():
            if cause not in kb.all(Cause):
                yield f"moves: no cause '{cause}'"
            if not -4 <= weight <= 4:
                yield f"moves.{cause}: {weight} is no sensible log-odds (-4 to 4)"
        if self.opposite is not None and self.opposite not in kb.all(Finding):
            yield f"opposite: no finding '{self.opposite}'"
        if self.shows is not None and self.shows not in kb.all(Symptom):
            yield f"shows: no symptom '{self.shows}'"


FAMILY = Family(folder="diagnosis/findings", record=Finding)
