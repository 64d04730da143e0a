"""The kinds of bread: what goes into their dough and how they are proofed, baked and kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

_TRIPLES = (
    ("hydration", "pct"), ("salt", "pct"), ("piece", "g"), ("oven_c", ""), ("minutes", ""),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Bread(Record):
    """One kind of bread.

    Shares are grams per 100 g of all flour, a starter's flour included, but for `starter_usual_pct`: grams of ripe
    100 % starter per 100 g of flour besides it. Starter or yeast, not both; 0 = not used in that kind. Hydration is
    true water, that of milk, egg, butter, honey and starter counted. `fat` as weighed, `sugar` as white sugar, `egg`
    shelled. `piece` is raw dough without filling or fruit. `rise` is volume gained in that stage, in per cent.
    `oven_c` is the set temperature without fan, the griddle's or the oil's where the note says so. `minutes` for the
    usual piece. `core_c` at sea level. `bake_loss_pct` from raw dough to cooled bread. `keeps_days` wrapped at room
    temperature. `portion_g` is what one person eats, baked (raw where the bread is a base).
    """

    TERM_KIND: ClassVar[str] = "bread"
    COUNTED: ClassVar[bool] = True

    name: str
    said_as: tuple[str, ...]
    hydration_low_pct: float
    hydration_usual_pct: float
    hydration_high_pct: float
    salt_low_pct: float
    salt_usual_pct: float
    salt_high_pct: float
    starter_usual_pct: float
    yeast_fresh_usual_pct: float
    fat_usual_pct: float
    sugar_usual_pct: float
    egg_usual_pct: float
    piece_low_g: float
    piece_usual_g: float
    piece_high_g: float
    rise_bulk_pct: float
    rise_proof_pct: float
    oven_c_low: float
    oven_c_usual: float
    oven_c_high: float
    minutes_low: float
    minutes_usual: float
    minutes_high: float
    bake_loss_pct: float
    best_eaten_within_h: float
    keeps_days: float
    portion_g: float
    core_c: float | None = None
    boil_s_per_side: float | None = None
    tin_fill_g_per_ml: float | None = None
    note: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if not self.said_as:
            yield "said_as: is empty"
        for stem, unit in _TRIPLES:
            names = [f"{stem}_{step}_{unit}".rstrip("_") for step in ("low", "usual", "high")]
            low, usual, high = (getattr(self, name) for name in names)
            if not 0 <= low <= usual <= high:
                yield f"{names[1]}: {usual} is not between {low} and {high}"
        if not 0 <= self.bake_loss_pct < 60:
            yield f"bake_loss_pct: {self.bake_loss_pct} is not possible"
        if self.core_c is not None and not 60 <= self.core_c <= 100:
            yield f"core_c: {self.core_c} is not possible"
        if self.portion_g <= 0:
            yield f"portion_g: {self.portion_g} is not possible"


FAMILY = Family(folder="breads", record=Bread)
