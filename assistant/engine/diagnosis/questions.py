"""Which question would tell most, and when enough is known.

A question's answers are the findings of a group, or the bands of a measure. How often an answer is given under a cause
is its usual share times e to the log-odds it would move that cause by, made to sum to 1 over the answers. The worth of
a question is the entropy it is expected to take away (bits), times how many bakers can answer it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from assistant.engine.diagnosis.blame import Suspect
from assistant.engine.diagnosis.evidence import Evidence, Tables, kin
from knowledge.records.diagnosis_questions import Question

ENOUGH_SHARE, ENOUGH_LEAD = 0.85, 3.0
LEAST_BITS = 0.04
KNOWN_FAMILY = 0.45
CONSIDERED = 14


@dataclass(frozen=True, slots=True)
class Outcome:
    """One answer: what it settles (measure or group), the finding or a value in the band, its usual share and moves."""

    settles: str
    finding: str | None
    value: float | None
    usual: float
    moves: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with the bits it is expected to be worth."""

    question: Question
    bits: float


def outcomes(asked: str, t: Tables) -> tuple[Outcome, ...]:
    """The answers to one thing asked, the usual shares summing to 1."""
    measure = t.measures.get(asked)
    found: list[Outcome] = []
    if measure is not None:
        for band in measure.bands:
            low = band.at_least if band.at_least is not None else (band.under or 0.0) - 1.0
            high = band.under if band.under is not None else low + 1.0
            found.append(Outcome(asked, None, (low + high) / 2, band.usual, band.moves))
    else:
        for finding in t.findings.values():
            if finding.about == asked:
                found.append(Outcome(asked, finding.id, None, finding.usual, finding.moves))
    whole = math.fsum(one.usual for one in found)
    return tuple(Outcome(o.settles, o.finding, o.value, o.usual / whole, o.moves) for o in found)


def likelihoods(answers: Sequence[Outcome], cause: str) -> tuple[float, ...]:
    """How often each answer is given where this is the cause; sums to 1."""
    raw = [one.usual * math.exp(one.moves.get(cause, 0.0)) for one in answers]
    whole = math.fsum(raw)
    return tuple(value / whole for value in raw)


def expected_bits(question: Question, evidence: Evidence, shares: Mapping[str, float], t: Tables) -> float:
    """Entropy a question is expected to take from the shares, bits; only its still open parts count."""
    known = evidence.known(t)
    open_parts = [outcomes(asked, t) for asked in question.asks if asked not in known]
    if not open_parts:
        return 0.0
    by_part = [{cause: likelihoods(part, cause) for cause in shares} for part in open_parts]
    before = _entropy(shares.values())
    after = 0.0
    for answer in product(*(range(len(part)) for part in open_parts)):
        joint = {
            cause: share * math.prod(by_part[n][cause][place] for n, place in enumerate(answer))
            for cause, share in shares.items()
        }
        chance = math.fsum(joint.values())
        if chance > 0:
            after += chance * _entropy(value / chance for value in joint.values())
    return max(0.0, before - after)


def _entropy(shares: object) -> float:
    return -math.fsum(p * math.log2(p) for p in shares if p > 0)  # type: ignore[attr-defined]


def best_questions(
    evidence: Evidence, suspects: Sequence[Suspect], t: Tables, skipped: frozenset[str] = frozenset()
) -> tuple[Asked, ...]:
    """Questions worth asking, best first; none that is answered, skipped, or of another trade than the fault."""
    considered = suspects[:CONSIDERED]
    whole = math.fsum(s.share for s in considered)
    shares = {s.cause: s.share / whole for s in considered}
    known = evidence.known(t)
    families = {t.measures[name].family for name in known if name in t.measures}
    families |= {t.findings[name].family for name in evidence.findings}
    parts = {t.symptoms[name].of for name in evidence.symptoms}
    boiled = "boiled_bread" in evidence.findings or "sinks_in_bath" in evidence.symptoms
    found: list[Asked] = []
    for question in t.questions.values():
        if question.id in skipped or question.asks[0] in known or (question.boiled and not boiled):
            continue
        if parts and not parts & set(question.about):
            continue
        if question.leaven == "starter" and "made_with_yeast" in evidence.findings:
            continue
        if question.leaven == "yeast" and "made_with_starter" in evidence.findings:
            continue
        bits = expected_bits(question, evidence, shares, t) * question.known
        family = _family(question.asks[0], t)
        if family in families:
            bits *= KNOWN_FAMILY
        found.append(Asked(question, bits))
    return tuple(sorted(found, key=lambda a: (-round(a.bits, 9), a.question.id)))


def _family(asked: str, t: Tables) -> str:
    if asked in t.measures:
        return t.measures[asked].family
    return next(f.family for f in t.findings.values() if f.about == asked)


def settled(suspects: Sequence[Suspect], t: Tables) -> bool:
    """Whether one mishap leads clearly: its causes together, against the next that is no kin of the first."""
    first = suspects[0]
    together = first.share + math.fsum(s.share for s in suspects[1:4] if kin(first.cause, s.cause, t))
    rival = next((s.share for s in suspects[1:] if not kin(first.cause, s.cause, t)), 0.0)
    return together >= ENOUGH_SHARE and together >= ENOUGH_LEAD * rival


def next_question(
    evidence: Evidence, suspects: Sequence[Suspect], t: Tables, skipped: frozenset[str] = frozenset()
) -> Question | None:
    """The one question that would tell most; None where one mishap leads clearly or nothing would tell much."""
    if settled(suspects, t):
        return None
    asked = best_questions(evidence, suspects, t, skipped)
    return asked[0].question if asked and asked[0].bits >= LEAST_BITS else None
