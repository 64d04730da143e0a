"""What is known of one fault, and the tables it is weighed by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_dangers import Danger
from knowledge.records.diagnosis_evidence import Sign
from knowledge.records.diagnosis_facts import Measure
from knowledge.records.diagnosis_findings import Finding
from knowledge.records.diagnosis_questions import Question
from knowledge.records.diagnosis_symptoms import Symptom

if TYPE_CHECKING:
    from knowledge import Knowledge

STRENGTH: Mapping[str, float] = {"strong": 1.6, "usual": 0.9, "possible": 0.3, "against": -1.2}
UNLISTED = -1.6
"""A cause the table does not name under a symptom is seldom behind it."""
ELSEWHERE = -5.0
"""A cause that cannot touch the thing (a jar of starter is not under-proofed), or that the symptom contradicts."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A measured fact. how: the reason in words where it was worked out ("3 h at 17 °C: 13 to 17 h expected").

    weight: less than 1 where something had to be assumed to work it out; assumed: that, in words.
    """

    measure: str
    value: float
    how: str | None = None
    weight: float = 1.0
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that is known of one fault: what shows, what does not, figures and findings (ids of the knowledge)."""

    symptoms: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()
    findings: tuple[str, ...] = ()

    def known(self, tables: Tables) -> frozenset[str]:
        """Measures and finding groups that are settled."""
        groups = {tables.findings[one].about for one in self.findings}
        return frozenset(groups | {figure.measure for figure in self.figures})


@dataclass(frozen=True, slots=True)
class Tables:
    """The evidence model, indexed. signs: (symptom, cause) -> the cell of the table."""

    causes: Mapping[str, Cause]
    symptoms: Mapping[str, Symptom]
    signs: Mapping[tuple[str, str], Sign]
    measures: Mapping[str, Measure]
    findings: Mapping[str, Finding]
    questions: Mapping[str, Question]
    dangers: Mapping[str, Danger]

    def strength(self, symptom: str, cause: str) -> float:
        """Log-odds a symptom brings to a cause, before its overlap."""
        record = self.symptoms[symptom]
        if record.of not in self.causes[cause].fault_of or cause in record.rules_out:
            return ELSEWHERE
        sign = self.signs.get((symptom, cause))
        return UNLISTED if sign is None else STRENGTH[sign.strength]


def tables(kb: Knowledge) -> Tables:
    """The evidence model from the knowledge.

    Where the table has two cells for one symptom and cause, one for and one against, the one for it is the cell; the
    one against names a fact ("a dent that stayed") that is weighed as a finding.
    """
    signs: dict[tuple[str, str], Sign] = {}
    for sign in kb.all(Sign).values():
        key = (sign.symptom, sign.cause)
        if key not in signs or STRENGTH[sign.strength] > STRENGTH[signs[key].strength]:
            signs[key] = sign
    return Tables(
        kb.all(Cause), kb.all(Symptom), signs, kb.all(Measure), kb.all(Finding), kb.all(Question), kb.all(Danger)
    )  # fmt: skip


def kin(cause: str, other: str, t: Tables) -> bool:
    """Whether two causes are root and stage of one mishap (dough warm, then over-proofed)."""
    return other in t.causes[cause].roots or cause in t.causes[other].roots


def danger_of(evidence: Evidence, t: Tables) -> Danger | None:
    """The danger a symptom is, if any: it comes before all odds. A flat film without fuzz is none."""
    if "film_yeast" in evidence.findings and "starter_mould" not in evidence.symptoms:
        return None
    for danger in t.dangers.values():
        if any(symptom in evidence.symptoms for symptom in danger.symptoms):
            return danger
    return None
