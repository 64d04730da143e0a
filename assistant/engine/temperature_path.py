"""The temperature of a dough over time: a steady kitchen, a fridge, a proofing box, a walk, one after another.

A path is a dough temperature to begin with and legs one after another. In each leg the surroundings stay or drift
evenly, and the dough follows them with a lag of its own (`tau_h`, hours; 0 = follows at once). The dough's temperature
then has a closed form, so nothing is stepped to find it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

_STEP_C = 3.0  # a piece of the path spans at most about this much change of temperature
_FINE_STEP_C = 1.5  # and about this much where the rates bend sharply:
_BENDS_C = (
    (6.4, 12.0),
    (26.0, 30.0),
    (34.3, 38.3),
)  # where growth sets in, where a culture is hot, where it is very hot
_SHORTEST_MIN = 0.5  # nor is a piece shorter than this for the sake of accuracy
_SETTLED_C = 0.02  # nearer than this the dough is taken to be at its surroundings


@dataclass(frozen=True, slots=True)
class Leg:
    """One stretch of surroundings: `minutes` long (inf: for good), air from `air_c` to `air_end_c`, lag `tau_h`."""

    minutes: float
    air_c: float
    air_end_c: float
    tau_h: float = 0.0

    def __post_init__(self) -> None:
        if self.minutes <= 0 or self.tau_h < 0:
            raise ValueError("a leg takes time and its lag is not negative")
        if math.isinf(self.minutes) and self.air_c != self.air_end_c:
            raise ValueError("a leg without an end has steady air")

    def air_at(self, minutes: float) -> float:
        """Air temperature after so many minutes of the leg."""
        if self.air_c == self.air_end_c:
            return self.air_c
        return self.air_c + (self.air_end_c - self.air_c) * minutes / self.minutes

    def dough_at(self, minutes: float, start_c: float) -> float:
        """Dough temperature after so many minutes of the leg, begun at `start_c`."""
        if self.tau_h == 0:
            return self.air_at(minutes)
        lag_c = 0.0 if self.air_c == self.air_end_c else (self.air_end_c - self.air_c) * 60 * self.tau_h / self.minutes
        left = math.exp(-minutes / (60 * self.tau_h))
        return self.air_at(minutes) - lag_c + (start_c - self.air_c + lag_c) * left


class Piece(NamedTuple):
    """A stretch in which the temperature hardly moves, and the two temperatures its rates are taken at.

    A plan goes through tens of thousands of pieces, and a tuple is made in a third of the time.
    """

    minutes: float
    early_c: float
    late_c: float
    leg: Leg
    leg_start_c: float
    leg_min: float

    def part(self, minutes: float) -> Piece:
        """The first minutes of the piece, its rates taken inside that part."""
        if minutes >= self.minutes or math.isinf(self.minutes):
            return self
        return _piece(self.leg, self.leg_start_c, self.leg_min, minutes)


@dataclass(frozen=True, slots=True)
class Path:
    """Dough temperature over time. Past the last leg the last temperature of the air holds on."""

    dough_c: float
    legs: tuple[Leg, ...]

    def __post_init__(self) -> None:
        if not self.legs:
            raise ValueError("a path has at least one leg")

    def temp_c(self, at_min: float) -> float:
        """Dough temperature so many minutes after the path begins."""
        start_c = self.dough_c
        for leg in self.legs:
            if at_min <= leg.minutes:
                return leg.dough_at(at_min, start_c)
            start_c = leg.dough_at(leg.minutes, start_c)
            at_min -= leg.minutes
        return self._rest().dough_at(at_min, start_c)

    def air_c(self, at_min: float) -> float:
        """Temperature of the surroundings so many minutes after the path begins."""
        for leg in self.legs:
            if at_min <= leg.minutes:
                return leg.air_at(at_min)
            at_min -= leg.minutes
        return self._rest().air_c

    def then(self, minutes: float, air_c: float, tau_h: float | None = None) -> Path:
        """The path with one more stretch of steady air; the lag of the dough stays unless told."""
        lag = self.legs[-1].tau_h if tau_h is None else tau_h
        return replace(self, legs=(*self.legs, Leg(minutes, air_c, air_c, lag)))

    def warmer(self, by_c: float) -> Path:
        """The same path, dough and surroundings, warmer by so many degrees."""
        legs = tuple(replace(leg, air_c=leg.air_c + by_c, air_end_c=leg.air_end_c + by_c) for leg in self.legs)
        return Path(self.dough_c + by_c, legs)

    def pieces(self, from_min: float = 0.0, until_min: float = math.inf) -> Iterator[Piece]:
        """Pieces of nearly steady temperature between two points of the path; with no end the last one is infinite."""
        start_c, left_min = self.dough_c, until_min - from_min
        for leg in (*self.legs, self._rest()):
            if from_min < leg.minutes:
                stop_min = min(leg.minutes, from_min + left_min)
                yield from _pieces(leg, start_c, from_min, stop_min)
                left_min -= stop_min - from_min
                if left_min <= 0 or math.isinf(stop_min):
                    return
            start_c = leg.dough_at(leg.minutes, start_c)
            from_min = max(0.0, from_min - leg.minutes)

    def bends(self) -> tuple[float, ...]:
        """Minutes at which one leg ends and the next begins."""
        ends: list[float] = []
        at = 0.0
        for leg in self.legs[:-1]:
            at += leg.minutes
            ends.append(at)
        return tuple(ends)

    def _rest(self) -> Leg:
        last = self.legs[-1]
        return Leg(math.inf, last.air_end_c, last.air_end_c, last.tau_h)


# Two-point Gauss: exact for a rate that bends like a cubic inside the piece.
_EARLY, _LATE = (1 - 1 / math.sqrt(3)) / 2, (1 + 1 / math.sqrt(3)) / 2


def _pieces(leg: Leg, start_c: float, from_min: float, stop_min: float) -> Iterator[Piece]:
    at = from_min
    drift_per_min = 0.0 if math.isinf(leg.minutes) else (leg.air_end_c - leg.air_c) / leg.minutes
    tau_min = 60 * leg.tau_h
    while at < stop_min:
        here_c = leg.dough_at(at, start_c)
        # With the air drifting the dough settles to following it at a distance; `gap_c` is what is left to settle.
        gap_c = abs(here_c - leg.air_at(at) + drift_per_min * tau_min)
        step_c = _step_c(here_c)
        step = step_c / abs(drift_per_min) if drift_per_min else math.inf
        if gap_c >= _SETTLED_C and tau_min > 0:
            # Time for the gap to close by one step, or to a third once it is small.
            closing = tau_min * (math.log(gap_c / (gap_c - step_c)) if gap_c > 2 * step_c else 1.0)
            step = min(step, max(closing, _SHORTEST_MIN))
        minutes = min(step, stop_min - at)
        if math.isinf(minutes):
            yield Piece(minutes, leg.air_at(at), leg.air_at(at), leg, start_c, at)
            return
        yield _piece(leg, start_c, at, minutes)
        at += minutes


def _step_c(here_c: float) -> float:
    for low, high in _BENDS_C:
        if low < here_c < high:
            return _FINE_STEP_C
    return _STEP_C


def _piece(leg: Leg, start_c: float, at: float, minutes: float) -> Piece:
    early_c = leg.dough_at(at + _EARLY * minutes, start_c)
    late_c = leg.dough_at(at + _LATE * minutes, start_c)
    return Piece(minutes, early_c, late_c, leg, start_c, at)


def steady(temp_c: float) -> Path:
    """A dough held at one temperature."""
    return Path(temp_c, (Leg(math.inf, temp_c, temp_c),))


def relaxing(dough_c: float, air_c: float, tau_h: float) -> Path:
    """A dough at `dough_c` put into steady air; `tau_h` from `heat.cooling_tau_h`."""
    return Path(dough_c, (Leg(math.inf, air_c, air_c, tau_h),))


def drifting(dough_c: float, air_c: float, air_end_c: float, minutes: float, tau_h: float) -> Path:
    """A dough in air that goes evenly from one temperature to another and stays there."""
    return Path(dough_c, (Leg(minutes, air_c, air_end_c, tau_h), Leg(math.inf, air_end_c, air_end_c, tau_h)))
