"""From exact masses to what a kitchen scale is asked to show: rows that add up to the printed total."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

FINE_BELOW_G = 10.0
"""Below this a row is weighed to 0.1 g: a gram of 4 g of yeast is a quarter of it."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """Rows as printed, what the scale reads after each pour (bowl tared once), and their sum; in tenths of a gram."""

    rows_dg: tuple[int, ...]
    readings_dg: tuple[int, ...]
    total_dg: int

    @property
    def rows_g(self) -> tuple[float, ...]:
        """The rows in grams."""
        return tuple(row / 10 for row in self.rows_dg)

    @property
    def readings_g(self) -> tuple[float, ...]:
        """The readings in grams."""
        return tuple(reading / 10 for reading in self.readings_dg)

    @property
    def total_g(self) -> float:
        """The printed total in grams."""
        return self.total_dg / 10


def whole_grams(exact_g: Sequence[float]) -> Weighed:
    """Rows of whole grams, of 0.1 g below 10 g, that add up to the total printed with them.

    The total is within half a gram of the exact one: each row is rounded down and the largest remainders take the grams
    that are missing, so that no row is off by a whole gram. Raises ValueError for a mass below zero.
    """
    if any(g < -1e-6 for g in exact_g):
        raise ValueError("a row weighs less than nothing")
    fine = {index: round(max(g, 0.0) * 10) for index, g in enumerate(exact_g) if g < FINE_BELOW_G - 0.05}
    coarse = {index: g for index, g in enumerate(exact_g) if index not in fine}
    floors = {index: floor(g + 1e-9) for index, g in coarse.items()}
    spare = round(sum(coarse.values())) - sum(floors.values())
    neediest = sorted(coarse, key=lambda index: (floors[index] - coarse[index], index))[: max(spare, 0)]
    rows = tuple(
        fine[index] if index in fine else 10 * (floors[index] + (index in neediest)) for index in range(len(exact_g))
    )
    readings: list[int] = []
    for row in rows:
        readings.append(row + (readings[-1] if readings else 0))
    return Weighed(rows, tuple(readings), sum(rows))


def grams_text(dg: int) -> str:
    """Tenths of a gram as a scale shows them: `1214`, `8.4`."""
    return f"{dg // 10}" if dg % 10 == 0 else f"{dg / 10:.1f}"
