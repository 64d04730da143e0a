"""The air a dough stands in over a bake: the kitchen's, and from the hour a change of it was told, the new one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from assistant.engine.plan.day import Day
from assistant.engine.temperature_path import Leg, Path


@dataclass(frozen=True, slots=True)
class Air:
    """The kitchen of `day` until the first change, then each told temperature from its minute on.

    changes: (minutes from the clock's now, °C), in order of time.
    """

    day: Day
    changes: tuple[tuple[float, float], ...] = ()

    @property
    def latest(self) -> Day:
        """The day as it goes on from the last change told."""
        return self._day(self.changes[-1][1]) if self.changes else self.day

    def air_c(self, at: float) -> float:
        """Air of the kitchen at a minute."""
        told = [temp_c for minute, temp_c in self.changes if minute <= at]
        return (self._day(told[-1]) if told else self.day).air_c(at)

    def path(self, at: float, dough_c: float | None, tau_h: float) -> Path:
        """The dough's temperature from minute `at` on; a dough of unknown warmth is as warm as the air."""
        told = [temp_c for minute, temp_c in self.changes if minute <= at]
        begun = (at, self._day(told[-1]) if told else self.day)
        days = [begun, *((minute, self._day(temp_c)) for minute, temp_c in self.changes if minute > at)]
        start_c = self.air_c(at) if dough_c is None else dough_c
        legs: list[Leg] = []
        for place, (begins, day) in enumerate(days):
            minutes = days[place + 1][0] - begins if place + 1 < len(days) else math.inf
            lag = 0.0 if dough_c is None and place == 0 else tau_h  # other air reaches it slowly
            legs += _cut(day.path(begins, start_c, lag).legs, minutes)
        return Path(start_c, tuple(legs))

    def _day(self, room_c: float) -> Day:
        kitchen = self.day.kitchen
        return replace(self.day, kitchen=replace(kitchen, room_c=room_c))


def _cut(legs: Sequence[Leg], minutes: float) -> list[Leg]:
    """The first minutes of some legs, the last of them drawn out where they end sooner."""
    out: list[Leg] = []
    left = minutes
    for place, leg in enumerate(legs):
        length = left if place + 1 == len(legs) else min(leg.minutes, left)
        out.append(Leg(length, leg.air_c, leg.air_end_c if length == leg.minutes else leg.air_c, leg.tau_h))
        left -= length
        if left <= 0:
            break
    return out
