"""The blame shared out among the causes: weights added up, lent between roots and stages, made into shares."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assistant.engine.diagnosis.evidence import Evidence, Tables
from assistant.engine.diagnosis.weights import Weight, facts_on, weights_of

SECOND_OF_FAMILY = 0.5
TO_STAGE, TO_ROOT, TO_KNOWN_ROOT = 0.35, 0.25, 0.5
KNOWN = 1.5
"""A root whose own facts say this much is known: it is named before the stage it brought about."""
SHOWN = 8
LEAST_SHARE = 0.01


@dataclass(frozen=True, slots=True)
class Suspect:
    """One cause with its share of the blame and what speaks for and against it, strongest first."""

    cause: str
    share: float
    score: float
    for_it: tuple[Weight, ...]
    against_it: tuple[Weight, ...]
    shared_with: tuple[str, ...] = ()


def diagnose(evidence: Evidence, t: Tables) -> tuple[Suspect, ...]:
    """Every cause with its share (summing to 1), likeliest first; ties in the order of their ids."""
    facts = {cause: _facts_score(facts_on(cause, evidence, t)) for cause in t.causes}
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
