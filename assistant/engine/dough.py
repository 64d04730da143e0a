"""A solved dough: rows to weigh out and the figures that describe it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.engine.house import Layer


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that goes into the bowl. pct: of all flour. later: held back or worked in at the end."""

    item: str
    name: str
    g: float
    pct: float
    role: str
    later: bool = False


@dataclass(frozen=True, slots=True)
class StarterDetail:
    """The ripe starter in the dough."""

    g: float
    hydration_pct: float
    flour_g: float
    water_g: float


@dataclass(frozen=True, slots=True)
class PrefermentDetail:
    """One preferment and what is in it, grams; grain_g is what a soaker soaks when it is no flour."""

    item: str
    name: str
    g: float
    hydration_pct: float
    flour_g: float
    grain_g: float
    water_g: float
    yeast_g: float
    salt_g: float


@dataclass(frozen=True, slots=True)
class Formula:
    """A dough to weigh out. Masses in g, shares in %, of all flour unless the name says otherwise.

    rows: in pouring order, adding up to dough_g. water_g, flour_g: all of it, inside starter, milk, egg ... too.
    water_from: grams of counted water by row. starter_pct: of the flour not in the starter. layers: for each figure
    whether it was said, set, assumed or solved. sized_by: what fixed the size, in words with figures; sized_what: its
    kind. spare_g: over after whole pieces. remarks: what is unusual or must be known before weighing. offers: what
    could be done otherwise, and what is good to know.
    """

    rows: tuple[Row, ...]
    pieces: float | None
    piece_g: float | None
    baked_g: float | None
    loss_pct: float
    dough_g: float
    spare_g: float
    flour_g: float
    water_g: float
    hydration_pct: float
    salt_pct: float
    salt_total_pct: float
    starter_pct: float | None
    prefermented_pct: float
    starter: StarterDetail | None
    preferments: tuple[PrefermentDetail, ...]
    bread: str | None
    water_from: Mapping[str, float]
    assumed: tuple[str, ...]
    allergens: tuple[str, ...]
    layers: Mapping[str, Layer]
    sized_by: str
    sized_what: str
    remarks: tuple[str, ...] = ()
    offers: tuple[str, ...] = ()

    def row_g(self, item: str) -> float:
        """Grams of all rows of that item; 0 where there is none."""
        return sum(row.g for row in self.rows if row.item == item)

    @property
    def bowl_flour_g(self) -> float:
        """Flour weighed as flour."""
        return sum(row.g for row in self.rows if row.role == "flour")

    @property
    def poured_g(self) -> float:
        """Plain water, held-back water included."""
        return self.row_g("water")
