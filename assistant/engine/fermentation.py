"""A dough or a starter over time: one integrator for starter, bulk, proof, retard and "how long left".

A `Dough` is what ferments (starter, yeast, water, salt, sugar), a `State` where it has got to, a `Path` (module
temperature_path) how warm it is. `advance` moves a state along a path, `minutes_to` finds when a rise is reached,
`minutes_to_ripe` when a starter is, `forecast` adds the honest range and what one degree is worth. All pure.

The model: sourdough yeast `Y`, relative to a ripe starter, grows at its rate times the factors of salt and water; gas is
made in step with that growth, `gas_at_ripeness` dough volumes by the time Y is 1. Commercial yeast makes gas by its own
curve and multiplies only after a wait. What rises is the gas less what dissolves first. Within a piece of the path the
temperature hardly moves and both have a closed form, so any split of the path ends the same.
Constants and sources: knowledge/kinetics.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

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
from assistant.engine.temperature_path import Path, Piece

LONGEST_MIN = 21 * 24 * 60.0
"""No forecast looks further ahead than three weeks; a dough that needs longer counts as never getting there."""


@dataclass(frozen=True, slots=True)
class Dough:
    """What ferments. Percentages are of flour; `starter_pct` is starter on the flour that is not in it.

    `yeast_fresh_pct` is commercial yeast as fresh (see growth.fresh_from_dry_pct), of all flour. `pace` is this culture
    against the usual one (1.2 = a fifth faster). `pressure_ratio` is air pressure against sea level (altitude.pressure_ratio).
    `cold_seed` is a starter straight from the fridge. A starter build is a Dough too: see `starter_dough`.
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


@dataclass(frozen=True, slots=True)
class State:
    """Where a dough has got to.

    `at_min` minutes along its path; `wait_h` hours before the culture gets going; `culture` and `acid` the sourdough yeast
    and the acid makers against a ripe starter; `yeast_pct` commercial yeast as fresh, % of flour; `yeast_wait_h` hours at
    27 C before it multiplies; `gas` dough volumes of gas made, at sea level.
    """

    at_min: float
    wait_h: float
    culture: float
    acid: float
    yeast_pct: float
    yeast_wait_h: float
    gas: float


@dataclass(frozen=True, slots=True)
class Forecast:
    """How long a stage takes, minutes, with its range; `sooner_min` is what 1 C warmer would save.

    `outside` is "hot" or "cold" where the path leaves the temperatures the model is sure of, else None.
    """

    minutes: float
    low_min: float
    high_min: float
    sooner_min: float
    end: State
    warmest_c: float
    coldest_c: float
    outside: str | None


@dataclass(frozen=True, slots=True)
class _Speeds:
    """Factors that do not change along a path, worked out once per dough."""

    culture: float
    acid: float
    yeast_growth: float
    yeast_gas: float


def starter_dough(seed: float, flour: float, water: float, seed_hydration_pct: float = 100.0, **rest: float | bool) -> Dough:
    """A starter build by its ratio (1:5:5 = seed 1, flour 5, water 5; any unit) as a dough without salt."""
    seed_flour = seed / (1 + seed_hydration_pct / 100)
    seed_water = seed - seed_flour
    return Dough(
        hydration_pct=100 * (water + seed_water) / (flour + seed_flour),
        starter_pct=100 * seed / flour,
        starter_hydration_pct=seed_hydration_pct,
        **rest,  # type: ignore[arg-type]
    )


def mixed(k: Kinetics, dough: Dough) -> State:
    """The state of a dough just mixed (or a starter just fed)."""
    return State(
        at_min=0.0,
        wait_h=(k.wait_cold_h if dough.cold_seed else k.wait_h) if dough.starter_pct > 0 else 0.0,
        culture=dough.seed_share,
        acid=dough.seed_share,
        yeast_pct=dough.yeast_fresh_pct,
        yeast_wait_h=k.bakers_wait_h,
        gas=0.0,
    )


