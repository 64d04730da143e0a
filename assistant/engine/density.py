"""How heavy a measure of a thing is: grams per millilitre as it is filled in a kitchen, with its low and high.

A cup of a powder is no weight: how it is filled moves it by a fifth. Nothing is guessed where the facts give no figure:
`Refused` says why and asks for a weight.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.measures import MeasureBook
from assistant.engine.naming import short_name
from assistant.engine.refusal import Refused
from knowledge.records.ingredients import Ingredient

US_CUP_ML, US_TBSP_ML, US_TSP_ML = 236.588, 14.787, 4.929
"""The volumes that `cup_g`, `tbsp_g` and `tsp_g` of an ingredient are grams of (NIST)."""

LIQUID_READING = 0.03
"""Share by which a line on a jug or a level spoon of a liquid or fat is misread."""
SOLID_SPREAD = 0.1
"""Share by which a cup of whole, cut or ground solids differs where nobody has published a low and a high."""

_LIQUID_GROUPS = frozenset({"water", "dairy", "fat", "egg"})
_SYRUP_WATER_PCT = 15.0


@dataclass(frozen=True, slots=True)
class Density:
    """Grams per millilitre as filled in a kitchen, its low and high as shares of it, and the reckoning in words."""

    g_per_ml: float
    low_share: float
    high_share: float
    basis: str


def density_of(item: Ingredient, unit: str, states: str, book: MeasureBook) -> Density:
    """How heavy a millilitre of the thing is in this measure.

    Spoons go by the weighed spoon, cups, jugs and pints by the weighed cup; water is 1 g/ml by definition, the tables
    round it. Raises Refused where no volume has been weighed.
    """
    if item.mass_only:
        raise by_weight_only(item)
    if item.group == "water" and item.cup_g is not None:
        return Density(1.0, 1 - LIQUID_READING, 1 + LIQUID_READING, "1 g a millilitre")
    grams, ml, measure = _weighed_measure(item, unit)
    low, high = _spread(item)
    fill = book.fill_of(item.id, states)
    words = f"{grams:g} g a US {measure}"
    if fill is not None and item.cup_g is not None:
        grams = grams * fill.cup_g / item.cup_g
        low, high = fill.cup_low_g / fill.cup_g, fill.cup_high_g / fill.cup_g
        words = f"{grams:.3g} g a US {measure}, {fill.name}"
    return Density(grams / ml, low, high, f"{short_name(item)}: {words}")


def _weighed_measure(item: Ingredient, unit: str) -> tuple[float, float, str]:
    """(grams, millilitres, name) of the published measure nearest to the one asked for."""
    cup = (item.cup_g, US_CUP_ML, "cup")
    tbsp = (item.tbsp_g, US_TBSP_ML, "tablespoon")
    tsp = (item.tsp_g, US_TSP_ML, "teaspoon")
    order = {"tbsp": (tbsp, cup, tsp), "dsp": (tbsp, tsp, cup), "tsp": (tsp, tbsp, cup)}
    small = unit in ("pinch", "dash", "smidgen", "drop")
    for grams, ml, name in order.get("tsp" if small else unit, (cup, tbsp, tsp)):
        if grams is not None:
            return grams, ml, name
    raise Refused(
        f"nobody has published what a measure of {short_name(item)} weighs, and it varies too much to guess",
        f"the weight of the {short_name(item)} in grams",
    )


def _spread(item: Ingredient) -> tuple[float, float]:
    """Low and high of a cup as shares of the usual one."""
    if item.cup_g is not None and item.cup_low_g is not None and item.cup_high_g is not None:
        low, high = item.cup_low_g / item.cup_g, item.cup_high_g / item.cup_g
        return min(low, 1 - LIQUID_READING), max(high, 1 + LIQUID_READING)
    syrup = item.group in ("sugar", "malt") and (item.water_pct or 0) >= _SYRUP_WATER_PCT
    spread = LIQUID_READING if item.group in _LIQUID_GROUPS or syrup else SOLID_SPREAD
    return 1 - spread, 1 + spread


def by_weight_only(item: Ingredient) -> Refused:
    return Refused(
        f"{short_name(item)} is measured by weight only: {mass_only_reason(item)}",
        f"the weight of the {short_name(item)} in grams",
    )


def mass_only_reason(item: Ingredient) -> str:
    """Why a volume of the thing is refused."""
    if item.group == "starter":
        return "a starter is full of gas, so the same cup holds half as much an hour later"
    if item.group == "alkali":
        return "it is caustic, and a spoonful can be twice another"
    if item.group == "salt":
        return "flakes lie so loosely that spoons differ several times over"
    return "its volume says nothing dependable"
