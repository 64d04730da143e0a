"""What ferments, and what it does at a steady temperature: the closed forms the integrator is built of.

Sourdough yeast `Y`, relative to a ripe starter, grows at its rate times the factors of salt and water; gas is made in
step with that growth, `gas_at_ripeness` dough volumes by the time Y is 1. Commercial yeast makes gas by its own curve
and multiplies only after a wait. What rises is the gas less what dissolves first. Constants: knowledge/kinetics.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from assistant.engine.growth import (
    Kinetics,
    acid_rate,
    bakers_gas_rate,
    bakers_growth_rate,
    salt_factor,
    salt_in_water_pct,
    sourdough_rate,
    sugar_as_salt_pct,
    water_factor,
)
from assistant.engine.temperature_path import Piece


@dataclass(frozen=True, slots=True)
class Dough:
    """What ferments. Percentages are of flour; `starter_pct` is starter on the flour that is not in it.

    `yeast_fresh_pct` is commercial yeast as fresh (see growth.fresh_from_dry_pct), of all flour. `pace` is this culture
    against the usual one (1.2 = a fifth faster). `pressure_ratio` is air pressure against sea level (see
    altitude.pressure_ratio). `cold_seed` is a starter straight from the fridge. A starter build is a Dough too: see
    `starter_dough`.
    """

    hydration_pct: float
    salt_pct: float = 0.0
    starter_pct: float = 0.0
    starter_hydration_pct: float = 100.0
    yeast_fresh_pct: float = 0.0
    sugar_pct: float = 0.0
    wholegrain_share: float = 0.0
    pace: float = 1.0
    pressure_ratio: float = 1.0
    cold_seed: bool = False

    def __post_init__(self) -> None:
        if self.hydration_pct <= 0 or self.starter_hydration_pct <= 0:
            raise ValueError("a dough has water in it")
        if min(self.salt_pct, self.starter_pct, self.yeast_fresh_pct, self.sugar_pct) < 0:
            raise ValueError("nothing in a dough weighs less than nothing")

    @property
    def seed_share(self) -> float:
        """Flour from the starter as a share of all flour, 0 to 1."""
        seed_flour = self.starter_pct / (1 + self.starter_hydration_pct / 100)
        return seed_flour / (100 + seed_flour)


class State(NamedTuple):
    """Where a dough has got to.

    `at_min` minutes along its path; `wait_h` hours before the culture gets going; `culture` and `acid` the sourdough
    yeast and the acid makers against a ripe starter; `yeast_pct` commercial yeast as fresh, % of flour; `yeast_wait_h`
    hours at 27 C before it multiplies; `gas` dough volumes of gas made, at sea level. A tuple for speed, as `Piece` is.
    """

    at_min: float
    wait_h: float
    culture: float
    acid: float
    yeast_pct: float
    yeast_wait_h: float
    gas: float


@dataclass(frozen=True, slots=True)
class Speeds:
    """Factors that do not change along a path, worked out once per dough."""

    culture: float
    acid: float
    yeast_growth: float
    yeast_gas: float


def speeds_of(k: Kinetics, dough: Dough, speed: float) -> Speeds:
    """The factors of salt, sugar, water, bran and pace for a dough; `speed` scales them all."""
    salt = salt_in_water_pct(dough.salt_pct, dough.hydration_pct)
    as_salt = salt + sugar_as_salt_pct(k, dough.sugar_pct, dough.hydration_pct)
    body = speed * water_factor(k, dough.hydration_pct) * (1 + k.wholegrain_faster * dough.wholegrain_share)
    yeast = body * salt_factor(as_salt, k.salt_stop_bakers)
    # The figures for gas per yeast are for 65 % water and 2 % salt: a wetter dough has more volume to raise.
    return Speeds(
        culture=body * dough.pace * salt_factor(as_salt, k.salt_stop_sourdough),
        acid=body * dough.pace * salt_factor(salt, k.salt_stop_bacteria),
        yeast_growth=k.bakers_growth_per_h * yeast,
        yeast_gas=k.bakers_gas_per_h * yeast * 167 / (100 + dough.hydration_pct + dough.salt_pct),
    )


class Rates(NamedTuple):
    """Rates of one piece: culture and acid makers per hour, yeast growth and gas at 27 C relative."""

    culture: float
    acid: float
    growth: float
    gas: float


def rates_in(k: Kinetics, dough: Dough, piece: Piece, with_acid: bool = True) -> Rates:
    """Rates over one piece of a path, the mean of its two temperatures; the acid makers only where they are wanted."""
    early = _rates_at(k, dough, piece.early_c, with_acid)
    if piece.early_c == piece.late_c:
        return early
    late = _rates_at(k, dough, piece.late_c, with_acid)
    return Rates(
        (early.culture + late.culture) / 2,
        (early.acid + late.acid) / 2,
        (early.growth + late.growth) / 2,
        (early.gas + late.gas) / 2,
    )


def _rates_at(k: Kinetics, dough: Dough, temp_c: float, with_acid: bool) -> Rates:
    culture = acid = growth = gas = 0.0
    if dough.starter_pct > 0:
        culture = sourdough_rate(k, temp_c)
        if with_acid:
            acid = acid_rate(k, temp_c)
    if dough.yeast_fresh_pct > 0:
        growth = bakers_growth_rate(k, temp_c)
        gas = bakers_gas_rate(k, temp_c)
    return Rates(culture, acid, growth, gas)


def after(k: Kinetics, speeds: Speeds, rates: Rates, state: State, minutes: float) -> State:
    """The state after so many minutes at steady rates, in closed form."""
    hours = minutes / 60
    waited = min(hours, state.wait_h)
    culture, made = _culture_after(state.culture, rates.culture * speeds.culture, hours - waited)
    yeast_pct, yeast_wait_h, yeast_gas = _yeast_after(k, speeds, rates, state, hours)
    return State(
        at_min=state.at_min + minutes,
        wait_h=state.wait_h - waited,
        culture=culture,
        acid=min(state.acid * math.exp(min(50.0, rates.acid * speeds.acid * (hours - waited))), 4.0),
        yeast_pct=yeast_pct,
        yeast_wait_h=yeast_wait_h,
        gas=state.gas + k.gas_at_ripeness * made + yeast_gas,
    )


def _culture_after(culture: float, per_h: float, hours: float) -> tuple[float, float]:
    """Sourdough yeast after a while, and growth that made gas: exponential up to ripe, then steady without growth."""
    if culture <= 0 or per_h <= 0 or hours <= 0:
        return culture, 0.0
    to_ripe_h = max(0.0, -math.log(culture) / per_h)
    if hours <= to_ripe_h:
        grown = culture * math.exp(per_h * hours)
        return grown, grown - culture
    return max(1.0, culture), max(0.0, 1 - culture) + per_h * (hours - to_ripe_h)


def _yeast_after(k: Kinetics, speeds: Speeds, rates: Rates, state: State, hours: float) -> tuple[float, float, float]:
    """Commercial yeast after a while: percent, wait left, gas made. Logistic growth once the wait is over."""
    yeast = state.yeast_pct
    if yeast <= 0 or rates.gas <= 0:
        return yeast, state.yeast_wait_h, 0.0
    gas_per_pct_h = speeds.yeast_gas * rates.gas
    if rates.growth <= 0:
        return yeast, state.yeast_wait_h, gas_per_pct_h * yeast * hours
    waiting = min(hours, state.yeast_wait_h / rates.growth)
    wait_h = max(0.0, state.yeast_wait_h - waiting * rates.growth)
    made = gas_per_pct_h * yeast * waiting
    growing = hours - waiting
    per_h = speeds.yeast_growth * rates.growth
    ceiling = k.bakers_ceiling_pct
    if growing <= 0:
        return yeast, wait_h, made
    if yeast >= ceiling or per_h <= 0:
        return yeast, wait_h, made + gas_per_pct_h * yeast * growing
    # log1p of a huge growth would overflow: past 60 doublings the yeast is simply at its ceiling.
    exponent = min(per_h * growing, 60.0)
    swell = math.expm1(exponent)
    area = ceiling / per_h * math.log1p(yeast * swell / ceiling) + ceiling * (growing - exponent / per_h)
    return ceiling * yeast * (1 + swell) / (ceiling + yeast * swell), wait_h, made + gas_per_pct_h * area


def minutes_inside(
    k: Kinetics, speeds: Speeds, rates: Rates, state: State, minutes: float, gas: float, culture: float
) -> float:
    """Minutes into a piece of steady rates at which the target falls; bisection where commercial yeast is in it."""
    per_h = rates.culture * speeds.culture
    if math.isfinite(culture):
        return min(minutes, 60 * (state.wait_h + math.log(culture / state.culture) / per_h))
    growth = (gas - state.gas) / k.gas_at_ripeness
    if state.yeast_pct <= 0:
        to_ripe = max(0.0, 1 - state.culture)
        if growth <= to_ripe:
            hours = math.log1p(growth / state.culture) / per_h
        else:
            hours = (max(0.0, -math.log(state.culture)) + growth - to_ripe) / per_h
        return min(minutes, 60 * (state.wait_h + hours))
    low, high = 0.0, min(minutes, 60.0)
    while high < minutes and after(k, speeds, rates, state, high).gas < gas:
        low, high = high, min(minutes, 2 * high)
    for _ in range(40):
        middle = (low + high) / 2
        if after(k, speeds, rates, state, middle).gas < gas:
            low = middle
        else:
            high = middle
        if high - low < 0.01:
            break
    return high
