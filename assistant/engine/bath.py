"""The bath before the oven: what to dissolve in so much water, how strong, how long; lye only as a cold dip."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from assistant.engine.composition import Portion
from assistant.engine.refusal import Refused
from knowledge.records.baths import Bath

Danger = Literal["aluminium", "children", "drain_cleaner", "hot", "glass_hot", "to_lye"]

LYE_MOST_G_PER_L = 60.0
"""Austrian food code B18: lye goods are dipped at 2 to 6 %."""
SOAPY_FACTOR = 1.5
"""From this many times the usual upper strength an alkali bath tastes of soap and slimes the skin."""
LITRES_MOST = 40.0
LITRES_LEAST = 0.2

BAKED_SHARE = 105.99 / (2 * 84.007)
"""Grams of baked soda (sodium carbonate) left of a gram of baking soda: 2 NaHCO3 -> Na2CO3 + H2O + CO2."""


@dataclass(frozen=True, slots=True)
class BathMade:
    """A bath ready to make.

    bath_c: its temperature. boil_c: the boiling point here, None for a cold dip. add: what is dissolved.
    strength_pct: grams per 100 g water. seconds_low, seconds_high: a side, or the whole dip.
    strong, weak: outside the usual range. note: what follows from it.
    """

    kind: str
    litres: float
    bath_c: float
    boil_c: float | None
    add: tuple[Portion, ...]
    strength_pct: float
    seconds_low: float
    seconds_high: float
    strong: bool
    weak: bool
    note: str


def bath_made(
    bath: Bath,
    litres: float,
    boil_c: float,
    *,
    item: str | None = None,
    g_per_l: float | None = None,
    g: float | None = None,
    seconds: tuple[float, float] | None = None,
) -> BathMade:
    """What goes into `litres` of water for this bath.

    item: another of the ingredients the bath allows. g_per_l, g: strength or grams said by the baker. seconds: the
    bread's own time a side. boil_c: boiling point here. Raises Refused where it is unsafe or cannot be.
    """
    if not LITRES_LEAST <= litres <= LITRES_MOST:
        raise Refused(
            f"A bath of {litres:g} l is none for a home kitchen.", "Say the litres in the pot: 2 to 6 as a rule."
        )
    dissolved = item or bath.item
    if dissolved is None and (g_per_l or g):
        raise Refused("A plain bath has nothing in it.", "Say what to dissolve: malt, honey, baking soda.")
    strength = g_per_l if g_per_l is not None else g / litres if g is not None else bath.usual_g_per_l
    if strength < 0:
        raise Refused(f"{strength:g} g per litre is less than nothing.", f"Usual: {bath.usual_g_per_l:g} g per litre.")
    if bath.id == "lye" and strength > LYE_MOST_G_PER_L:
        raise Refused(
            f"{strength / 10:g} % lye is too strong for a kitchen.",
            "Lye goods are dipped cold at 3-4 %: 30-40 g per litre.",
        )
    if strength > 1000:
        raise Refused(f"{strength:g} g per litre no longer dissolves.", f"Usual: {bath.usual_g_per_l:g} g per litre.")
    strong = bath.item is not None and strength > bath.high_g_per_l + 1e-9
    weak = bath.item is not None and strength < bath.low_g_per_l - 1e-9
    low, high = seconds or (bath.seconds_low, bath.seconds_high)
    add = (Portion(dissolved, strength * litres),) if dissolved is not None and strength > 0 else ()
    return BathMade(
        kind=bath.id,
        litres=litres,
        bath_c=boil_c if bath.boiling else (bath.bath_c if bath.bath_c is not None else 20.0),
        boil_c=boil_c if bath.boiling else None,
        add=add,
        strength_pct=strength / 10,
        seconds_low=low,
        seconds_high=high,
        strong=strong,
        weak=weak,
        note=_note(bath, strength, strong, weak),
    )


def refuse_dangerous(bath: Bath, dangers: frozenset[str]) -> None:
    """Raises Refused where what was said about an alkali bath must not be done.

    `dangers`: what the line names: aluminium, children, drain_cleaner, hot (lye heated), to_lye (water onto lye).
    """
    alkali = bath.id in ("lye", "baked_soda", "soda")
    if "drain_cleaner" in dangers:
        raise Refused(
            "Drain cleaner, laundry soda and hardware-shop caustic soda are no food: other chemicals are in them.",
            "Food-grade lye only; or baked soda from baking soda: 1-2 h at 120-150 °C.",
        )
    if alkali and "aluminium" in dangers:
        raise Refused(
            "No aluminium with an alkali bath: it makes hydrogen and the metal dissolves into the food.",
            "Stainless steel, glass, HDPE or PP; baking paper on a steel tray.",
        )
    if bath.id != "lye":
        return
    if "children" in dangers:
        raise Refused(
            "Lye and children do not go together: one splash can blind.",
            "A baking soda bath (30 g per litre, boiling) with the children at a distance from the pot.",
        )
    if "hot" in dangers:
        raise Refused(
            "Lye at home is a cold dip: hot lye spits and its fumes burn.",
            "Cold water, 3-4 % lye, 5-30 seconds; or a hot bath of baked soda, 50 g per litre.",
        )
    if "to_lye" in dangers:
        raise Refused(
            "Never pour water onto lye: it boils up and spits.", "Lye into cold water, a little at a time, stirring."
        )


def bath_of(bread: str | None, baths: Mapping[str, Bath]) -> Bath | None:
    """The usual bath of a bread, where it has one."""
    return next((bath for bath in baths.values() if bread is not None and bread in bath.breads), None)


def bath_with(item: str, baths: Mapping[str, Bath]) -> Bath | None:
    """The bath an ingredient is dissolved for, where there is one."""
    return next((bath for bath in baths.values() if item == bath.item or item in bath.also), None)


def _note(bath: Bath, strength: float, strong: bool, weak: bool) -> str:
    if strong and strength > bath.high_g_per_l * SOAPY_FACTOR and bath.id in ("soda", "baked_soda"):
        return f"Too strong: above {bath.high_g_per_l:g} g per litre it tastes of soap and the skin turns slimy."
    if strong:
        return f"Stronger than usual ({bath.low_g_per_l:g}-{bath.high_g_per_l:g} g per litre)."
    if weak:
        return f"Weaker than usual ({bath.low_g_per_l:g}-{bath.high_g_per_l:g} g per litre): paler."
    return ""
