"""Heat in a dough: specific heat, cooling, the water that brings it to temperature, ice, and water mixed from two taps.

Temperatures in degrees Celsius, masses in grams unless said, heat capacities in kJ per kg and degree.
Constants: knowledge/kinetics/heat.yaml, settled once by `heat_constants`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from assistant.engine.growth import Constants
from assistant.engine.temperature_path import Leg, Path

Cover = Literal["covered", "bare", "fan", "still_room"]


@dataclass(frozen=True, slots=True)
class Heat:
    """The constants of this module, settled. `transfer` is W per m2 and degree by how the dough lies."""

    capacity: Mapping[str, float]
    melting_as_water_c: float
    ice_largest_share: float
    density: float
    conductivity: float
    correction: float
    transfer: Mapping[str, float]
    water_most_c: float
    starter_most_c: float
    chilled_jug_c: float
    usual_tap_c: float


@dataclass(frozen=True, slots=True)
class Warm:
    """Something that goes into the bowl: grams, degrees, heat capacity."""

    g: float
    temp_c: float
    cp: float


@dataclass(frozen=True, slots=True)
class WaterNeeded:
    """The water for a dough temperature.

    `need_c` is what the heat balance asks for, `rule_c` what the trade rule would say. `water_c` is what to pour: the
    tap's own temperature where ice does the rest, `water_g` liquid and `ice_g` ice, together the water of the dough.
    `dough_c` is where the dough then ends: the target, unless a limit was met. `limit` says which: "hot" (the water may
    not be hotter), "ice" (no more ice than a third), else None.
    """

    need_c: float
    rule_c: float
    rule_dough_c: float
    water_c: float
    water_g: float
    ice_g: float
    dough_c: float
    limit: str | None


def heat_constants(records: Mapping[str, Constants]) -> Heat:
    """Settle the constants of knowledge/kinetics/heat.yaml."""
    ice, body, limits = (records[name].values for name in ("ice_melting", "dough_body", "water_limits"))
    return Heat(
        capacity=records["specific_heat"].values,
        melting_as_water_c=ice["as_water_c"],
        ice_largest_share=ice["largest_share"],
        density=body["density"],
        conductivity=body["conductivity"],
        correction=body["correction"],
        transfer=records["heat_transfer"].values,
        water_most_c=limits["dough_c"],
        starter_most_c=limits["starter_c"],
        chilled_jug_c=limits["chilled_jug_c"],
        usual_tap_c=limits["usual_tap_c"],
    )


def specific_heat(heat: Heat, grams: Mapping[str, float]) -> float:
    """Heat capacity of a mixture of flour, water, salt, fat, sugar, protein (names of the constants), kJ/kgK.

    Raises:
        ValueError: nothing to weigh.
    """
    total = sum(grams.values())
    if total <= 0:
        raise ValueError("a mixture has some mass")
    return sum(g * heat.capacity[part] for part, g in grams.items()) / total


def dough_heat(
    heat: Heat, hydration_pct: float, salt_pct: float = 2.0, fat_pct: float = 0.0, sugar_pct: float = 0.0
) -> float:
    """Heat capacity of a dough by its percentages of flour, kJ per kg and degree."""
    return specific_heat(
        heat, {"flour": 100.0, "water": hydration_pct, "salt": salt_pct, "fat": fat_pct, "sugar": sugar_pct}
    )


def cooling_tau_h(
    heat: Heat, mass_g: float, cp: float, cover: Cover = "covered", transfer: float | None = None
) -> float:
    """Hours in which a round dough closes 63 % of the gap to the air around it.

    Lumped cooling of a sphere with a correction for its own resistance (good to 2 % up to Bi 1). `transfer` overrides
    the W per m2 and degree of `cover`. A slab of 4 cm cools like three quarters of a kilo whatever it weighs.
    """
    if mass_g <= 0:
        raise ValueError("a dough has some mass")
    h = heat.transfer[cover] if transfer is None else transfer
    volume = mass_g / 1000 / heat.density
    radius = math.pow(3 * volume / (4 * math.pi), 1 / 3)
    area = 4 * math.pi * radius * radius
    biot = h * (volume / area) / heat.conductivity
    return mass_g / 1000 * cp * 1000 / (h * area) * (1 + heat.correction * biot) / 3600


def minutes_to_temp(dough_c: float, air_c: float, tau_h: float, target_c: float) -> float:
    """Minutes until the mean of the dough reaches a temperature on its way to the air's; inf if it never does."""
    gap, left = dough_c - air_c, target_c - air_c
    if gap == 0 or left / gap <= 0:
        return math.inf if target_c != dough_c else 0.0
    if left / gap >= 1:
        return 0.0 if left == gap else math.inf
    return 60 * tau_h * math.log(gap / left)


def dough_path(heat: Heat, mass_g: float, cp: float, dough_c: float, *legs: tuple[float, float, float, Cover]) -> Path:
    """The path of a dough through surroundings, each (minutes, air_c, air_end_c, cover)."""
    return Path(
        dough_c,
        tuple(
            Leg(minutes, air_c, air_end_c, cooling_tau_h(heat, mass_g, cp, cover))
            for minutes, air_c, air_end_c, cover in legs
        ),
    )


