"""How fast the organisms of a dough grow and make gas: temperature, salt, sugar, water.

Rates are per hour, temperatures in degrees Celsius. The constants come from knowledge/kinetics/*.yaml and are settled
once by `kinetics`; nothing here reads a file.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol


class Constants(Protocol):
    """What this module needs of a knowledge record: a form and named numbers."""

    @property
    def form(self) -> str: ...
    @property
    def values(self) -> Mapping[str, float]: ...


@dataclass(frozen=True, slots=True)
class ExponentialCurve:
    """`a * x^b * exp(-c * x)` with `x = top_c - T`; zero from `top_c` up."""

    a: float
    b: float
    c: float
    top_c: float

    def rate(self, temp_c: float) -> float:
        """Rate at a temperature, never negative."""
        below_top = self.top_c - temp_c
        if below_top <= 0:
            return 0.0
        return self.a * math.exp(self.b * math.log(below_top) - self.c * below_top)


@dataclass(frozen=True, slots=True)
class CardinalCurve:
    """Cardinal temperature model: lowest, best, highest temperature and the rate at the best (Rosso et al. 1995)."""

    min_c: float
    best_c: float
    max_c: float
    best_rate: float

    def rate(self, temp_c: float) -> float:
        """Rate at a temperature; zero outside `min_c` to `max_c`."""
        if not self.min_c < temp_c < self.max_c:
            return 0.0
        span = self.best_c - self.min_c
        above = temp_c - self.min_c
        low_side = span * (temp_c - self.best_c)
        high_side = (self.best_c - self.max_c) * (self.best_c + self.min_c - 2 * temp_c)
        return self.best_rate * (temp_c - self.max_c) * above * above / (span * (low_side - high_side))


@dataclass(frozen=True, slots=True)
class Kinetics:
    """Every constant of the fermentation model, settled. Field names follow the records they come from."""

    sourdough_yeast: ExponentialCurve
    sourdough_yeast_cold: CardinalCurve
    acid_bacteria: ExponentialCurve
    acid_bacteria_cold: CardinalCurve
    bakers_growth: CardinalCurve
    bakers_gas: ExponentialCurve
    salt_stop_sourdough: float
    salt_stop_bacteria: float
    salt_stop_bakers: float
    sugar_free_pct: float
    sugar_as_salt: float
    water_half: float
    water_power: float
    wholegrain_faster: float
    gas_at_ripeness: float
    dissolved: float
    wait_h: float
    wait_cold_h: float
    bakers_growth_per_h: float
    bakers_ceiling_pct: float
    bakers_wait_h: float
    bakers_gas_per_h: float
    active_dry_per_fresh: float
    instant_per_fresh: float
    hot_c: float
    blended_c: float
    cold_c: float
    curve_c: float
    steady_low_c: float
    steady_high_c: float
    kills_c: float
    freezes_c: float
    spread_timed: float
    spread_untimed: float
    spread_bakers: float
    spread_outside: float
    # Settled once: the rates everything else is scaled by.
    hot_rate: float
    hot_bakers_rate: float
    hot_bakers_gas: float
    bakers_growth_reference: float
    bakers_gas_reference: float


def kinetics(records: Mapping[str, Constants]) -> Kinetics:
    """Settle the constants of knowledge/kinetics into one value, for every function of the fermentation model."""

    def exponential(name: str) -> ExponentialCurve:
        return ExponentialCurve(**records[name].values)

    def cardinal(name: str) -> CardinalCurve:
        return CardinalCurve(**records[name].values)

    salt, sugar, water = (records[name].values for name in ("salt_in_water", "sugar_in_dough", "water_in_dough"))
    gas, bakers, forms = (records[name].values for name in ("sourdough_gas", "bakers_yeast_dough", "yeast_forms"))
    limits, spread = records["limits"].values, records["spread"].values
    sourdough_yeast = exponential("sourdough_yeast_growth")
    bakers_growth, bakers_gas = cardinal("bakers_yeast_growth"), exponential("bakers_yeast_gas")
    return Kinetics(
        sourdough_yeast=sourdough_yeast,
        sourdough_yeast_cold=cardinal("sourdough_yeast_growth_cold"),
        acid_bacteria=exponential("acid_bacteria_growth"),
        acid_bacteria_cold=cardinal("acid_bacteria_growth_cold"),
        bakers_growth=bakers_growth,
        bakers_gas=bakers_gas,
        salt_stop_sourdough=salt["sourdough_yeast_stop"],
        salt_stop_bacteria=salt["acid_bacteria_stop"],
        salt_stop_bakers=salt["bakers_yeast_stop"],
        sugar_free_pct=sugar["free_pct"],
        sugar_as_salt=sugar["as_salt"],
        water_half=water["half"],
        water_power=water["power"],
        wholegrain_faster=records["wholegrain"].values["faster"],
        gas_at_ripeness=gas["at_ripeness"],
        dissolved=gas["dissolved"],
        wait_h=gas["wait_h"],
        wait_cold_h=gas["wait_cold_h"],
        bakers_growth_per_h=bakers["growth"],
        bakers_ceiling_pct=bakers["ceiling_pct"],
        bakers_wait_h=bakers["wait_h"],
        bakers_gas_per_h=bakers["gas"],
        active_dry_per_fresh=forms["active_dry"],
        instant_per_fresh=forms["instant"],
        hot_c=limits["hot_c"],
        blended_c=limits["blended_c"],
        cold_c=limits["cold_c"],
        curve_c=limits["curve_c"],
        steady_low_c=limits["steady_low_c"],
        steady_high_c=limits["steady_high_c"],
        kills_c=limits["kills_c"],
        freezes_c=limits["freezes_c"],
        spread_timed=spread["timed"],
        spread_untimed=spread["untimed"],
        spread_bakers=spread["bakers_yeast"],
        spread_outside=spread["outside"],
        hot_rate=sourdough_yeast.rate(limits["hot_c"]),
        hot_bakers_rate=bakers_growth.rate(limits["hot_c"]),
        hot_bakers_gas=bakers_gas.rate(limits["hot_c"]),
        bakers_growth_reference=bakers_growth.rate(bakers["reference_c"]),
        bakers_gas_reference=bakers_gas.rate(bakers["reference_c"]),
    )


def _cold_blend(k: Kinetics, temp_c: float, curve: float, cold: float) -> float:
    """Below `curve_c` the measured curve fades into the mean of itself and the fit that stops growth altogether."""
    if temp_c >= k.curve_c:
        return curve
    share = min(1.0, (k.curve_c - temp_c) / (k.curve_c - k.cold_c)) / 2
    return curve + share * (cold - curve)


def sourdough_rate(k: Kinetics, temp_c: float) -> float:
    """Growth of a home culture's yeast, per hour.

    The measured curve up to `hot_c`. Above it a culture at home does not collapse as the pure strain does (it carries
    baker's yeast too), so the rate never falls below the one at `hot_c` and leans toward baker's yeast. In the cold it
    lies between the two fits.
    """
    if temp_c > k.hot_c:
        lean = min(1.0, (temp_c - k.hot_c) / (k.blended_c - k.hot_c))
        gain = k.bakers_growth.rate(temp_c) / k.hot_bakers_rate - 1
        return k.hot_rate * (1 + max(0.0, lean * gain))
    curve = k.sourdough_yeast.rate(temp_c)
    return _cold_blend(k, temp_c, curve, k.sourdough_yeast_cold.rate(temp_c) if temp_c < k.curve_c else curve)


def acid_rate(k: Kinetics, temp_c: float) -> float:
    """Growth of the acid bacteria, per hour."""
    curve = k.acid_bacteria.rate(temp_c)
    return _cold_blend(k, temp_c, curve, k.acid_bacteria_cold.rate(temp_c) if temp_c < k.curve_c else curve)


def bakers_growth_rate(k: Kinetics, temp_c: float) -> float:
    """Growth of baker's yeast relative to its growth at 27 C; never below the one at `hot_c` in a hotter dough."""
    rate = k.bakers_growth.rate(temp_c)
    if temp_c > k.hot_c:
        rate = max(rate, k.hot_bakers_rate)
    return rate / k.bakers_growth_reference


def bakers_gas_rate(k: Kinetics, temp_c: float) -> float:
    """Gas by baker's yeast relative to 27 C; never below the one at `hot_c` in a hotter dough."""
    rate = k.bakers_gas.rate(temp_c)
    if temp_c > k.hot_c:
        rate = max(rate, k.hot_bakers_gas)
    return rate / k.bakers_gas_reference


def salt_in_water_pct(salt_pct: float, hydration_pct: float) -> float:
    """Grams of salt per 100 g of water, from percentages of flour."""
    return 100 * salt_pct / hydration_pct if hydration_pct > 0 else 0.0


def salt_factor(concentration: float, stop: float) -> float:
    """Share of the growth left at `concentration` g of salt per 100 g of water; 0 from `stop` up."""
    return max(0.0, 1 - (concentration / stop) ** 2)


def sugar_as_salt_pct(k: Kinetics, sugar_pct: float, hydration_pct: float) -> float:
    """Sugar above the free share of the flour, as grams of salt per 100 g of water that slow yeast as much."""
    return k.sugar_as_salt * salt_in_water_pct(max(0.0, sugar_pct - k.sugar_free_pct), hydration_pct)


def water_factor(k: Kinetics, hydration_pct: float) -> float:
    """Speed against a dough of 100 % hydration: 0.52 at 44 %, 0.86 at 65 %."""
    if hydration_pct <= 0:
        return 0.0
    half = math.pow(k.water_half, k.water_power)
    return min(1.0, (1 + half) / (1 + half / math.pow(hydration_pct / 100, k.water_power)))


def fresh_from_dry_pct(k: Kinetics, active_dry_pct: float = 0.0, instant_pct: float = 0.0) -> float:
    """Fresh yeast that does the same work as this much active dry and instant yeast."""
    return active_dry_pct / k.active_dry_per_fresh + instant_pct / k.instant_per_fresh
