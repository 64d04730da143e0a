"""What lies before and after the cold of one choice, for every start and every length of cold looked at."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.engine.plan.asked import Cold
from assistant.engine.plan.blocks import Block, joined
from assistant.engine.plan.course import Course, Where
from assistant.engine.rising import State

Hours = tuple[int, int, float]
"""Hours in the cold: least, most, usual."""
_HALF_HOUR_MIN = 30


def where_cold(cold: Cold) -> Where:
    """What the (last) cold finds: the bulk, or shaped pieces."""
    return "bulk" if cold == "bulk" else "shaped"


def into_cold(course: Course, cold: Cold, variant: int, at: int, usual_h: float) -> Block | None:
    """The block up to the (last) cold. variant: 1 risen first, 0 at once; for "both" the hours of the first cold."""
    if cold != "both":
        return course.front(at, where_cold(cold), variant == 1, usual_h)
    first = course.front(at, "bulk", True, variant)
    if first is None:
        return None
    minutes = variant * 60
    state, temp_c = course.cold(first, "bulk", minutes)
    second = course.middle(at + first.minutes + minutes, state, temp_c, False, usual_h)
    return None if second is None else joined(first, minutes, second, course.day.kitchen.fridge_c)


class ColdBlocks:
    """One way into the cold: each front block laid out once, by the hour where the nights are cooler."""

    def __init__(self, course: Course, cold: Cold, variant: int, hours: Hours) -> None:
        self._course, self._cold, self._variant, self._hours = course, cold, variant, hours
        self._known: dict[int, Cooled | None] = {}

    def at(self, front_at: int) -> Cooled | None:
        """What a start at that minute leads to; None where the dough never rises."""
        key = self._course.day.about(front_at)
        if key not in self._known:
            front = into_cold(self._course, self._cold, self._variant, front_at, self._hours[2])
            where = where_cold(self._cold)
            self._known[key] = None if front is None else Cooled(self._course, where, front, front_at, self._hours)
        return self._known[key]


class Cooled:
    """A front block, and the back block after every hour in the cold."""

    def __init__(self, course: Course, where: Where, front: Block, front_at: int, hours: Hours) -> None:
        self.front = front
        self._course, self._where = course, where
        self._low_h, self._high_h, _ = hours
        self._ended = front_at + front.minutes
        moments = range(self._low_h * 60, self._high_h * 60 + 1, 60)
        self._ahead = course.in_cold(front, where, moments)
        self._states: list[tuple[State, float]] = []
        self._backs: dict[int, Block | None] = {}
        self._settled: dict[int, list[Block]] = {}

    def back(self, hour: int) -> Block | None:
        """The back block after so many hours; None where they are too few or too many, or the dough never rises."""
        if hour not in self._backs:
            out = self._after_cold(hour) if self._low_h <= hour <= self._high_h else None
            begins = self._ended + hour * 60
            back = None if out is None else self._course.back(begins, self._where, self.front.proof_pct, *out)
            self._backs[hour] = back
        return self._backs[hour]

    def settled(self, span_min: int) -> list[Block]:
        """The back blocks that the cold before them and their own length bring to `span_min` after the front one's end.

        What is not risen in the cold is risen after it: the two lengths settle each other.
        """
        if span_min not in self._settled:
            self._settled[span_min] = list(self._settling(span_min))
        return self._settled[span_min]

    def _settling(self, span_min: int) -> Iterator[Block]:
        """The longer the cold the later the end, though not by as much: the hours are halved between too short and too
        long. Where the dough needs no more warmth after one hour more, two lengths will do."""
        low_h, high_h = self._low_h, self._high_h
        while low_h < high_h:
            hour = (low_h + high_h + 1) // 2
            back = self.back(hour)
            if back is None or hour * 60 - _HALF_HOUR_MIN + back.minutes > span_min:
                high_h = hour - 1
            else:
                low_h = hour
        for hour in (low_h, low_h + 1, low_h - 1):
            back = self.back(hour)
            if back is not None and abs(span_min - back.minutes - hour * 60) <= _HALF_HOUR_MIN:
                yield back

    def _after_cold(self, hour: int) -> tuple[State, float] | None:
        """State and temperature of the dough after so many hours in the fridge; None where it is then past its mark.

        It is followed only as far as was asked, and no further than to its mark.
        """
        known = self._states
        while len(known) <= hour - self._low_h:
            if known and self._course.over(known[-1][0], self._where, self.front.proof_pct):
                return None
            known.append(next(self._ahead))
        return known[hour - self._low_h]
