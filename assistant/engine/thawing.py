"""Frozen dough, bread fresh from the oven and water on the hob: how long until they have come to a temperature.

Masses in grams, temperatures in degrees Celsius, times in minutes. Constants: knowledge/kinetics/heat.yaml.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from assistant.engine.growth import Constants
from assistant.engine.heat import Heat, cooling_tau_h, dough_heat, minutes_to_temp


def thaw_min(
    heat: Heat, records: Mapping[str, Constants], mass_g: float, hydration_pct: float, air_c: float
) -> float:
    """Minutes until frozen dough of `mass_g` in one piece is soft to the middle in air of `air_c`; inf: it never is.

    Three stretches: up to where its ice melts, melting there (all that heat through one skin), and on to thawed.
    """
    frozen = records["frozen_dough"].values
    if air_c <= frozen["thawed_c"] - 1:
        return math.inf
    melts_c, cp = frozen["melts_c"], dough_heat(heat, hydration_pct)
    tau_h = cooling_tau_h(heat, mass_g, cp, transfer=frozen["transfer"])
    up = minutes_to_temp(frozen["freezer_c"], air_c, tau_h * frozen["frozen_cp"] / cp, melts_c)
    water = hydration_pct / (100 + hydration_pct + 2)
    latent = frozen["latent_kj_kg"] * water * frozen["ice_share"]
    melting = 60 * tau_h / cp * latent / (air_c - melts_c)
    # A fridge at 4 C brings the middle to a degree under its own warmth and no further.
    thawed_c = min(frozen["thawed_c"], air_c - 1)
    return up + melting + minutes_to_temp(melts_c, air_c, tau_h, thawed_c)


@dataclass(frozen=True, slots=True)
class Cooled:
    """How long bread cools before it is cut: minutes with their range, and the core it then has."""

    minutes: float
    low_min: float
    high_min: float
    core_c: float


def bread_cools(records: Mapping[str, Constants], mass_g: float, kitchen_c: float) -> Cooled:
    """How long a loaf or roll of `mass_g` (raw) on a rack takes until it may be cut.

    Grows with a power of the mass; a warmer kitchen takes longer, by the logarithm of the gaps to the air around it.
    """
    usual = records["bread_cooling"].values
    cut_c = max(usual["cut_c"], kitchen_c + 5)

    def gaps(air_c: float, core_c: float) -> float:
        return math.log((usual["from_c"] - air_c) / (core_c - air_c))

    minutes = usual["minutes"] * math.pow(mass_g / usual["mass_g"], usual["power"])
    minutes *= gaps(kitchen_c, cut_c) / gaps(usual["kitchen_c"], usual["cut_c"])
    return Cooled(minutes, minutes * usual["low_share"], minutes * usual["high_share"], cut_c)


@dataclass(frozen=True, slots=True)
class OnTheBoil:
    """Water coming to the boil: minutes with their range, where it boils, and the share of the heat that arrives."""

    minutes: float
    low_min: float
    high_min: float
    boils_c: float
    share: float


def comes_to_the_boil(
    heat: Heat,
    records: Mapping[str, Constants],
    water_g: float,
    power_kw: float,
    from_c: float,
    boils_c: float,
    ring: str = "electric",
) -> OnTheBoil:
    """How long `water_g` takes from `from_c` to `boils_c` on a ring of `power_kw`; `ring`: gas, electric, induction.

    The heat of the water and of a large pot over the share of the power that reaches them. The range is how far rings,
    lids and draughts differ.
    """
    hob = records["water_on_the_hob"].values
    share = hob[ring]
    heat_kj = (water_g / 1000 * heat.capacity["water"] + hob["pot_kj_c"]) * max(0.0, boils_c - from_c)

    def takes(part: float) -> float:
        return heat_kj / (power_kw * part) / 60

    spread = hob["spread"]
    return OnTheBoil(takes(share), takes(min(0.95, share + spread)), takes(share - spread), boils_c, share)
