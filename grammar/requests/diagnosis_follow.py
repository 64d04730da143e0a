"""A complaint that goes on: facts added to it, one of them corrected, or its question answered."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.frames import Bound

if TYPE_CHECKING:
    from grammar.requests.diagnosis import DiagnosisRequest


def followed(line: DiagnosisRequest, earlier: DiagnosisRequest, bound: Bound) -> DiagnosisRequest:
    """Facts added to a complaint, or a correction of them; a new complaint of its own stands alone."""
    if line.short and earlier.subject == "bread" and line.symptoms and set(line.symptoms) <= _DENTS.keys():
        told = tuple(_DENTS[one] for one in line.symptoms)
        line = replace(line, symptoms=(), findings=(*line.findings, *told))
    if line.symptoms and not (line.corrects or line.adds or _answering_only(line, earlier)):
        return line
    figures_now = dict(_placed(line.figures, _stage_meant(line, earlier)))
    stages = {_STAGE_OF.get(name) for name in figures_now} - {None}
    kept = tuple(
        (name, value)
        for name, value in earlier.figures
        if name not in (*figures_now, *line.taken_back) and not (line.corrects and _STAGE_OF.get(name) in stages)
    )
    symptoms = tuple(dict.fromkeys((*earlier.symptoms, *line.symptoms)))
    return replace(
        line,
        symptoms=tuple(s for s in symptoms if s not in line.absent),
        absent=tuple(dict.fromkeys((*(a for a in earlier.absent if a not in line.symptoms), *line.absent))),
        findings=tuple(dict.fromkeys((*earlier.findings, *line.findings))),
        figures=(*kept, *figures_now.items()),
        breads=line.breads or earlier.breads,
        pieces=line.pieces or earlier.pieces,
        subject=earlier.subject or line.subject,
        state=line.state or earlier.state,
        skipped=tuple(dict.fromkeys((*earlier.skipped, *line.skipped))),
    )


def _stage_meant(line: DiagnosisRequest, earlier: DiagnosisRequest) -> str | None:
    """The stage hours without a stage are of: where they correct, the one said last, else the one asked for."""
    stages = [_STAGE_OF[name] for name, _ in earlier.figures if name in _STAGE_OF]
    if line.corrects and stages:
        return stages[-1]
    return _STAGE_ASKED.get(line.answering or "")


def _answering_only(line: DiagnosisRequest, earlier: DiagnosisRequest) -> bool:
    """Whether its symptoms are but the answer to the question asked, or were said before."""
    if set(line.symptoms) <= set(earlier.symptoms):
        return True
    return line.answering is not None and line.short is True and line.subject == earlier.subject


_DENTS = {"springs_back_fast": "dent_filled", "no_spring_back": "dent_stayed"}
"""What a dent did is a fault of dough, and a report where a bread is asked about."""
_STAGE_OF = {
    "bulk_h": "bulk", "bulk_c": "bulk", "bulk_rise_pct": "bulk", "dough_c": "bulk", "proof_h": "proof",
    "proof_c": "proof", "retard_h": "retard", "fridge_c": "retard",
}  # fmt: skip
"""Figures of one stage: a correction of the stage replaces them together."""
_STAGE_ASKED = {"first_rise_question": "bulk", "proof_question": "proof", "fridge_question": "retard"}


def _placed(figures: tuple[tuple[str, float], ...], stage: str | None) -> tuple[tuple[str, float], ...]:
    """Hours and degrees of an unsaid stage given to a stage."""
    if stage is None:
        return figures
    degrees = "fridge_c" if stage == "retard" else f"{stage}_c"
    names = {"stage_h": f"{stage}_h", "stage_c": degrees}
    return tuple((names.get(name, name), value) for name, value in figures)
