"""The clock of a plan: minutes from now, hours that are taken, and nights.

Inside a plan every time is a whole number of minutes from `now`. Local hours are naive at the border; where `now`
knows its zone, the minutes between two local hours are real minutes: the day the clocks change has 23 or 25 hours.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

NIGHT_FROM, NIGHT_TO = time(22, 0), time(6, 0)
"""Hands at work between these hours are counted against a plan even where nobody said they sleep."""

DAYS_AHEAD = 12
"""Daily windows are laid out for so many days at least."""
_MOST_DAYS = 800


@dataclass(frozen=True, slots=True)
class Busy:
    """Hours in which the baker cannot work: every day, or from `day` on that one day only.

    An end at or before the start lies on the next day. `why` is "asleep", "out" or the like, for the wording.
    """

    start: time
    end: time
    day: date | None = None
    why: str = "busy"


@dataclass(frozen=True, slots=True)
class Clock:
    """Turns local time into minutes from now and back. `now` is naive, or aware of its zone."""

    now: datetime

    def minutes(self, local: datetime) -> float:
        """Minutes from now to a naive local time (or an aware one); before now they are negative."""
        if self.now.tzinfo is None:
            return (local.replace(tzinfo=None) - self.now).total_seconds() / 60
        aware = local if local.tzinfo is not None else local.replace(tzinfo=self.now.tzinfo)
        return (aware.astimezone(UTC) - self.now.astimezone(UTC)).total_seconds() / 60

    def local(self, minutes: float) -> datetime:
        """The naive local time so many minutes from now."""
        if self.now.tzinfo is None:
            return self.now + timedelta(minutes=minutes)
        later = self.now.astimezone(UTC) + timedelta(minutes=minutes)
        return later.astimezone(self.now.tzinfo).replace(tzinfo=None)

    def minute_of_day(self, minutes: float) -> float:
        """Local minutes since midnight at a moment of the plan."""
        at = self.local(minutes)
        return at.hour * 60 + at.minute + at.second / 60

    def spans(self, busy: Iterable[Busy], until: float = 0.0) -> Spans:
        """The windows as stretches of minutes from now, yesterday's night included; daily ones to well past `until`."""
        ahead = min(_MOST_DAYS, max(DAYS_AHEAD, int(until // 1440) + 4))
        today = self.now.replace(tzinfo=None).date()
        found = []
        for window in busy:
            days = [today + timedelta(days=n) for n in range(-1, ahead)] if window.day is None else [window.day]
            for day in days:
                start = datetime.combine(day, window.start)
                end = datetime.combine(day, window.end)
                if end <= start:
                    end += timedelta(days=1)
                found.append((self.minutes(start), self.minutes(end)))
        return Spans.of(found)

    def nights(self, until: float = 0.0) -> Spans:
        """The hours from 22:00 to 06:00."""
        return self.spans((Busy(NIGHT_FROM, NIGHT_TO),), until)


@dataclass(frozen=True, slots=True)
class Spans:
    """Stretches of time in order, none touching another; open at both ends (work may begin the minute one ends)."""

    starts: tuple[float, ...]
    ends: tuple[float, ...]

    @classmethod
    def of(cls, spans: Iterable[tuple[float, float]]) -> Spans:
        """Sorted and melted together."""
        melted: list[list[float]] = []
        for start, end in sorted(spans):
            if melted and start <= melted[-1][1]:
                melted[-1][1] = max(melted[-1][1], end)
            else:
                melted.append([start, end])
        return cls(tuple(start for start, _ in melted), tuple(end for _, end in melted))

    def touches(self, start: float, end: float) -> bool:
        """True if any part of `start`..`end` lies inside a stretch."""
        index = bisect_right(self.ends, start)
        return index < len(self.starts) and self.starts[index] < end

    def free_before(self, moment: float, grid: int) -> float:
        """The moment itself where it is free, else the last one on the grid before the stretch it lies in."""
        index = bisect_right(self.ends, moment)
        if index < len(self.starts) and self.starts[index] < moment + 1:
            back = moment - self.starts[index]
            return moment - grid * (int(back // grid) + 1)
        return moment

    def overlap(self, start: float, end: float) -> float:
        """Minutes of `start`..`end` that lie inside the stretches."""
        total = 0.0
        index = bisect_right(self.ends, start)
        while index < len(self.starts) and self.starts[index] < end:
            total += min(end, self.ends[index]) - max(start, self.starts[index])
            index += 1
        return total
