"""A dough or a starter over time: one integrator for starter, bulk, proof, retard and "how long left".

A `Dough` is what ferments (starter, yeast, water, salt, sugar), a `State` where it has got to, a `Path` (module
temperature_path) how warm it is. `advance` moves a state along a path, `minutes_to` finds when a rise is reached,
`minutes_to_ripe` when a starter is, `forecast` adds the honest range and what one degree is worth. All pure.
Within a piece of the path the temperature hardly moves and module rising has a closed form, so a path split at any
point ends the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from assistant.engine.growth import Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.rising import Dough, State, after, minutes_inside, rates_in, speeds_of
from assistant.engine.temperature_path import Path, Piece

__all__ = [
    "LONGEST_MIN",
    "Dough",
    "Forecast",
    "State",
    "advance",
    "forecast",
    "minutes_to",
    "minutes_to_ripe",
    "mixed",
    "refuse_if_deadly",
    "rise_pct",
    "shaped",
    "starter_dough",
]

LONGEST_MIN = 21 * 24 * 60.0
"""No forecast looks further ahead than three weeks; a dough that needs longer counts as never getting there."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """How long a stage takes, minutes, with its range; `sooner_min` is what 1 C warmer would save.

    `outside` is "hot" or "cold" where the path leaves the temperatures the model is sure of, else None. All three times
    are inf where the rise is never reached.
    """

    minutes: float
    low_min: float
    high_min: float
    sooner_min: float
    end: State
    warmest_c: float
    coldest_c: float
    outside: str | None


def starter_dough(
    seed: float,
    flour: float,
    water: float,
    seed_hydration_pct: float = 100.0,
    *,
    pace: float = 1.0,
    wholegrain_share: float = 0.0,
    cold_seed: bool = False,
) -> Dough:
    """A starter build by its ratio (1:5:5 = seed 1, flour 5, water 5; any unit) as a dough without salt."""
    seed_flour = seed / (1 + seed_hydration_pct / 100)
    return Dough(
        hydration_pct=100 * (water + seed - seed_flour) / (flour + seed_flour),
        starter_pct=100 * seed / flour,
        starter_hydration_pct=seed_hydration_pct,
        pace=pace,
        wholegrain_share=wholegrain_share,
        cold_seed=cold_seed,
    )


def mixed(k: Kinetics, dough: Dough) -> State:
    """The state of a dough just mixed (or a starter just fed)."""
    wait_h = k.wait_cold_h if dough.cold_seed else k.wait_h
    return State(
        at_min=0.0,
        wait_h=wait_h if dough.starter_pct > 0 else 0.0,
        culture=dough.seed_share,
        acid=dough.seed_share,
        yeast_pct=dough.yeast_fresh_pct,
        yeast_wait_h=k.bakers_wait_h,
        gas=0.0,
    )


def shaped(k: Kinetics, state: State, kept: float = 0.0) -> State:
    """The state after dividing and shaping, at the start of a new path.

    The gas dissolved in the dough stays; of the gas that raised it `kept` (0 to 1) does. The rise of the proof counts
    from here.
    """
    return state._replace(at_min=0.0, gas=min(state.gas, k.dissolved) + kept * max(0.0, state.gas - k.dissolved))


def rise_pct(k: Kinetics, dough: Dough, state: State) -> float:
    """Volume gained since mixing (or shaping), percent of the volume then; never negative."""
    return 100 * max(0.0, state.gas / dough.pressure_ratio - k.dissolved)


def advance(
    k: Kinetics, dough: Dough, state: State, path: Path, minutes: float, speed: float = 1.0, with_acid: bool = True
) -> State:
    """The state after `minutes` more along `path`; `speed` scales every rate (for the range).

    Without `with_acid` the acid stays as it was: a plan asks only for the rise, a great many times.
    """
    speeds = speeds_of(k, dough, speed)
    left = minutes
    for piece in _pieces(path, state):
        step = min(left, piece.minutes)
        if step > 0:
            state = after(k, speeds, rates_in(k, dough, piece.part(step), with_acid), state, step)
        left -= step
        if left <= 0:
            break
    return state


def _pieces(path: Path, state: State) -> Iterator[Piece]:
    """The pieces of the path ahead, one ending where the culture's wait ends, so that no rate is averaged across it."""
    wait_min = 60 * state.wait_h
    if wait_min > 0:
        yield from path.pieces(state.at_min, state.at_min + wait_min)
    yield from path.pieces(state.at_min + wait_min)


