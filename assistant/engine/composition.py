"""Water, fat, sugar, protein and salt in what goes into a dough, counted the way bakers count.

Flour's own moisture is no water of the dough, and neither is that of grain, seed, nut, spice or dried fruit that was
not soaked; the water of milk, egg, butter, honey, malt, fresh yeast and fresh fruit is. Salt's trace of moisture is
left out, and the sodium of a raising agent is not dough salt.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from knowledge.records.ingredients import Ingredient

DRY_GROUPS = frozenset({"flour", "grain", "seed", "nut", "spice", "salt", "alkali"})
SOAKABLE_GROUPS = frozenset({"grain", "seed", "nut", "fruit"})
NO_DOUGH_SALT_GROUPS = frozenset({"flour", "leavening", "alkali", "starter"})
DRIED_FRUIT_WATER_PCT = 35.0
"""Fruit below this water content was dried: raisins hold 15 %, dried apricots and prunes 31 %, cooked onion 80 %."""


@dataclass(frozen=True, slots=True)
class Portion:
    """So much of one ingredient."""

    item: str
    g: float
    soaked: bool = False


@dataclass(frozen=True, slots=True)
class Composition:
    """What a dough holds, in grams; `water_from_g` names each source of counted water that brings any."""

    mass_g: float
    flour_g: float
    water_g: float
    fat_g: float
    sugar_g: float
    protein_g: float
    salt_g: float
    water_from_g: Mapping[str, float]
    unknown: tuple[str, ...]

    @property
    def hydration_pct(self) -> float:
        """Counted water in percent of all flour. ZeroDivisionError when there is no flour."""
        return 100 * self.water_g / self.flour_g


def is_flour(ingredient: Ingredient) -> bool:
    """Whether it counts as flour in baker's percentages (vital gluten does)."""
    return ingredient.group == "flour"


def is_dried_fruit(ingredient: Ingredient) -> bool:
    """Raisins and their like, whose own water is bound unless they are soaked."""
    return ingredient.group == "fruit" and (ingredient.water_pct or 0.0) < DRIED_FRUIT_WATER_PCT


def counted_water_share(ingredient: Ingredient, soaked: bool = False) -> float:
    """Grams of water that count as dough water in 1 g of it, 0 to 1."""
    if soaked and ingredient.group in SOAKABLE_GROUPS:
        return (ingredient.water_pct or 0.0) / 100
    if ingredient.group in DRY_GROUPS or is_dried_fruit(ingredient):
        return 0.0
    return (ingredient.water_pct or 0.0) / 100


def dough_salt_share(ingredient: Ingredient) -> float:
    """Grams of salt that count as dough salt in 1 g of it, 0 to 1: a salt row counts whole."""
    if ingredient.group == "salt":
        return 1.0
    if ingredient.group in NO_DOUGH_SALT_GROUPS:
        return 0.0
    return (ingredient.salt_pct or 0.0) / 100


def composition(portions: Iterable[Portion], ingredients: Mapping[str, Ingredient]) -> Composition:
    """What the portions hold together.

    `ingredients` holds every item named (KeyError otherwise). What is not known of an ingredient counts as nothing, and
    the ingredient is named in `unknown`.
    """
    mass = flour = fat = sugar = protein = salt = 0.0
    water: dict[str, float] = {}
    unknown: list[str] = []
    for portion in portions:
        it = ingredients[portion.item]
        mass += portion.g
        if is_flour(it):
            flour += portion.g
        brought = portion.g * counted_water_share(it, portion.soaked)
        if brought:
            water[portion.item] = water.get(portion.item, 0.0) + brought
        fat += portion.g * (it.fat_pct or 0.0) / 100
        sugar += portion.g * (it.sugar_pct or 0.0) / 100
        protein += portion.g * (it.protein_pct or 0.0) / 100
        salt += portion.g * dough_salt_share(it)
        if it.water_pct is None and it.group != "alkali" and portion.item not in unknown:
            unknown.append(portion.item)
    return Composition(mass, flour, sum(water.values()), fat, sugar, protein, salt, water, tuple(unknown))


ALLERGEN_GRAINS = ("wheat", "rye", "barley", "oats")


def allergens(items: Iterable[str], ingredients: Mapping[str, Ingredient]) -> tuple[str, ...]:
    """Allergens of the plain ingredients, grains first, each once. Brands' labels may say more."""
    found = {tag for item in items if item in ingredients for tag in ingredients[item].allergens}
    order = [*ALLERGEN_GRAINS, "gluten", "milk", "egg"]
    return tuple([tag for tag in order if tag in found] + sorted(found - set(order)))
