"""The way back: grams or millilitres to cups and spoons, in sizes a kitchen has."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.density import density_of
from assistant.engine.measures import MeasureBook
from knowledge.records.ingredients import Ingredient

_CUP_PARTS = (0.0, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4)
_TBSP_PARTS = (0.0, 1 / 2)
_TSP_PARTS = (0.0, 1 / 8, 1 / 4, 1 / 2, 3 / 4)
_WRITTEN = {1 / 8: "1/8", 1 / 4: "1/4", 1 / 3: "1/3", 1 / 2: "1/2", 2 / 3: "2/3", 3 / 4: "3/4"}
_MISS_COST, _PIECE_COST = 60.0, 0.5
_CLOSE = 0.01
"""Share of the amount by which measured cups and spoons may miss it without being dearer for it."""


@dataclass(frozen=True, slots=True)
class Volume:
    """An amount of one measure with its low and high, as the thing is filled in practice."""

    amount: float
    low: float
    high: float
    ml: float
    basis: str


def volume_of(g: float, item: Ingredient, unit: str, system: str, states: str, book: MeasureBook) -> Volume:
    """How many of a measure hold so many grams. Raises Refused for what is not measured by volume.

    low comes from the heaviest filling, high from the lightest.
    """
    density = density_of(item, unit, states, book)
    ml = g / density.g_per_ml
    one = book.ml(unit, system)
    return Volume(ml / one, ml / density.high_share / one, ml / density.low_share / one, ml, density.basis)


def in_cups_and_spoons(ml: float, system: str, book: MeasureBook) -> str:
    """The nearest sum of cups, tablespoons and teaspoons with few pieces: "3 3/4 cups + 1 tbsp".

    Misses are weighed against pieces: a long row of spoons is only offered where it is closer by something.
    """
    cup, tbsp, tsp = (book.ml(unit, system) for unit in ("cup", "tbsp", "tsp"))
    if ml < tsp / 16:
        return "less than a pinch"
    best: tuple[float, str] | None = None
    cups = {0.0} | {int(ml / cup) + part for part in _CUP_PARTS} | {int(ml / cup) + 1.0}
    for whole_cups in sorted(cups):
        left = ml - whole_cups * cup
        if left < -0.05 * ml:
            continue
        spoons = {0.0, float(max(0, round(left / tbsp)))} | {max(0, int(left / tbsp)) + part for part in _TBSP_PARTS}
        for big in sorted(spoons):
            rest = left - big * tbsp
            nearest = _nearest_part(max(rest, 0.0) / tsp)
            for small in {0.0, nearest}:
                total = whole_cups * cup + big * tbsp + small * tsp
                if total <= 0:
                    continue
                miss = max(0.0, abs(total / ml - 1) - _CLOSE)
                pieces = _pieces(whole_cups) + 1.2 * _pieces(big) + 1.4 * _pieces(small)
                many = 2.0 * max(0.0, big - 4) + 2.0 * max(0.0, small - 3)
                cost = _MISS_COST * miss + _PIECE_COST * pieces + many
                if best is None or cost < best[0] - 1e-9:
                    best = (cost, _written(whole_cups, big, small))
    return best[1] if best is not None else "less than a pinch"


def _nearest_part(spoons: float) -> float:
    """The nearest number of teaspoons that a set of spoons can measure."""
    whole = int(spoons)
    return min((abs(whole + part - spoons), whole + part) for part in (*_TSP_PARTS, 1.0))[1]


def _pieces(count: float) -> float:
    """How many times a measure is reached for: the wholes together count a little, a part once more."""
    if count <= 0:
        return 0.0
    return 1.0 + (1.0 if count != int(count) and count > 1 else 0.0)


def _written(cups: float, tbsp: float, tsp: float) -> str:
    parts = []
    if cups:
        parts.append(f"{fraction(cups)} {'cup' if cups <= 1 else 'cups'}")
    if tbsp:
        parts.append(f"{fraction(tbsp)} tbsp")
    if tsp:
        parts.append(f"{fraction(tsp)} tsp")
    return " + ".join(parts)


def fraction(value: float) -> str:
    """A number with the kitchen's fractions: 3.75 is "3 3/4"; others to two places."""
    whole = int(value + 1e-9)
    rest = value - whole
    if rest < 1e-3:
        return str(whole)
    for part, written in _WRITTEN.items():
        if abs(rest - part) < 1e-3:
            return f"{whole} {written}" if whole else written
    return f"{value:.2f}".rstrip("0").rstrip(".")
