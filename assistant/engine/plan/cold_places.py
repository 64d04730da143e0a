"""Where a bake that goes cold can lie: when its front block starts, how long the cold lasts, when it is ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from assistant.engine.plan.blocks import Block, out_min
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.cold_blocks import ColdBlocks, Cooled, where_cold
from assistant.engine.plan.course import Where
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.feeding import Feed
from assistant.engine.plan.limits import ANY_MERIT, QUARTER_MIN, Limits, Merit, Place, Window, size_of
from assistant.engine.plan.steps import Move

_WARM_DOUBT_MIN = 60
_WARMER_START_MIN = 180
"""So much sooner a dough may be done that starts at a warmer hour than the one first looked at."""


@dataclass(frozen=True, slots=True)
class ColdPlaces:
    """Places of one choice that goes cold, on its course."""

    limits: Limits
    courses: Courses
    choice: Choice
    most: Merit = ANY_MERIT

    def inside(self, window: Window | None) -> list[Place]:
        """Places inside the window; None: as soon as it can be."""
        places: list[Place] = []
        where = where_cold(self.choice.cold)
        for variant in self._variants():
            places.extend(self._one_way(where, variant, window))
            if window is not None and self.choice.cold != "both" and not places and self._no_time(where, window):
                break
        return places

    def _no_time(self, where: Where, window: Window) -> bool:
        """True where even the dough that goes into the cold at once cannot be out of it in time."""
        low_h, _, usual_h = self.limits.hours()
        front = self.courses.course(self.choice).front(self.limits.earliest, where, False, usual_h)
        return front is None or self.limits.earliest + front.minutes + low_h * 60 > window.last

    def _variants(self) -> tuple[int, ...]:
        """0: into the cold at once, 1: risen first; for a dough that goes cold twice: hours of the first time."""
        process = self.limits.day.batch.process
        if self.choice.cold == "both":
            return tuple(range(int(process.retard_low_h), int(process.retard_high_h) + 1, 3))
        return (0, 1)

    def _one_way(self, where: Where, variant: int, window: Window | None) -> Iterator[Place]:
        """Places of one way into the cold, each better than the one before."""
        limits = self.limits
        low_h, high_h, usual_h = limits.hours()
        cold = self.courses.cold(self.choice, variant, limits.hours())
        best: Place | None = None
        most = self.most
        for front_start, feed, moves in self._front_starts(cold, window):
            cooled = cold.at(front_start)
            if cooled is None:
                continue
            front = cooled.front
            night = limits.feed_night(feed, front_start) + front.night_min(front_start, limits.nights)
            many = len(moves) + limits.more_feeds(feed, front_start)
            if (0.0, night, many) > most or not limits.begun(front_start, feed) or not limits.can(front, front_start):
                continue
            ended = front_start + front.minutes
            if limits.busy.touches(ended, ended + 1) or limits.too_warm(out_min(front)):
                continue
            for back_start, ready, back in self._backs(cooled, ended, window):
                off, stale = (0.0, 0.0) if window is None else (window.off(ready), window.stale(ready))
                if best is not None and window is not None and off > best.key[0]:
                    break  # the ready times come nearest first
                warm = out_min(front) + back.warm_min - limits.day.work_min("mix")
                cost = limits.warm_over(warm), night + back.night_min(back_start, limits.nights), many + stale
                if cost > most or limits.too_warm(warm):
                    continue
                cold_min = back_start - ended
                if not low_h * 60 <= cold_min <= high_h * 60 or not limits.can(back, back_start):
                    continue
                if not limits.chills(where, ended, back_start):
                    continue
                far = abs(cold_min / 60 - usual_h) / max(usual_h, 1.0) * 0.2
                last = limits.start_merit(front_start) if window is not None else float(ready)
                key = (off, *cost, size_of(moves) + far, last)
                if best is None or key < best.key:
                    best = Place(key, front_start, back_start, ready, variant, feed, moves)
                    yield best
            if best is not None and best.key[:4] == (0.0, 0.0, 0.0, 0.0):
                return

    def _front_starts(
        self, cold: ColdBlocks, window: Window | None
    ) -> Iterator[tuple[int, Feed | None, tuple[Move, ...]]]:
        """Starts of the front block on the quarter hours, those with a usual length of cold first."""
        if window is None:
            yield from self.limits.forward_mixes()
            return
        low_h, high_h, usual_h = self.limits.hours()
        first_look = cold.at(max(self.limits.earliest, window.last - 24 * 60))
        if first_look is None or self.limits.too_warm(out_min(first_look.front)):
            return
        some = first_look.front
        doubt = 0 if self.limits.day.steady else _WARMER_START_MIN
        if self.limits.earliest + some.minutes + low_h * 60 - doubt > window.last:
            return
        usual_after = first_look.back(round(usual_h))
        after_min = 120 if usual_after is None else usual_after.minutes
        if usual_after is not None and self.limits.too_warm(out_min(some) + usual_after.warm_min - _WARM_DOUBT_MIN):
            return
        after = first_look.back(low_h)
        least = some.minutes + low_h * 60 + (0 if after is None else after.minutes) - doubt
        most = some.minutes + high_h * 60 + 12 * 60
        first = max(self.limits.earliest, window.first - most)
        first += -int(self.limits.day.clock.minute_of_day(first)) % QUARTER_MIN
        wished = window.last if window.wished is None else window.wished
        usual = wished - after_min - round(usual_h * 60) - some.minutes
        for at in sorted(range(first, window.last - least + 1, QUARTER_MIN), key=lambda at: abs(at - usual)):
            fed = None if self.limits.busy.touches(at, at + 1) else self.limits.fed(at)
            if fed is not None:
                yield at, *fed

    def _backs(self, cooled: Cooled, ended: int, window: Window | None) -> Iterator[tuple[int, int, Block]]:
        """Starts of the back block after the front one's end, and the minute it is then ready."""
        low_h, high_h, usual_h = self.limits.hours()
        if window is None:
            lengths = range(low_h * 60, high_h * 60 + 1, QUARTER_MIN)
            for minutes in sorted(lengths, key=lambda minutes: abs(minutes - usual_h * 60)):
                back = cooled.back(round(minutes / 60))
                if back is not None:
                    yield ended + minutes, ended + minutes + back.minutes, back
            return
        for ready in window.readies:
            for back in cooled.settled(ready - ended):
                yield ready - back.minutes, ready, back
