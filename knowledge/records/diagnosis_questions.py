"""Questions a baker can be asked, and the facts their answers settle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record
from knowledge.records.diagnosis_facts import Measure
from knowledge.records.diagnosis_findings import Finding

if TYPE_CHECKING:
    from knowledge import Knowledge

ANSWERS = ("time", "temperature", "pct", "length", "num")
"""The sorts of amount that may be given bare as an answer: min, °C, %, cm, and a number without a unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question(Record):
    """One question.

    asks: measures and finding groups (`about`) an answer may settle, the main one first.
    yes, no: the finding meant by a bare yes or no, where the question can be answered so.
    takes: sort of a bare amount given as the answer -> the figure it then is, in that figure's unit where it had none.
    short: finding to the few words that mean it as an answer to this question only ("slowly", "hardly").
    known: 0..1, how many bakers can answer it after the fact.
    about: the parts of the trade it is for (bread, dough, starter).
    boiled: whether it is for boiled bread only.
    """

    ask: str
    asks: tuple[str, ...]
    yes: str | None = None
    no: str | None = None
    takes: Mapping[str, str] = field(default_factory=dict)
    short: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    known: float
    about: tuple[Literal["bread", "dough", "starter"], ...]
    boiled: bool = False
    leaven: Literal["any", "starter", "yeast"] = "any"

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Questions whose answer would settle nothing."""
        groups = {finding.about for finding in kb.all(Finding).values()}
        for asked in self.asks:
            if asked not in kb.all(Measure) and asked not in groups:
                yield f"asks: neither a measure nor findings about '{asked}'"
        for name, meant in (("yes", self.yes), ("no", self.no)):
            if meant is not None and meant not in kb.all(Finding):
                yield f"{name}: no finding '{meant}'"
        for sort in self.takes:
            if sort not in ANSWERS:
                yield f"takes: '{sort}' is none of {', '.join(ANSWERS)}"
        for meant in self.short:
            if meant not in kb.all(Finding):
                yield f"short: no finding '{meant}'"
        if not 0 < self.known <= 1:
            yield f"known: {self.known} is outside 0 to 1"


FAMILY = Family(folder="diagnosis/questions", record=Question)
