"""Everything known of a fault, as it moves one cause: log-odds with the reason in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assistant.engine.diagnosis.evidence import ELSEWHERE, STRENGTH, Evidence, Tables
from knowledge.records.diagnosis_facts import Measure

DENIED = -0.7
HINTED, SHOWN_BY_FACTS = 1.0, 2.0
"""Facts that say less than the first hardly show that a cause was so in this bake; the second (+2 is a fact past its
threshold) shows it."""
BY_WAY_OF_STAGE = 0.5
"""How much less a symptom of a stage says for the root that brought the stage about."""


@dataclass(frozen=True, slots=True)
class Weight:
    """One piece of evidence on one cause: log-odds and the reason in words. fact: figure or finding, not a symptom."""

    value: float
    say: str
    fact: bool
    family: str


def weights_of(
    cause: str, evidence: Evidence, t: Tables, facts: Mapping[str, float] | None = None
) -> tuple[Weight, ...]:
    """Everything known, as it moves one cause. facts: what the facts alone say for each cause, added up."""
    out: list[Weight] = []
    explains = _explains(cause, evidence.symptoms, t, facts or {})
    for symptom in sorted(set(evidence.symptoms)):
        out.append(_symptom_weight(symptom, cause, t, facts or {}, explains))
    for symptom in sorted(set(evidence.absent) - set(evidence.symptoms)):
        would = t.strength(symptom, cause)
        if would > 0:
            out.append(Weight(DENIED * would, f"not {t.symptoms[symptom].name}", False, "symptom"))
    return (*out, *facts_on(cause, evidence, t))


def facts_on(cause: str, evidence: Evidence, t: Tables) -> tuple[Weight, ...]:
    """Figures and findings, as they move one cause."""
    out: list[Weight] = []
    for figure in sorted(evidence.figures, key=lambda f: (f.measure, f.value)):
        measure = t.measures[figure.measure]
        band = next(one for one in measure.bands if one.holds(figure.value))
        moved = band.moves.get(cause, 0.0) * figure.weight
        if moved:
            out.append(Weight(moved, figure.how or said(measure, figure.value, band.say), True, measure.family))
    for name in sorted(set(evidence.findings)):
        finding = t.findings[name]
        moved = finding.moves.get(cause, 0.0)
        if moved:
            out.append(Weight(moved, finding.say, True, finding.family))
    return tuple(out)


def _symptom_weight(symptom: str, cause: str, t: Tables, facts: Mapping[str, float], explains: float) -> Weight:
    """One symptom on one cause. explains: 0..1, how far the cause, where its own facts show it, accounts for any of
    the symptoms."""
    record, sign = t.symptoms[symptom], t.signs.get((symptom, cause))
    value = own = t.strength(symptom, cause)
    stage = None
    if own > ELSEWHERE and explains:
        known = _known(facts.get(cause, 0.0))
        if sign is None:
            value *= 1 - known * explains
        most, one = _by_stage(symptom, cause, t, facts)
        if most > max(value, 0.0):
            value, stage = value + known * (1 - _known(facts.get(one, 0.0))) * (most - value), one
    value *= record.overlap if own > ELSEWHERE else 1.0
    if stage is not None:
        words = f"{record.name} goes with {t.causes[stage].name}, which it brings about"
        return Weight(value, words, False, "symptom")
    if sign is None or sign.strength == "against":
        words = f"{record.name} speaks against it" if sign is not None else f"{record.name} is seldom its doing"
        return Weight(value, words, False, "symptom")
    how = {"strong": "is typical of it", "usual": "is often its doing", "possible": "may be its doing"}[sign.strength]
    return Weight(value, f"{record.name} {how} (then look for: {_lower(sign.tells_apart)})", False, "symptom")


def _known(facts: float) -> float:
    """0..1: how far a cause's own facts show that it was so in this bake."""
    return min(1.0, max(0.0, facts - HINTED) / (SHOWN_BY_FACTS - HINTED))


def _by_stage(symptom: str, cause: str, t: Tables, facts: Mapping[str, float]) -> tuple[float, str]:
    """What a symptom says for a root by way of the stage it brings about, and that stage; facts must not clear it."""
    ways = [
        (t.strength(symptom, stage) - BY_WAY_OF_STAGE, stage)
        for stage, record in t.causes.items()
        if cause in record.roots and facts.get(stage, 0.0) >= 0
    ]
    return max(ways, default=(ELSEWHERE, ""))


def _explains(cause: str, symptoms: Iterable[str], t: Tables, facts: Mapping[str, float]) -> float:
    """0..1: how far a cause accounts for the symptom it accounts for best; 0 unless its own facts speak for it."""
    if facts.get(cause, 0.0) <= HINTED:
        return 0.0
    best = max((max(t.strength(one, cause), _by_stage(one, cause, t, facts)[0]) for one in symptoms), default=0.0)
    return min(1.0, max(0.0, best) / STRENGTH["usual"])


def _lower(text: str) -> str:
    """A sentence to stand inside another; names and acronyms at its head stay."""
    second = text[1:2]
    return text if second.isupper() else text[:1].lower() + text[1:]


def said(measure: Measure, value: float, words: str) -> str:
    """The reason with the figure in it: "dough at 17 °C: under 18 °C ..."."""
    if measure.unit == "min" and value >= 120:
        figure = f"{value / 60:.1f}".rstrip("0").rstrip(".") + " h"
    else:
        figure = f"{value:.{measure.decimals}f}"
        if measure.unit in ("°C", "points"):
            figure = figure.lstrip("-") if measure.id in ("oven_off", "loss_off") else figure
        figure = f"{figure} {measure.unit}".strip() if measure.unit not in ("%", "°") else figure + f" {measure.unit}"
    return words.replace("{value}", figure)
