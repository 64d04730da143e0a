"""The whole evidence model as plain text, for a trade reader to audit: every weight, with what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from assistant.engine.diagnosis.evidence import STRENGTH, UNLISTED, Tables

_ORDER = ("strong", "usual", "possible", "against")


def evidence_sheet(t: Tables) -> str:
    """Causes with priors and roots, every cell with its source, figures by band, reports, questions."""
    return "\n".join((*_causes(t), *_signs(t), *_figures(t), *_reports(t), *_questions(t))) + "\n"


def _causes(t: Tables) -> Iterator[str]:
    yield "CAUSES (prior in log-odds; roots share evidence)"
    for cause in t.causes.values():
        roots = f"; comes of {', '.join(cause.roots)}" if cause.roots else ""
        what = f"{cause.name}: {cause.mechanism}; threshold: {cause.threshold}{roots}"
        yield f"  {cause.id} {cause.prior:+.2f}: {what} [{cause.source}]"


def _signs(t: Tables) -> Iterator[str]:
    weights = ", ".join(f"{name} {STRENGTH[name]:+.1f}" for name in _ORDER)
    yield ""
    yield f"SYMPTOMS AND THEIR CAUSES ({weights}; a cause not listed {UNLISTED:+.1f})"
    for symptom in t.symptoms.values():
        yield f"  {symptom.id} ({symptom.of}, counts {symptom.overlap:g})"
        cells = [sign for (name, _), sign in t.signs.items() if name == symptom.id]
        for sign in sorted(cells, key=lambda s: (_ORDER.index(s.strength), s.cause)):
            yield f"    {sign.strength:<8} {sign.cause}: {sign.tells_apart} [{sign.source}; {sign.confidence}]"


def _figures(t: Tables) -> Iterator[str]:
    yield ""
    yield "FIGURES (what each stretch of values does to a cause, log-odds)"
    for measure in t.measures.values():
        yield f"  {measure.id}, {measure.unit} (family {measure.family}) [{measure.source}]"
        for band in measure.bands:
            low = "" if band.at_least is None else f"from {band.at_least:g} "
            high = "" if band.under is None else f"under {band.under:g} "
            yield f"    {low}{high}: {_moves(band.moves)}"


def _reports(t: Tables) -> Iterator[str]:
    yield ""
    yield "REPORTS (what a thing said in words does to a cause, log-odds)"
    for finding in t.findings.values():
        yield f"  {finding.id} (about {finding.about}): {_moves(finding.moves)} [{finding.source}]"


def _questions(t: Tables) -> Iterator[str]:
    yield ""
    yield "QUESTIONS (share of bakers who can answer)"
    for question in t.questions.values():
        yield f"  {question.ask} ({question.known:.0%}; settles {', '.join(question.asks)}) [{question.source}]"


def _moves(moves: Mapping[str, float]) -> str:

    return ", ".join(f"{cause} {weight:+.1f}" for cause, weight in moves.items() if weight) or "moves nothing"