def balance_water_c(heat: Heat, dough_c: float, rise_c: float, water_g: float, others: Sequence[Warm]) -> float:
    """Water temperature that brings the dough to `dough_c` by heat balance; may be far below 0 or above boiling.

    `rise_c` is the dough's real rise from mixing, `others` all that is not the water.
    """
    water = water_g / 1000 * heat.capacity["water"]
    rest = sum(each.g / 1000 * each.cp for each in others)
    held = sum(each.g / 1000 * each.cp * each.temp_c for each in others)
    return ((rest + water) * (dough_c - rise_c) - held) / water


def balance_dough_c(heat: Heat, water_c: float, rise_c: float, water_g: float, others: Sequence[Warm]) -> float:
    """Dough temperature that water of `water_c` gives."""
    water = water_g / 1000 * heat.capacity["water"]
    rest = sum(each.g / 1000 * each.cp for each in others)
    held = sum(each.g / 1000 * each.cp * each.temp_c for each in others)
    return (held + water * water_c) / (rest + water) + rise_c


def rule_water_c(
    dough_c: float, room_c: float, flour_c: float, allowance_c: float, preferment_c: float | None = None
) -> float:
    """Water temperature by the trade rule: three times (four with a preferment) the dough, less room, flour, allowance.

    `allowance_c` is the rule's friction, a sum: about three (four) times the dough's real rise.
    Source: Wihlfahrt, A Treatise on Baking; Hamelman, Bread.
    """
    if preferment_c is None:
        return 3 * dough_c - room_c - flour_c - allowance_c
    return 4 * dough_c - room_c - flour_c - preferment_c - allowance_c


def ice_g(heat: Heat, water_g: float, tap_c: float, need_c: float) -> float:
    """Ice, part of `water_g`, that makes tap water act like water of `need_c` (may be below 0); 0 if none is needed."""
    if need_c >= tap_c:
        return 0.0
    return water_g * (tap_c - need_c) / (tap_c + heat.melting_as_water_c)


def water_needed(
    heat: Heat,
    dough_c: float,
    rise_c: float,
    water_g: float,
    others: Sequence[Warm],
    *,
    room_c: float,
    flour_c: float,
    preferment_c: float | None,
    tap_c: float | None,
    dissolves_starter: bool,
) -> WaterNeeded:
    """Water for a dough temperature by heat balance: ice where the tap is too warm, a limit where it would be too hot.

    Warmer than the tap is always to be had (kettle). Colder takes ice where the baker said how cold the tap runs
    (`tap_c`); with the tap unsaid (None) ice is counted only for water too cold for a chilled jug.
    """
    need_c = balance_water_c(heat, dough_c, rise_c, water_g, others)
    warm_parts = 3 if preferment_c is None else 4
    rule_c = rule_water_c(dough_c, room_c, flour_c, warm_parts * rise_c, preferment_c)
    most_c = heat.starter_most_c if dissolves_starter else heat.water_most_c
    limit: str | None = None
    ice = 0.0
    water_c = need_c
    acts_c = need_c
    if need_c > most_c:
        water_c = acts_c = most_c
        limit = "hot"
    elif need_c < (heat.chilled_jug_c if tap_c is None else tap_c):
        water_c = heat.usual_tap_c if tap_c is None else tap_c
        ice = ice_g(heat, water_g, water_c, need_c)
        if ice > water_g * heat.ice_largest_share:
            ice = water_g * heat.ice_largest_share
            acts_c = water_c - ice / water_g * (water_c + heat.melting_as_water_c)
            limit = "ice"
    return WaterNeeded(
        need_c=need_c,
        rule_c=rule_c,
        rule_dough_c=balance_dough_c(heat, rule_c, rise_c, water_g, others),
        water_c=water_c,
        water_g=water_g - ice,
        ice_g=ice,
        dough_c=balance_dough_c(heat, acts_c, rise_c, water_g, others),
        limit=limit,
    )


def tap_and_kettle_g(water_g: float, need_c: float, tap_c: float, kettle_c: float) -> tuple[float, float]:
    """Grams of tap water and of hot water that make `water_g` at `need_c`; `kettle_c` is the hot water's temperature.

    Raises:
        ValueError: the temperature asked for does not lie between the two.
    """
    if not tap_c <= need_c <= kettle_c or kettle_c == tap_c:
        raise ValueError("the mixture lies between the two")
    hot_g = water_g * (need_c - tap_c) / (kettle_c - tap_c)
    return water_g - hot_g, hot_g


def rise_measured_c(heat: Heat, dough_c: float, water_c: float, water_g: float, others: Sequence[Warm]) -> float:
    """The mixer's real rise, learned from a dough that came out at `dough_c`."""
    return dough_c - balance_dough_c(heat, water_c, 0.0, water_g, others)