def minutes_to(
    k: Kinetics, dough: Dough, path: Path, rise: float, state: State | None = None, speed: float = 1.0
) -> float:
    """Minutes until the dough has risen by `rise` percent from mixing (or shaping); inf if it never does.

    `state` is where it stands now (default: just mixed); the minutes count from there.
    """
    gas_needed = (rise / 100 + k.dissolved) * dough.pressure_ratio
    return _until(k, dough, path, state or mixed(k, dough), speed, gas_needed, math.inf)


def minutes_to_ripe(k: Kinetics, dough: Dough, path: Path, state: State | None = None, speed: float = 1.0) -> float:
    """Minutes until a starter is ripe (its yeast as dense as the ripe starter it came from); inf if it never is."""
    return _until(k, dough, path, state or mixed(k, dough), speed, math.inf, 1.0)


def _until(k: Kinetics, dough: Dough, path: Path, state: State, speed: float, gas: float, culture: float) -> float:
    """Minutes until the gas or the culture is reached, whichever was asked."""
    if state.gas >= gas or state.culture >= culture:
        return 0.0
    speeds = speeds_of(k, dough, speed)
    started = state.at_min
    for piece in _pieces(path, state):
        rates = rates_in(k, dough, piece, with_acid=False)
        left = LONGEST_MIN - (state.at_min - started)
        minutes = min(piece.minutes, left)
        then = after(k, speeds, rates, state, minutes)
        if then.gas >= gas or then.culture >= culture:
            inside = minutes_inside(k, speeds, rates, state, minutes, gas, culture)
            # Again with the rates of that part alone: the piece as a whole may be a little warmer or colder.
            for _ in range(4 if piece.early_c != piece.late_c else 0):
                rates = rates_in(k, dough, piece.part(inside), with_acid=False) if inside > 0 else rates
                before, inside = inside, minutes_inside(k, speeds, rates, state, minutes, gas, culture)
                if abs(inside - before) < 0.1:
                    break
            return state.at_min - started + inside
        if minutes >= left:
            return math.inf
        state = then
    return math.inf


def forecast(
    k: Kinetics, dough: Dough, path: Path, rise: float | None, state: State | None = None, timed: bool = False
) -> Forecast:
    """Minutes to a rise in percent (None: until a starter is ripe) with low, high and what one degree does.

    `timed` says the culture's pace was measured. Above `hot_c` a time is never longer than there, and the range widens
    where the path is hotter or colder than the model is sure of.
    """
    start = state or mixed(k, dough)

    def when(along: Path, speed: float) -> float:
        if rise is None:
            return minutes_to_ripe(k, dough, along, start, speed)
        return minutes_to(k, dough, along, rise, start, speed)

    minutes = when(path, 1.0)
    until = min(minutes, LONGEST_MIN)
    temps = [path.temp_c(start.at_min + until * share / 12) for share in range(13)]
    warmest_c, coldest_c, mean_c = max(temps), min(temps), sum(temps) / len(temps)
    outside = None
    if warmest_c > k.steady_high_c:
        outside = "hot"
    elif mean_c < k.steady_low_c:
        outside = "cold"
    spread = (k.spread_timed if timed else k.spread_untimed) if dough.starter_pct > 0 else k.spread_bakers
    if outside:
        spread *= k.spread_outside
    return Forecast(
        minutes=minutes,
        low_min=when(path, spread),
        high_min=when(path, 1 / spread),
        sooner_min=max(0.0, minutes - when(path.warmer(1.0), 1.0)) if math.isfinite(minutes) else 0.0,
        end=advance(k, dough, start, path, until),
        warmest_c=warmest_c,
        coldest_c=coldest_c,
        outside=outside,
    )


def refuse_if_deadly(k: Kinetics, *temps_c: float) -> None:
    """Refuse a temperature that kills the yeast or freezes the dough.

    Raises:
        Refused: above about 45 C or below 0 C.
    """
    for temp_c in temps_c:
        if temp_c > k.kills_c:
            raise Refused(
                f"{temp_c:g} °C is too hot: above about {k.kills_c:g} °C the yeast dies instead of raising the dough",
                f"ferment at 24 to 28 °C; {k.hot_c:g} °C is the warmest worth planning for",
            )
        if temp_c < k.freezes_c:
            raise Refused(
                f"at {temp_c:g} °C the dough freezes: nothing ferments, so there is no time to give",
                "a fridge at 3 to 5 °C for a cold rise, or freeze shaped dough and thaw it in the fridge overnight",
            )
