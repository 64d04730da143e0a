"""What lies before and after the cold of one choice, for every start and every length of cold looked at."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.engine.plan.blocks import Block
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.course import Course, Where
from assistant.engine.plan.laying import Laying
from assistant.engine.plan.limits import Limits
from assistant.engine.rising import State

_HALF_HOUR_MIN = 30


class ColdBlocks:
    """Front and back blocks of one way into the cold, each laid out once: by the hour where the nights are cooler."""

    def __init__(self, limits: Limits, course: Course, choice: Choice, where: Where, variant: int) -> None:
        self._limits, self._course, self._choice = limits, course, choice
        self._where: Where = where
        self._variant = variant
        self._fronts: dict[int, Block | None] = {}
        self._colds: dict[int, tuple[Iterator[tuple[State, float]], list[tuple[State, float]]]] = {}
        self._backs: dict[tuple[int, int], Block | None] = {}
        self._settled: dict[tuple[int, int], list[Block]] = {}

    def front(self, at: int) -> Block | None:
        """The front block started at that minute."""
        key = self._limits.day.about(at)
        if key not in self._fronts:
            self._fronts[key] = Laying(self._limits).front(self._course, self._choice, self._variant, at)
        return self._fronts[key]

    def back(self, front_at: int, hour: int, at: int) -> Block | None:
        """The back block begun about minute `at`, so many hours after the front one started at `front_at` ended."""
        front = self.front(front_at)
        low_h, high_h, _ = self._limits.hours()
        if front is None or not low_h <= hour <= high_h:
            return None
        front_key = self._limits.day.about(front_at)
        if (front_key, hour) not in self._backs:
            out = self._after_cold(front, front_key, hour)
            back = None if out is None else self._course.back(at, self._where, front.proof_pct, *out)
            self._backs[front_key, hour] = back
        return self._backs[front_key, hour]

    def settled(self, front_at: int, span_min: int) -> list[Block]:
        """The back blocks that the cold before them and their own length bring to `span_min` after the front one's end.

        What is not risen in the cold is risen after it: the two lengths settle each other.
        """
        key = self._limits.day.about(front_at), span_min
        if key not in self._settled:
            self._settled[key] = list(self._settling(front_at, span_min))
        return self._settled[key]

    def _settling(self, front_at: int, span_min: int) -> Iterator[Block]:
        """The longer the cold the later the end, though not by as much: the hours are halved between too short and too
        long. Where the dough needs no more warmth after one hour more, two lengths will do."""
        front = self.front(front_at)
        if front is None:
            return
        ended = front_at + front.minutes
        low_h, high_h, _ = self._limits.hours()
        least_h, most_h = low_h, high_h
        while low_h < high_h:
            hour = (low_h + high_h + 1) // 2
            back = self.back(front_at, hour, ended + hour * 60)
            if back is None or hour * 60 - _HALF_HOUR_MIN + back.minutes > span_min:
                high_h = hour - 1
            else:
                low_h = hour
        for hour in (low_h, low_h + 1, low_h - 1):
            back = self.back(front_at, hour, ended + hour * 60) if least_h <= hour <= most_h else None
            if back is not None and abs(span_min - back.minutes - hour * 60) <= _HALF_HOUR_MIN:
                yield back

    def _after_cold(self, front: Block, front_key: int, hour: int) -> tuple[State, float] | None:
        """State and temperature of the dough after so many hours in the fridge; None where it is then past its mark.

        It is followed only as far as was asked, and no further than to its mark.
        """
        low_h, high_h, _ = self._limits.hours()
        if front_key not in self._colds:
            moments = range(low_h * 60, high_h * 60 + 1, 60)
            self._colds[front_key] = self._course.in_cold(front, self._where, moments), []
        ahead, known = self._colds[front_key]
        while len(known) <= hour - low_h:
            if known and self._course.over(known[-1][0], self._where, front.proof_pct):
                return None
            known.append(next(ahead))
        return known[hour - low_h]
