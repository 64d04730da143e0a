"""What went wrong: evidence of a bake weighed into shares of causes, with reasons.

Each cause starts at its prior and is moved by what is known, in log-odds that stand in knowledge/diagnosis:

* a symptom moves every cause of the table (strong +1.6, usual +0.9, possible +0.3, against -1.2; a cause the table does
  not list under it -1.6), times the symptom's `overlap`, so that a symptom never lowers the share of the cause it is
  most typical of;
* a cause known by its own facts that accounts for one symptom need not account for the others, for a bake can have two
  things wrong with it: what is seldom its doing then speaks no more against it; and a symptom of a stage it brings
  about (dough warm, then over-fermented, then pale) speaks for it nearly as much as for the stage, unless facts show
  the stage itself;
* a symptom denied ("not sour") takes away 0.7 of what it would have brought;
* figures and findings move causes by their bands. Those of one family say much the same: the strongest of a family, for
  each cause and in each direction, counts in full, the others by half;
* causes with one root share: what facts say for a stage (over-proofed) counts in part for its root (dough warm), and
  the other way round, unless a fact speaks against the sharer; a root that is known by its own facts takes most, and
  so is named first.

Shares are the softmax of the sums. Nothing depends on the order of the evidence. The weights are our own estimate,
tuned on the cases of tests/engine/diagnosis_tuned.yaml.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
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
DENIED = -0.7
SECOND_OF_FAMILY = 0.5
TO_STAGE, TO_ROOT, TO_KNOWN_ROOT = 0.35, 0.25, 0.5
KNOWN = 1.5
"""A root whose own facts say this much is known: it is named before the stage it brought about."""
HINTED, SHOWN_BY_FACTS = 1.0, 2.0
"""Facts that say less than the first hardly show that a cause was so in this bake; the second (+2 is a fact past its
threshold) shows it."""
BY_WAY_OF_STAGE = 0.5
"""How much less a symptom of a stage says for the root that brought the stage about."""
SHOWN = 8
LEAST_SHARE = 0.01


@dataclass(frozen=True, slots=True)
class Figure:
    """A measured fact. how: the reason in words where it was worked out ("3 h at 17 °C: 13 to 17 h expected").

    weight: less than 1 where something had to be assumed to work it out.
    """

    measure: str
    value: float
    how: str | None = None
    weight: float = 1.0


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
class Weight:
    """One piece of evidence on one cause: log-odds and the reason in words. fact: figure or finding, not a symptom."""

    value: float
    say: str
    fact: bool
    family: str


@dataclass(frozen=True, slots=True)
class Suspect:
    """One cause with its share of the blame and what speaks for and against it, strongest first."""

    cause: str
    share: float
    score: float
    for_it: tuple[Weight, ...]
    against_it: tuple[Weight, ...]
    shared_with: tuple[str, ...] = ()


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


def diagnose(evidence: Evidence, t: Tables) -> tuple[Suspect, ...]:
    """Every cause with its share (summing to 1), likeliest first; ties in the order of their ids."""
    facts = {cause: _facts_score(_facts_on(cause, evidence, t)) for cause in t.causes}
    weights = {cause: weights_of(cause, evidence, t, facts) for cause in t.causes}
    scores: dict[str, float] = {}
    sharers: dict[str, tuple[str, ...]] = {}
    for cause, record in t.causes.items():
        own = record.prior + sum(w.value for w in weights[cause] if not w.fact) + facts[cause]
        lent, lenders = _shared(cause, facts, t)
        scores[cause] = own + lent
        sharers[cause] = lenders
    shares = softmax(scores)
    found = [
        Suspect(
            cause,
            shares[cause],
            scores[cause],
            tuple(sorted((w for w in weights[cause] if w.value > 0), key=_loudest)),
            tuple(sorted((w for w in weights[cause] if w.value < 0 and w.say), key=_loudest)),
            sharers[cause],
        )
        for cause in t.causes
    ]
    return tuple(sorted(found, key=lambda s: (-s.share, s.cause)))


def _loudest(weight: Weight) -> tuple[bool, float, str]:
    return (not weight.fact, -abs(weight.value), weight.say)


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
    return (*out, *_facts_on(cause, evidence, t))


def _facts_on(cause: str, evidence: Evidence, t: Tables) -> tuple[Weight, ...]:
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


def _facts_score(found: Iterable[Weight]) -> float:
    """The facts on one cause added up: the strongest of a family in each direction in full, the others by half."""
    families: dict[tuple[str, bool], list[float]] = defaultdict(list)
    for weight in found:
        if weight.fact:
            families[weight.family, weight.value > 0].append(weight.value)
    total = 0.0
    for values in families.values():
        values.sort(key=abs, reverse=True)
        total += values[0] + SECOND_OF_FAMILY * math.fsum(values[1:])
    return total


def _shared(cause: str, facts: Mapping[str, float], t: Tables) -> tuple[float, tuple[str, ...]]:
    """What a cause gains from the facts on its roots, and on the stages it is the root of; the strongest of each."""
    if facts[cause] < 0:
        return 0.0, ()
    roots = [(facts[root], root) for root in t.causes[cause].roots if facts[root] > 0]
    stages = [(facts[stage], stage) for stage, record in t.causes.items() if cause in record.roots and facts[stage] > 0]
    lent, lenders = 0.0, []
    for found, part in ((roots, TO_STAGE), (stages, TO_KNOWN_ROOT if facts[cause] >= KNOWN else TO_ROOT)):
        if found:
            most, name = max(found)
            lent += part * most
            lenders.append(name)
    return lent, tuple(lenders)


def softmax(scores: Mapping[str, float]) -> dict[str, float]:
    """Shares from log-odds; they sum to 1."""
    top = max(scores.values())
    raw = {name: math.exp(score - top) for name, score in scores.items()}
    whole = math.fsum(raw.values())
    return {name: value / whole for name, value in raw.items()}


def shown(suspects: tuple[Suspect, ...]) -> tuple[Suspect, ...]:
    """The suspects worth telling: at most SHOWN, none under LEAST_SHARE but always the first three."""
    return tuple(s for n, s in enumerate(suspects[:SHOWN]) if n < 3 or s.share >= LEAST_SHARE)


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