def shaped(k: Kinetics, state: State, kept: float = 0.0) -> State:
    """The state after dividing and shaping, at the start of a new path.

    The gas dissolved in the dough stays, of the gas that raised it `kept` (0 to 1) does; the rise of the proof counts from here.
    """
    return replace(state, at_min=0.0, gas=min(state.gas, k.dissolved) + kept * max(0.0, state.gas - k.dissolved))


def rise_pct(k: Kinetics, dough: Dough, state: State) -> float:
    """Volume gained since mixing (or shaping), percent of the volume then; never negative."""
    return 100 * max(0.0, state.gas / dough.pressure_ratio - k.dissolved)


def advance(k: Kinetics, dough: Dough, state: State, path: Path, minutes: float, speed: float = 1.0) -> State:
    """The state after `minutes` more along `path`; `speed` scales every rate (for the range)."""
    speeds = _speeds(k, dough, speed)
    left = minutes
    for piece in path.pieces(state.at_min):
        step = min(left, piece.minutes)
        if step > 0:
            state = _through(k, dough, speeds, state, piece, step)
        left -= step
        if left <= 0:
            break
    return state


def minutes_to(
    k: Kinetics, dough: Dough, path: Path, rise: float, state: State | None = None, speed: float = 1.0
) -> float:
    """Minutes until the dough has risen by `rise` percent from mixing (or shaping); inf if it never does.

    `state` is where it stands now (default: just mixed); the minutes count from there.
    """
    gas_needed = (rise / 100 + k.dissolved) * dough.pressure_ratio
    return _until(k, dough, path, state or mixed(k, dough), speed, gas=gas_needed)


def minutes_to_ripe(k: Kinetics, dough: Dough, path: Path, state: State | None = None, speed: float = 1.0) -> float:
    """Minutes until a starter is ripe (its yeast as dense as the ripe starter it came from); inf if it never is."""
    return _until(k, dough, path, state or mixed(k, dough), speed, culture=1.0)


def forecast(
    k: Kinetics, dough: Dough, path: Path, rise: float | None, state: State | None = None, timed: bool = False
) -> Forecast:
    """Minutes to a rise in percent (None: until a starter is ripe) with low, high and what one degree does.

    `timed` says the culture's pace was measured. Above `hot_c` the range widens and the time is never longer than there.
    """
    start = state or mixed(k, dough)

    def when(along: Path, speed: float) -> float:
        if rise is None:
            return minutes_to_ripe(k, dough, along, start, speed)
        return minutes_to(k, dough, along, rise, start, speed)

    minutes = when(path, 1.0)
    until = min(minutes, LONGEST_MIN)
    temps = [path.temp_c(start.at_min + until * share / 12) for share in range(13)]
    warmest_c, coldest_c = max(temps), min(temps)
    if dough.starter_pct > 0:
        spread = k.spread_timed if timed else k.spread_untimed
    else:
        spread = k.spread_bakers
    mean_c = sum(temps) / len(temps)
    outside = None
    if mean_c > k.steady_high_c or warmest_c > k.steady_high_c + 2:
        outside = "hot"
    elif mean_c < k.steady_low_c:
        outside = "cold"
    if outside:
        spread *= k.spread_outside
    return Forecast(
        minutes=minutes,
        low_min=when(path, spread),
        high_min=when(path, 1 / spread),
        sooner_min=minutes - when(path.warmer(1.0), 1.0) if math.isfinite(minutes) else 0.0,
        end=advance(k, dough, start, path, until),
        warmest_c=warmest_c,
        coldest_c=coldest_c,
        outside=outside,
    )


