"""What can go into a dough, a bath or on top: its weight by volume and what it is made of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

Group = Literal[
    "alkali", "cheese", "dairy", "egg", "fat", "flour", "fruit", "grain", "leavening", "malt", "nut", "other", "salt",
    "seed", "spice", "starter", "sugar", "water",
]  # fmt: skip

ALLERGENS = frozenset(
    {
        "almond", "barley", "cashew", "celery", "crustacean", "egg", "fish", "gluten", "hazelnut", "lupin", "macadamia",
        "milk", "mollusc", "mustard", "nuts", "oats", "peanut", "pecan", "pine nut", "pistachio", "rye", "sesame",
        "soy", "sulphites", "walnut", "wheat",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient(Record):
    """One ingredient.

    Volumes are US: `cup_g` grams in a cup of 236.588 ml (`cup_low_g` to `cup_high_g` as it is filled in practice),
    `tbsp_g` in 14.787 ml, `tsp_g` in 4.929 ml; scale by millilitres for other cups. `each_g` is one `each_unit`
    without shell or peel. Shares are grams per 100 g edible: `sugar_pct` all sugars, `salt_pct` sodium × 2.542, for
    leavening and self-raising flour sodium only and never dough salt. Energy `kcal_100g` in kilocalories.
    None means not sourced: ask for a weight, count nothing. `mass_only`: a volume must be refused. `poured`: a jug
    measures it, so ounces of it may be fluid ones. `allergens` describe the plain ingredient, not a brand's label.
    """

    TERM_KIND: ClassVar[str] = "ingredient"
    COUNTED: ClassVar[bool] = True

    name: str
    said_as: tuple[str, ...]
    group: Group
    cup_g: float | None = None
    cup_low_g: float | None = None
    cup_high_g: float | None = None
    tbsp_g: float | None = None
    tsp_g: float | None = None
    each_g: float | None = None
    each_unit: str | None = None
    water_pct: float | None = None
    fat_pct: float | None = None
    sugar_pct: float | None = None
    protein_pct: float | None = None
    salt_pct: float | None = None
    fibre_pct: float | None = None
    kcal_100g: float | None = None
    allergens: tuple[str, ...] = ()
    mass_only: bool = False
    poured: bool = False
    note: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if not self.said_as:
            yield "said_as: is empty"
        for name in ("cup_g", "cup_low_g", "cup_high_g", "tbsp_g", "tsp_g", "each_g"):
            grams = getattr(self, name)
            if grams is not None and not 0 < grams < 2000:
                yield f"{name}: {grams} g is not possible"
        for name in ("water_pct", "fat_pct", "sugar_pct", "protein_pct", "salt_pct", "fibre_pct"):
            share = getattr(self, name)
            if share is not None and not 0 <= share <= 100:
                yield f"{name}: {share} is not between 0 and 100"
        if self.kcal_100g is not None and not 0 <= self.kcal_100g <= 950:  # pure fat has 900
            yield f"kcal_100g: {self.kcal_100g:g} is not possible"
        parts = [part for part in (self.water_pct, self.fat_pct, self.protein_pct) if part is not None]
        # A whole point is left for rounding and for the methods by which protein is counted.
        if sum(parts) > 101:
            yield f"water_pct: water, fat and protein add up to {sum(parts):.1f}"
        low, usual, high = self.cup_low_g, self.cup_g, self.cup_high_g
        if usual is not None and not (low or usual) <= usual <= (high or usual):
            yield "cup_g: not between cup_low_g and cup_high_g"
        if self.mass_only and usual is not None:
            yield "mass_only: but cup_g gives a volume"
        if (self.each_g is None) != (self.each_unit is None):
            yield "each_unit: each_g and each_unit go together"
        for tag in self.allergens:
            if tag not in ALLERGENS:
                yield f"allergens: unknown tag '{tag}'"


FAMILY = Family(folder="ingredients", record=Ingredient)
