"""Starter builds: how much seed, flour and water, fed when, ripe when.

All grams, minutes from a common zero ("now"), degrees Celsius; no clock. A build is a `Feeding`, a plan of one or two
of them a `Build`. Ripe is where module fermentation says so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from assistant.engine.fermentation import Dough, Forecast, forecast, minutes_to, minutes_to_ripe, starter_dough
from assistant.engine.growth import Constants, Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.temperature_path import Path, steady


@dataclass(frozen=True, slots=True)
class Habits:
    """How starters are fed, settled from knowledge/kinetics/starter.yaml."""

    least: float
    most: float
    most_ever: float
    keep_g: float
    peak_at_20_min: float
    peak_at_28_min: float
    stiff_factor: float
    stiff_below_pct: float
    slowest: float
    fastest: float


def habits(records: Mapping[str, Constants]) -> Habits:
    """Settle the constants of knowledge/kinetics/starter.yaml."""
    builds, peak, pace = (records[name].values for name in ("starter_builds", "starter_peak", "culture_pace"))
    return Habits(
        least=builds["least"],
        most=builds["most"],
        most_ever=builds["most_ever"],
        keep_g=builds["keep_g"],
        peak_at_20_min=peak["at_20_min"],
        peak_at_28_min=peak["at_28_min"],
        stiff_factor=peak["stiff_factor"],
        stiff_below_pct=peak["stiff_below_pct"],
        slowest=pace["slowest"],
        fastest=pace["fastest"],
    )


@dataclass(frozen=True, slots=True)
class Culture:
    """The starter in the jar: its hydration, its pace and whether that was timed, whether it is cold, its bran."""

    hydration_pct: float = 100.0
    pace: float = 1.0
    timed: bool = False
    cold: bool = False
    wholegrain_share: float = 0.0


@dataclass(frozen=True, slots=True)
class Feeding:
    """One feed: grams, the ratio by mass with seed 1, and minutes from now when it is fed, ripe, and past its best."""

    seed_g: float
    flour_g: float
    water_g: float
    start_min: float
    ripe_min: float
    low_min: float
    high_min: float
    past_min: float
    temp_c: float

    @property
    def total_g(self) -> float:
        """Grams in the jar after feeding."""
        return self.seed_g + self.flour_g + self.water_g

    @property
    def ratio(self) -> tuple[float, float, float]:
        """Seed, flour, water by mass, seed 1."""
        return 1.0, self.flour_g / self.seed_g, self.water_g / self.seed_g


@dataclass(frozen=True, slots=True)
class Build:
    """What to feed for an amount: one or two feedings, grams needed, kept back, and left over in the old jar."""

    needed_g: float
    keep_g: float
    feedings: tuple[Feeding, ...]
    left_in_jar_g: float | None = None

    @property
    def start_min(self) -> float:
        return self.feedings[0].start_min

    @property
    def ripe_min(self) -> float:
        return self.feedings[-1].ripe_min


def portions_g(total_g: float, flour_per_seed: float, seed_pct: float, target_pct: float) -> tuple[float, float, float]:
    """Seed, flour and water for `total_g` of starter at `target_pct`, with `flour_per_seed` g of flour per g of seed.

    Raises:
        Refused: the seed is so much wetter than what is wanted that no water could be right.
    """
    seed_flour = 1 / (1 + seed_pct / 100)
    water_per_seed = (flour_per_seed + seed_flour) * target_pct / 100 - (1 - seed_flour)
    if water_per_seed < 0:
        needed = (1 - seed_flour) * 100 / target_pct - seed_flour
        raise Refused(
            f"1:{flour_per_seed:g} cannot come out at {target_pct:g} %: the seed alone brings more water than that",
            f"at least {needed:.1f} parts of flour to 1 of seed",
        )
    seed_g = total_g / (1 + flour_per_seed + water_per_seed)
    return seed_g, seed_g * flour_per_seed, seed_g * water_per_seed


def peak_holds_min(h: Habits, temp_c: float, hydration_pct: float) -> float:
    """How long a ripe starter stays at its best, minutes: two hours at 20 C, one at 28, longer when stiff."""
    share = min(1.5, max(-0.5, (temp_c - 20) / 8))
    holds = h.peak_at_20_min + share * (h.peak_at_28_min - h.peak_at_20_min)
    return holds * (h.stiff_factor if hydration_pct < h.stiff_below_pct else 1.0)


def fed(culture: Culture, seed_g: float, flour_g: float, water_g: float) -> Dough:
    """The starter just fed, as a dough."""
    return starter_dough(
        seed_g,
        flour_g,
        water_g,
        culture.hydration_pct,
        pace=culture.pace,
        wholegrain_share=culture.wholegrain_share,
        cold_seed=culture.cold,
    )


def ripening(k: Kinetics, culture: Culture, ratio: tuple[float, float, float], path: Path) -> Forecast:
    """How long a feed of `ratio` (seed, flour, water by mass) takes to be ripe along a path."""
    return forecast(k, fed(culture, *ratio), path, None, timed=culture.timed)


def feeding(
    k: Kinetics, h: Habits, culture: Culture, grams: tuple[float, float, float], temp_c: float, start_min: float
) -> Feeding:
    """One feed of so many grams of seed, flour and water at a steady temperature."""
    seen = ripening(k, culture, grams, steady(temp_c))
    if not math.isfinite(seen.minutes):
        raise Refused(
            f"at {temp_c:g} °C a starter does not ripen in three weeks",
            "keep it at 20 to 26 °C until it has risen, then chill it",
        )
    seed_g, flour_g, water_g = grams
    hydration = fed(culture, *grams).hydration_pct
    return Feeding(
        seed_g=seed_g,
        flour_g=flour_g,
        water_g=water_g,
        start_min=start_min,
        ripe_min=start_min + seen.minutes,
        low_min=seen.low_min,
        high_min=seen.high_min if math.isfinite(seen.high_min) else 2 * seen.minutes,
        past_min=start_min + seen.minutes + peak_holds_min(h, temp_c, hydration),
        temp_c=temp_c,
    )


def flour_per_seed_for(
    k: Kinetics,
    culture: Culture,
    target_pct: float,
    temp_c: float,
    minutes: float,
    most: float,
    least: float,
) -> float | None:
    """Flour per part of seed that is ripe after `minutes`, from `least` to `most`; None where even the least is late.

    Capped at `most`, so the answer may be ripe early. Found by bisection on the one fermentation model.
    """

    def takes(flour: float) -> float:
        grams = portions_g(1.0, flour, culture.hydration_pct, target_pct)
        return minutes_to_ripe(k, fed(culture, *grams), steady(temp_c))

    if takes(least) > minutes:
        return None
    if takes(most) <= minutes:
        return most
    low, high = least, most
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if takes(middle) <= minutes else (low, middle)
    return low


def least_flour(seed_pct: float, target_pct: float, least: float = 0.5) -> float:
    """The least flour per part of seed: half a part, more where a wet seed must become a stiff starter."""
    seed_flour = 1 / (1 + seed_pct / 100)
    return max(least, (1 - seed_flour) * 100 / target_pct - seed_flour + 0.05)


def pace_of_culture(
    k: Kinetics,
    h: Habits,
    culture: Culture,
    ratio: tuple[float, float, float],
    temp_c: float,
    minutes: float,
    rise_pct: float | None = None,
) -> float:
    """The pace of a culture that was ripe `minutes` after a feed of `ratio` at `temp_c`, against the usual one.

    `rise_pct`: it was not ripe then but had risen so far (100 = doubled).

    Raises:
        Refused: outside 0.6 to 1.5, more likely a mistimed peak than such a culture.
    """
    usual = Culture(culture.hydration_pct, 1.0, False, culture.cold, culture.wholegrain_share)
    dough = fed(usual, *ratio)
    expected = (
        minutes_to_ripe(k, dough, steady(temp_c))
        if rise_pct is None
        else minutes_to(k, dough, steady(temp_c), rise_pct)
    )
    wait_min = 60 * (k.wait_cold_h if culture.cold else k.wait_h)
    pace = (expected - wait_min) / (minutes - wait_min) if minutes > wait_min else math.inf
    if not h.slowest <= pace <= h.fastest:
        low = wait_min + (expected - wait_min) / h.fastest
        high = wait_min + (expected - wait_min) / h.slowest
        parts = ":".join(f"{part:g}" for part in ratio)
        does = "peaks" if rise_pct is None else f"has risen by {rise_pct:.0f} %"
        raise Refused(
            f"a {parts} feed at {temp_c:g} °C usually {does} after {expected / 60:.1f} h; "
            f"{minutes / 60:.1f} h is too far from that to be this culture's pace",
            f"between {low / 60:.1f} and {high / 60:.1f} h would set it; check the ratio and the temperature",
        )
    return pace
