"""What an answer to an open question means: a yes, a no, a bare amount put in its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from assistant.answers.diagnosis_model import model_of
from grammar.requests.diagnosis import DiagnosisRequest
from knowledge import Knowledge
from knowledge.records.diagnosis_questions import Question
from knowledge.records.oven_marks import OvenMark

_TO_UNIT = {
    ("time", "h"): 1 / 60, ("time", "min"): 1.0, ("time", "s"): 60.0, ("time", "d"): 1 / 1440, ("length", "cm"): 1.0,
    ("length", "mm"): 10.0,
}  # fmt: skip
"""From minutes and centimetres, as bare amounts come, to the unit a figure's id ends in."""
_FRESH_PER_INSTANT = 3.0
_WARMTHS = ("bulk_c", "proof_c", "dough_c", "room_c")
_LIKELY: Mapping[str, tuple[float, float]] = {
    "oven_c": (110, 550), "oven_real_c": (110, 550), "core_c": (55, 108), "bulk_c": (0, 50), "proof_c": (0, 60),
    "dough_c": (2, 50), "fridge_c": (-5, 14), "jar_c": (0, 60), "bake_min": (1, 150), "protein_pct": (5, 40),
    "boil_s": (1, 900), "steam_min": (0, 120), "score_deg": (0, 90), "mix_min": (0.2, 90), "preheat_min": (0, 180),
    "salt_pct": (0, 12), "water_c": (0, 100), "loss_pct": (1, 45), "starter_pct": (0.1, 200),
}  # fmt: skip
"""What a figure can be: a bare amount that cannot be the one asked for is looked at afresh."""


def settled_request(request: DiagnosisRequest, kb: Knowledge) -> DiagnosisRequest:
    """The request with the answer to its open question put in its place: a yes, a no, a bare number."""
    question = model_of(kb).questions.get(request.answering or "")
    figures = _in_celsius(request, kb)
    left: list[tuple[str, float]] = []
    for dim, value in request.bare:
        warm = [name for name in figures if name in _WARMTHS]
        if request.corrects and warm and dim in ("temperature", "num") and 0 <= value <= 45:
            figures[warm[-1]] = value  # put right, as the last that was said
            continue
        meant = None if question is None else _as_answer(question, dim, value)
        if meant is None or meant[0] in figures or not _likely(*meant):
            unasked = _unasked(dim, value, request)
            meant = None if unasked is None else (unasked, value)
        if meant is not None and meant[0] not in figures:
            figures[meant[0]] = meant[1]
        elif question is not None:
            left.append((dim, value))
    if question is None:
        return replace(request, figures=tuple(figures.items()), bare=())
    return replace(
        request,
        figures=tuple(figures.items()),
        findings=(*request.findings, *_said_yes_or_no(request, question, kb)),
        bare=tuple(left),
        answering=None,
        said_yes=None,
    )


def _in_celsius(request: DiagnosisRequest, kb: Knowledge) -> dict[str, float]:
    """The figures said, a gas mark as degrees, hours that nobody said the stage of as the first rise."""
    first_rise = {"stage_h": "bulk_h", "stage_c": "bulk_c"}
    figures = {first_rise.get(name, name): value for name, value in request.figures}
    if "gas_mark" in figures:
        marks = {mark.mark: mark.c for mark in kb.all(OvenMark).values()}
        meant_c = marks.get(figures.pop("gas_mark"))
        if meant_c is not None:
            figures.setdefault("oven_c", meant_c)
    return figures


def _as_answer(question: Question, dim: str, value: float) -> tuple[str, float] | None:
    """The figure a bare amount is as the answer to a question; None where it answers nothing that is asked."""
    figure = question.takes.get(dim)
    if figure is None:
        return None
    if figure == "yeast_instant_pct":
        return "yeast_fresh_pct", _FRESH_PER_INSTANT * value
    return figure, value * _TO_UNIT.get((dim, figure.rpartition("_")[2]), 1.0)


def _said_yes_or_no(request: DiagnosisRequest, question: Question, kb: Knowledge) -> tuple[str, ...]:
    """The finding a yes or a no means, unless what else was said settles the question."""
    meant = {True: question.yes, False: question.no, None: None}[request.said_yes]
    settled = any(model_of(kb).findings[one].about in question.asks for one in request.findings)
    return () if meant is None or settled else (meant,)


def _likely(figure: str, value: float) -> bool:
    low, high = _LIKELY.get(figure, (float("-inf"), float("inf")))
    return low <= value <= high


_OF_THE_MIDDLE = frozenset({"gummy", "collapsed", "dry"})
"""Faults of which a bare number between 80 and 108 can only be the degrees in the middle."""


def _unasked(dim: str, value: float, request: DiagnosisRequest) -> str | None:
    """What degrees can only mean where nobody said of what: the jar's, the oven's, the middle's, the first rise's."""
    if request.subject == "starter" and dim in ("temperature", "num") and 4 <= value <= 45:
        return "jar_c"
    if dim == "num" and 80 <= value <= 108 and _OF_THE_MIDDLE & set(request.symptoms):
        return "core_c"
    if dim == "num" and 5 <= value <= 40:
        said = dict(request.figures)
        open_stages = [f"{stage}_c" for stage in ("proof", "bulk") if f"{stage}_h" in said and f"{stage}_c" not in said]
        return open_stages[0] if open_stages else None
    if dim != "temperature":
        return None
    return "oven_c" if value >= 110 else "core_c" if value >= 60 else "bulk_c"
