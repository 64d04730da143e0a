"""What of a dough its rise goes by: the yeast in it counted as fresh, sugar, and flour with its bran."""

from __future__ import annotations

from assistant.engine.dough import Formula
from grammar.requests.timing import TimingRequest
from knowledge import Knowledge
from knowledge.records.yeasts import Yeast

TSP_ML = 4.93
SPOON_FLOUR_G = 500.0
"""Flour a spoon of yeast is for, where none was said."""
_BRAN_FIBRE_PCT = 8.0
"""A flour with this much fibre has its bran in it."""
_SLOWS_PCT = 8.0
"""Fat and egg below this are not felt in the hours of a rise."""
_SUGARY_PCT = 20.0


def fresh_pct(kb: Knowledge, yeast: tuple[tuple[str, float], ...]) -> float:
    """Commercial yeast of any kind as fresh yeast, % of flour."""
    kinds = kb.all(Yeast)
    return sum(pct / kinds[kind].per_fresh if kind in kinds else pct for kind, pct in yeast)


def fresh_in(formula: Formula, kb: Knowledge) -> float:
    """The commercial yeast of a dough as fresh yeast, % of flour."""
    kinds = kb.all(Yeast)
    return fresh_pct(kb, tuple((row.item, row.pct) for row in formula.rows if row.item in kinds))


def by_the_spoon(request: TimingRequest, kb: Knowledge) -> tuple[tuple[str, float], ...]:
    """Yeast said by volume, as % of the flour it was said with (500 g where none was)."""
    found = []
    for kind, ml in request.yeast_ml:
        item = kb.ingredients.get(kind)
        if item is not None and item.tsp_g:
            found.append((kind, 100 * item.tsp_g * ml / TSP_ML / (request.flour_g or SPOON_FLOUR_G)))
    return tuple(found)


def sugar_in(formula: Formula, kb: Knowledge) -> float:
    """Sugar a yeast works on, % of flour. Milk sugar does not count: neither yeast ferments it."""
    rows = tuple((row.item, row.pct) for row in formula.rows if row.role != "flour" and row.item in kb.ingredients)
    return _sugar(rows, kb)


def sugar_said(request: TimingRequest, kb: Knowledge) -> float | None:
    """Sugar a yeast works on, % of flour, by what was said of it and of what is in the dough; None: nothing."""
    if request.sugar_pct is None and not request.parts:
        return None
    return (request.sugar_pct or 0.0) + _sugar(request.parts, kb)


def _sugar(rows: tuple[tuple[str, float], ...], kb: Knowledge) -> float:
    feeds = ((kb.ingredients[item], pct) for item, pct in rows)
    return sum(pct * (item.sugar_pct or 0.0) / 100 for item, pct in feeds if item.group != "dairy")


def bran_said(request: TimingRequest) -> float | None:
    """Flour with its bran as a share of all flour, where that was said."""
    if request.grain_pct is not None:
        return min(1.0, request.grain_pct / 100)
    return 1.0 if request.wholegrain else None


def bran_share(formula: Formula, kb: Knowledge) -> float:
    """Flour with its bran as a share of all flour, 0 to 1."""
    if formula.flour_g <= 0:
        return 0.0
    items = ((kb.ingredients.get(row.item), row.g) for row in formula.rows)
    whole_g = sum(g for item, g in items if item and item.group == "flour" and (item.fibre_pct or 0) >= _BRAN_FIBRE_PCT)
    return min(1.0, whole_g / formula.flour_g)


def not_reckoned(request: TimingRequest, kb: Knowledge) -> tuple[str, ...]:
    """What was said to be in the dough and that the model of the rise knows nothing of, in words."""
    slow = [kb.ingredients[item] for item, pct in request.parts if pct >= _SLOWS_PCT]
    names = " and ".join(item.name.lower() for item in slow if (item.sugar_pct or 0.0) < _SUGARY_PCT)
    return (f"{names} not reckoned with: they weigh the dough down, so allow it longer",) if names else ()
