"""Which steering word an amount of a complaint belongs to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.complaint_amounts import Placed
from grammar.complaint_terms import CueAt, Word

_BREAKING = frozenset({"and", "then", "but", "with", "so", "while", "plus"})
_TOO_FAR = -9.0


def best_cue(
    amount: Placed,
    amounts: Sequence[Placed],
    words: Sequence[Word],
    cues: Sequence[CueAt],
    ranges: Mapping[str, tuple[float, float]],
    value: float,
    *,
    right: float = 0.6,
    weights: Mapping[str, float] | None = None,
) -> str | None:
    """The steering word an amount belongs to, by nearness, side, what stands between and what the value can be."""
    best: tuple[float, str] | None = None
    for first, last, kind, name in cues:
        if kind != "figure" or name not in ranges:
            continue
        low, high = ranges[name]
        if not low <= value <= high:
            continue
        after = first > amount.last
        between = range(amount.last + 1, first) if after else range(last + 1, amount.first)
        edge = first if after else amount.first
        score = -float(len(between)) - (right if after else 0.0) + 0.15 * (last - first)
        score -= 2.2 * sum(words[n].after_mark for n in (*between, edge))
        score -= 1.3 * sum(words[n].text in _BREAKING for n in between)
        alike = [a for a in amounts if a is not amount and a.dim == amount.dim]
        score -= 3.0 * sum(a.first in between for a in alike)
        score -= 0.8 * sum(a.first in between for a in amounts if a is not amount and a not in alike)
        score += (weights or {}).get(name, 0.0)
        if best is None or score > best[0]:
            best = (score, name)
    return best[1] if best is not None and best[0] > _TOO_FAR else None


def cue_before(
    amount: Placed, amounts: Sequence[Placed], cues: Sequence[CueAt], ranges: Mapping[str, tuple[float, float]]
) -> str | None:
    """The word right before, where the one right behind has an amount of its own: "wholemeal 80 % hydration 62"."""
    named = [(first, last, name) for first, last, kind, name in cues if kind == "figure" and name in ranges]
    taken = {one.first for one in amounts}
    leads = any(first == amount.last + 1 and last + 1 in taken for first, last, _ in named)
    return next((name for _, last, name in named if last == amount.first - 1), None) if leads else None


def cue_distance(amount: Placed, cues: Sequence[CueAt], name: str) -> int:
    gaps = [
        first - amount.last if first > amount.last else amount.first - last
        for first, last, kind, one in cues
        if kind == "figure" and one == name
    ]
    return min(gaps, default=99)


def cue_beside(amount: Placed, cues: Sequence[CueAt]) -> str | None:
    """Flour or water right behind a bare number, else right before it."""
    named = [(first, last, name) for first, last, kind, name in cues if kind == "figure"]
    for name in ("flour", "hydration"):
        if any(one == name and first == amount.last + 1 for first, _, one in named):
            return name
    return next((n for _, last, n in named if n in ("flour", "hydration") and last == amount.first - 1), None)


_MASS_OF = ("flour", "hydration", "salt", "sugar", "starter", "fat", "instant", "active_dry", "fresh")


def cue_named(amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]) -> str | None:
    return best_cue(amount, amounts, words, cues, dict.fromkeys(_MASS_OF, (0, 1000000000.0)), amount.middle, right=-0.5)
