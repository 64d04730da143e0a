"""Food values of a dough and of the bread it becomes, added up from its ingredients.

Baking drives off water and nothing else: what 100 g of bread hold is what the dough held that weighed 100 g more by
the bake loss. Sugar eaten by the ferment and starch turned by it are left in the sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assistant.engine.composition import Portion
from knowledge.records.ingredients import Ingredient

ALCOHOL = 1.3
"""Energy over that of protein, fat, fibre and carbohydrate (4, 9, 2, 4 kcal/g) beyond which a food holds alcohol."""


@dataclass(frozen=True, slots=True)
class Values:
    """Food values of so much of something: energy in kcal, the rest in grams; salt is sodium x 2.54 of all there is."""

    g: float
    kcal: float
    protein_g: float
    fat_g: float
    carbohydrate_g: float
    sugar_g: float
    salt_g: float
    fibre_g: float

    def scaled(self, factor: float) -> Values:
        """The same of another amount."""
        return Values(*(factor * value for value in self._all()))

    def _all(self) -> tuple[float, ...]:
        return (
            self.g, self.kcal, self.protein_g, self.fat_g, self.carbohydrate_g, self.sugar_g, self.salt_g, self.fibre_g,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Nutrition:
    """Values of a whole dough (`dough`), and the ids of which a value is not known and not counted."""

    dough: Values
    unknown: tuple[str, ...]

    def baked(self, bake_loss_pct: float) -> Values:
        """The same food after baking: lighter by the water that went. bake_loss_pct: of the dough, 0 to below 100."""
        kept = 1 - bake_loss_pct / 100
        return Values(self.dough.g * kept, *self.dough._all()[1:])


def nutrition(portions: Iterable[Portion], foods: Mapping[str, Ingredient]) -> Nutrition:
    """What the portions hold. KeyError for an item without a record; what is not known is named, never guessed."""
    total = [0.0] * 8
    unknown: list[str] = []
    for portion in portions:
        food = foods[portion.item]
        values = values_100g(food)
        if None in values and portion.item not in unknown:
            unknown.append(portion.item)
        total[0] += portion.g
        for place, value in enumerate(values, start=1):
            total[place] += portion.g * (value or 0.0) / 100
    return Nutrition(Values(*total), tuple(unknown))


def values_100g(food: Ingredient) -> tuple[float | None, ...]:
    """kcal, protein, fat, carbohydrate, sugar, salt and fibre of 100 g; None where it is not known."""
    if food.group == "water":
        return (0.0,) * 7
    if food.group == "salt":
        return (0.0, 0.0, 0.0, 0.0, 0.0, 100.0, 0.0)  # a salt row counts whole, as it does in the dough's salt
    return (
        food.kcal_100g, food.protein_pct, food.fat_pct, carbohydrate_pct(food), food.sugar_pct, food.salt_pct,
        food.fibre_pct,
    )  # fmt: skip


def carbohydrate_pct(food: Ingredient) -> float | None:
    """Carbohydrate a body takes up, g in 100 g, by difference: what is not water, protein, fat, fibre or salt.

    Where the energy is far more than the parts can give, the rest is alcohol, and no difference tells the carbohydrate.
    The minerals of plain foods (about 0.5 g in white flour) stay in it. What gives no energy has none. None where a
    part is not known.
    """
    if food.kcal_100g == 0:
        return 0.0
    parts = (food.water_pct, food.protein_pct, food.fat_pct, food.fibre_pct)
    if any(part is None for part in parts):
        return None
    rest = max(0.0, 100 - sum(part or 0.0 for part in parts) - (food.salt_pct or 0.0))
    energy = 4 * ((food.protein_pct or 0.0) + rest) + 9 * (food.fat_pct or 0.0) + 2 * (food.fibre_pct or 0.0)
    if food.kcal_100g is not None and food.kcal_100g > ALCOHOL * energy:
        return None
    return rest