def _speeds(k: Kinetics, dough: Dough, speed: float) -> _Speeds:
    salt = salt_in_water_pct(dough.salt_pct, dough.hydration_pct)
    as_salt = salt + sugar_as_salt_pct(k, dough.sugar_pct, dough.hydration_pct)
    body = speed * water_factor(k, dough.hydration_pct) * (1 + k.wholegrain_faster * dough.wholegrain_share)
    yeast = body * salt_factor(as_salt, k.salt_stop_bakers)
    # The figures for gas per yeast are for 65 % water and 2 % salt: a wetter dough has more volume to raise.
    return _Speeds(
        culture=body * dough.pace * salt_factor(as_salt, k.salt_stop_sourdough),
        acid=body * dough.pace * salt_factor(salt, k.salt_stop_bacteria),
        yeast_growth=k.bakers_growth_per_h * yeast,
        yeast_gas=k.bakers_gas_per_h * yeast * 167 / (100 + dough.hydration_pct + dough.salt_pct),
    )


@dataclass(frozen=True, slots=True)
class _Rates:
    """Rates of one piece: culture and acid makers per hour, yeast growth and gas at 27 C relative."""

    culture: float
    acid: float
    growth: float
    gas: float


def _rates(k: Kinetics, dough: Dough, piece: Piece) -> _Rates:
    ends = (piece.early_c,) if piece.early_c == piece.late_c else (piece.early_c, piece.late_c)
    count = len(ends)
    culture = acid = growth = gas = 0.0
    if dough.starter_pct > 0:
        culture = sum(sourdough_rate(k, temp_c) for temp_c in ends) / count
        acid = sum(acid_rate(k, temp_c) for temp_c in ends) / count
    if dough.yeast_fresh_pct > 0:
        growth = sum(bakers_growth_rate(k, temp_c) for temp_c in ends) / count
        gas = sum(bakers_gas_rate(k, temp_c) for temp_c in ends) / count
    return _Rates(culture, acid, growth, gas)


def _through(k: Kinetics, dough: Dough, speeds: _Speeds, state: State, piece: Piece, minutes: float) -> State:
    return _after(k, speeds, _rates(k, dough, piece), state, minutes)


def _after(k: Kinetics, speeds: _Speeds, rates: _Rates, state: State, minutes: float) -> State:
    """Closed form at steady rates."""
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
    """Sourdough yeast after a while, and growth that made gas: exponential up to ripe, then steady work without growth."""
    if culture <= 0 or per_h <= 0 or hours <= 0:
        return culture, 0.0
    to_ripe_h = max(0.0, -math.log(culture) / per_h)
    if hours <= to_ripe_h:
        grown = culture * math.exp(per_h * hours)
        return grown, grown - culture
    return max(1.0, culture), max(0.0, 1 - culture) + per_h * (hours - to_ripe_h)


def _yeast_after(
    k: Kinetics, speeds: _Speeds, rates: _Rates, state: State, hours: float
) -> tuple[float, float, float]:
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


def _until(
    k: Kinetics,
    dough: Dough,
    path: Path,
    state: State,
    speed: float,
    gas: float = math.inf,
    culture: float = math.inf,
) -> float:
    """Minutes until the gas or the culture is reached, whichever was asked."""
    speeds = _speeds(k, dough, speed)
    started = state.at_min
    if state.gas >= gas or state.culture >= culture:
        return 0.0
    for piece in path.pieces(state.at_min):
        rates = _rates(k, dough, piece)
        left = LONGEST_MIN - (state.at_min - started)
        minutes = min(piece.minutes, left)
        after = _after(k, speeds, rates, state, minutes)
        if after.gas >= gas or after.culture >= culture:
            return state.at_min - started + _inside(k, speeds, rates, state, minutes, gas, culture)
        if minutes >= left:
            return math.inf
        state = after
    return math.inf


def _inside(
    k: Kinetics, speeds: _Speeds, rates: _Rates, state: State, minutes: float, gas: float, culture: float
) -> float:
    """Minutes into a piece of steady rates at which the target falls: in closed form for sourdough alone, else by bisection."""
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
    while high < minutes and _after(k, speeds, rates, state, high).gas < gas:
        low, high = high, min(minutes, 2 * high)
    for _ in range(40):
        middle = (low + high) / 2
        if _after(k, speeds, rates, state, middle).gas < gas:
            low = middle
        else:
            high = middle
        if high - low < 0.01:
            break
    return high
