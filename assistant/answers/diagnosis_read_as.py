"""How a complaint was read, in words: what shows, what was told of it, what the dough in hand adds."""

from __future__ import annotations

from assistant.answers.diagnosis_case import Case
from assistant.engine.diagnosis.evidence import Tables
from assistant.voice.diagnosis_page import read_as
from assistant.voice.spans import degrees_said, hours_said
from grammar.requests.diagnosis import DiagnosisRequest

_FIGURE_WORDS = {
    "bulk_h": "first rise", "bulk_c": "first rise at", "proof_h": "final proof", "proof_c": "final proof at",
    "oven_c": "oven", "oven_real_c": "oven really", "bake_min": "baked", "core_c": "core",
    "cut_after_min": "cut after", "piece_g": "pieces of",
    "loss_pct": "bake loss", "yeast_fresh_pct": "yeast as fresh", "kept_d": "kept",
}  # fmt: skip


def complaint_read_as(request: DiagnosisRequest, case: Case, t: Tables) -> str:
    bench = set(case.from_bench)
    said = [_figure(name, value, t) for name, value in case.said.items() if name not in bench]
    held = [_figure(name, value, t) for name, value in case.said.items() if name in bench]
    contexts = {"leaven_kind", "kind_of_bread", "grain_kind"}
    reports = [t.findings[f].short for f in request.findings if f in t.findings and t.findings[f].about not in contexts]
    repairs = [f"“{typed}” read as “{better}”" for typed, better in request.repairs]
    return read_as(
        {
            "what went wrong": [t.symptoms[s].name for s in request.symptoms],
            "sign of danger": [name.replace("_", " ") for name in request.dangers],
            "not": [t.symptoms[s].name for s in request.absent],
            "": [*said, *reports, *repairs],
            "from the dough in hand": held,
        }
    )


def _figure(name: str, value: float, t: Tables) -> str:
    measure = t.measures.get(name)
    label = _FIGURE_WORDS.get(name) or (measure.name if measure is not None else name.replace("_", " "))
    if name.endswith("_c"):
        return f"{label} {degrees_said(value)}"
    if name.endswith("_h"):
        return f"{label} {hours_said(60 * value)}"
    if name.endswith("_min"):
        return f"{label} {hours_said(value)}"
    if name.endswith("_s"):
        return f"{label} {value:g} s"
    if name == "piece_g":
        return f"{label} {value:g} g"
    if name.endswith("_d"):
        return f"{label} {value:.3g} days"
    unit = measure.unit if measure is not None else "%" if name.endswith("_pct") else ""
    return f"{label} {round(value, 1):g} {unit}".strip()
