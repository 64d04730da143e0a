"""Where on the clock one choice can lie: every limit kept, the best place first.

The blocks of a choice are rigid; what is free is when the front block starts, how long the dough stays cold, and when
it is ready inside the window asked for. Lengths are first taken by the hour, which is quick, and the place found is
then laid out to the minute; a place that does not hold to the minute is dropped for the next best.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from assistant.engine.plan.blocks import Block, out_min
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.course import Course, Where
from assistant.engine.plan.day import Day
from assistant.engine.plan.feeding import Feed
from assistant.engine.plan.laying import Laying
from assistant.engine.plan.limits import QUARTER_MIN, Limits, Place, Window, size_of
from assistant.engine.plan.steps import Move, Plan
from assistant.engine.rising import Dough, State

_WARM_DOUBT_MIN = 60
_WARMER_START_MIN = 180
"""So much sooner a dough may be done that starts at a warmer hour than the one first looked at."""
_TRIES = 8


class _ColdBlocks:
    """Front and back blocks of one way into the cold, each laid out once: by the hour where the nights are cooler."""

    def __init__(self, placing: Placing, course: Course, choice: Choice, where: Where, variant: int) -> None:
        self._placing, self._course, self._choice = placing, course, choice
        self._where: Where = where
        self._variant = variant
        self._fronts: dict[int, Block | None] = {}
        self._colds: dict[int, tuple[Iterator[tuple[State, float]], list[tuple[State, float]]]] = {}
        self._backs: dict[tuple[int, int], Block | None] = {}

    def front(self, at: int) -> Block | None:
        """The front block started at that minute."""
        key = self._placing.day.about(at)
        if key not in self._fronts:
            self._fronts[key] = self._placing.laying.front(self._course, self._choice, self._variant, at)
        return self._fronts[key]

    def back(self, front_at: int, hour: int, at: int) -> Block | None:
        """The back block begun about minute `at`, so many hours after the front one started at `front_at` ended."""
        front = self.front(front_at)
        low_h, high_h, _ = self._placing.limits.hours()
        if front is None or not low_h <= hour <= high_h:
            return None
        front_key = self._placing.day.about(front_at)
        if (front_key, hour) not in self._backs:
            out = self._after_cold(front, front_key, hour)
            back = None if out is None else self._course.back(at, self._where, front.proof_pct, *out)
            self._backs[front_key, hour] = back
        return self._backs[front_key, hour]

    def _after_cold(self, front: Block, front_key: int, hour: int) -> tuple[State, float] | None:
        """State and temperature of the dough after so many hours in the fridge; None where it is then past its mark.

        It is followed only as far as was asked, and no further than to its mark.
        """
        low_h, high_h, _ = self._placing.limits.hours()
        if front_key not in self._colds:
            moments = range(low_h * 60, high_h * 60 + 1, 60)
            self._colds[front_key] = self._course.in_cold(front, self._where, moments), []
        ahead, known = self._colds[front_key]
        while len(known) <= hour - low_h:
            if known and self._course.over(known[-1][0], self._where, front.proof_pct):
                return None
            known.append(next(ahead))
        return known[hour - low_h]


@dataclass(frozen=True)
class Placing:
    """Places choices of one wish on one day."""

    limits: Limits
    _courses: dict[tuple[Dough, float, float | None], Course] = field(default_factory=dict, repr=False, compare=False)

    def course(self, choice: Choice) -> Course:
        """How the dough of a choice runs; with and without the cold it is the same one."""
        key = choice.dough, choice.dough_c, choice.place_c
        if key not in self._courses:
            day = self.day if choice.place_c is None else self.day.in_a_place(choice.place_c)
            self._courses[key] = Course(day, choice.dough, choice.dough_c, self.limits.autolyse_min())
        return self._courses[key]

    @property
    def day(self) -> Day:
        """The day it is placed on."""
        return self.limits.day

    @property
    def laying(self) -> Laying:
        """What lays places out."""
        return Laying(self.limits)

    def place(self, choice: Choice, window: Window | None) -> Plan | None:
        """The best plan for a choice inside the window (None: as soon as it can be); None if there is none."""
        course = self.course(choice)
        places = self._whole(course, window) if choice.cold == "none" else self._cold(course, choice, window)
        found = sorted(places, key=lambda place: place[:5])[:_TRIES]  # a feed is not compared
        for place in found:
            plan = self.laying.laid(course, choice, place, window)
            if plan is not None:
                return plan
        return None

    def warm_min(self, choice: Choice) -> float:
        """Minutes out of the fridge before the oven, with the least time in it; inf where that brings no bread."""
        course = self.course(choice)
        if choice.cold == "none":
            whole = course.whole(self.limits.earliest)
            return math.inf if whole is None else whole.warm_min
        where: Where = "bulk" if choice.cold == "bulk" else "shaped"
        low_h, _, _ = self.limits.hours()
        front = self.laying.front(course, choice, low_h if choice.cold == "both" else 0, self.limits.earliest)
        if front is None:
            return math.inf
        cold_min = low_h * 60
        out_at = self.limits.earliest + front.minutes + cold_min
        back = course.back(out_at, where, front.proof_pct, *course.cold(front, where, cold_min))
        return math.inf if back is None else out_min(front) + back.warm_min - self.day.work_min("mix")

    def least_min(self, options: tuple[Choice, ...]) -> int:
        """Minutes from now before which no choice can be ready: the quickest of them, mixed at once."""
        quickest = max(options, key=_quickness)
        course = self.course(quickest)
        if quickest.cold == "none":
            block = course.whole(self.limits.earliest)
            return 0 if block is None else self.limits.earliest + block.minutes
        low_h, _, usual_h = self.limits.hours()
        front = course.front(self.limits.earliest, "bulk" if quickest.cold == "bulk" else "shaped", False, usual_h)
        return 0 if front is None else self.limits.earliest + front.minutes + low_h * 60

    def finishing(self, window: Window) -> Window:
        """The window without the ready times at which nobody could be there for oven and pot."""
        finish = self._finish()
        kept = tuple(
            ready
            for ready in window.readies
            if self.limits.can(finish, ready - finish.minutes)
        )
        return replace(window, readies=kept)

    def _finish(self) -> Block:
        """Cut, pot, oven and rack of this batch, the same for every choice."""
        return Course(self.day, self.day.batch.dough, self.day.batch.process.dough_c, 0).finish()

    def least_night_min(self, window: Window | None) -> float:
        """Minutes of hands in the night that pot, oven and rack cost at the best of the hours, whatever the dough."""
        if window is None or not window.readies:
            return 0.0
        finish = self._finish()
        return min(finish.night_min(ready - finish.minutes, self.limits.nights) for ready in window.readies)

    # The rough search.

    def _whole(self, course: Course, window: Window | None) -> list[Place]:
        places: list[Place] = []
        blocks: dict[int, Block | None] = {}

        def block_at(at: int) -> Block | None:
            key = self.day.about(at)
            if key not in blocks:
                blocks[key] = course.whole(at)
            return blocks[key]

        for at, feed, moves, ready in self._starts(block_at, window):
            block = block_at(at)
            if block is None or not self.limits.begun(at, feed) or not self.limits.can(block, at):
                continue
            if self.limits.too_warm(block.warm_min):
                continue
            night = block.night_min(at, self.limits.nights) + self.limits.feed_night(feed, at)
            last = float(ready) if window is None else self.limits.start_merit(at)
            off, stale = (0.0, 0.0) if window is None else (window.off(ready), window.stale(ready))
            over, many = self.limits.warm_over(block.warm_min), len(moves) + stale + self.limits.more_feeds(feed, at)
            key = (off, over, night, many, size_of(moves), last)
            if self.limits.wish.soonest:
                key = (off, over, float(ready), night, many, size_of(moves))
            places.append(Place(key, at, at, ready, 0, feed, moves))
            free = not (self.limits.begins_then or self.limits.wish.soonest)
            settled = night == 0 and many == 0 and free
            if settled or (window is not None and window.wished is not None):
                break
        return places

    def _starts(
        self, block_at: object, window: Window | None
    ) -> Iterator[tuple[int, Feed | None, tuple[Move, ...], int]]:
        """Starts of a bake in one block, with their feeds and the minute it is ready."""
        assert callable(block_at)
        if window is None:
            for at, feed, moves in self.limits.forward_mixes():
                block = block_at(at)
                if block is not None:
                    yield at, feed, moves, at + block.minutes
            return
        for ready in window.readies:
            at = ready
            for _ in range(4):
                block = block_at(at)
                if block is None:
                    return
                if at == ready - block.minutes:
                    break
                at = ready - block.minutes
            fed = self.limits.fed(at)
            if fed is not None:
                yield at, *fed, ready

    def _cold(self, course: Course, choice: Choice, window: Window | None) -> list[Place]:
        places: list[Place] = []
        where: Where = "bulk" if choice.cold == "bulk" else "shaped"
        for variant in self._variants(choice):
            places.extend(self._cold_variant(course, choice, where, variant, window))
            if window is not None and choice.cold != "both" and not places and self._no_time(course, where, window):
                break
        return places

    def _no_time(self, course: Course, where: Where, window: Window) -> bool:
        """True where even the dough that goes into the cold at once cannot be out of it in time."""
        low_h, _, usual_h = self.limits.hours()
        front = course.front(self.limits.earliest, where, False, usual_h)
        return front is None or self.limits.earliest + front.minutes + low_h * 60 > window.last

    def _variants(self, choice: Choice) -> tuple[int, ...]:
        """0: into the cold at once, 1: risen first; for a dough that goes cold twice: hours of the first time."""
        process = self.day.batch.process
        if choice.cold == "both":
            return tuple(range(int(process.retard_low_h), int(process.retard_high_h) + 1, 3))
        return (0, 1)

    def _cold_variant(
        self, course: Course, choice: Choice, where: Where, variant: int, window: Window | None
    ) -> Iterator[Place]:
        """Places of one way into the cold, each better than the one before."""
        low_h, high_h, usual_h = self.limits.hours()
        cold = _ColdBlocks(self, course, choice, where, variant)
        best: Place | None = None
        for front_start, feed, moves in self._front_starts(cold, window):
            front = cold.front(front_start)
            if front is None or not self.limits.begun(front_start, feed) or not self.limits.can(front, front_start):
                continue
            ended = front_start + front.minutes
            if self.limits.busy.touches(ended, ended + 1) or self.limits.too_warm(out_min(front)):
                continue
            for back_start, ready, back in self._backs(cold, front_start, ended, window):
                if best is not None and window is not None and window.off(ready) > best.key[0]:
                    break  # the ready times come nearest first
                cold_min = back_start - ended
                if not low_h * 60 <= cold_min <= high_h * 60 or not self.limits.can(back, back_start):
                    continue
                if not self.limits.chills(where, ended, back_start):
                    continue
                warm = out_min(front) + back.warm_min - self.day.work_min("mix")
                if self.limits.too_warm(warm):
                    continue
                night = self.limits.feed_night(feed, front_start) + front.night_min(front_start, self.limits.nights)
                night += back.night_min(back_start, self.limits.nights)
                far = abs(cold_min / 60 - usual_h) / max(usual_h, 1.0) * 0.2
                last = self.limits.start_merit(front_start) if window is not None else float(ready)
                off, stale = (0.0, 0.0) if window is None else (window.off(ready), window.stale(ready))
                many = len(moves) + stale + self.limits.more_feeds(feed, front_start)
                key = (off, self.limits.warm_over(warm), night, many, size_of(moves) + far, last)
                if best is None or key < best.key:
                    best = Place(key, front_start, back_start, ready, variant, feed, moves)
                    yield best
            if best is not None and best.key[:4] == (0.0, 0.0, 0.0, 0.0):
                return

    def _front_starts(
        self, cold: _ColdBlocks, window: Window | None
    ) -> Iterator[tuple[int, Feed | None, tuple[Move, ...]]]:
        """Starts of the front block on the quarter hours, those with a usual length of cold first."""
        if window is None:
            yield from self.limits.forward_mixes()
            return
        low_h, high_h, usual_h = self.limits.hours()
        some = cold.front(max(self.limits.earliest, window.last - 24 * 60))
        if some is None or self.limits.too_warm(out_min(some)):
            return
        doubt = 0 if self.day.steady else _WARMER_START_MIN
        if self.limits.earliest + some.minutes + low_h * 60 - doubt > window.last:
            return
        after = cold.back(max(self.limits.earliest, window.last - 24 * 60), round(usual_h), window.last)
        after_min = 120 if after is None else after.minutes
        if after is not None and self.limits.too_warm(out_min(some) + after.warm_min - _WARM_DOUBT_MIN):
            return
        least = some.minutes + low_h * 60 + (0 if after is None else after.minutes) - doubt
        most = some.minutes + high_h * 60 + 12 * 60
        first = max(self.limits.earliest, window.first - most)
        first += -int(self.day.clock.minute_of_day(first)) % QUARTER_MIN
        wished = window.last if window.wished is None else window.wished
        usual = wished - after_min - round(usual_h * 60) - some.minutes
        for at in sorted(range(first, window.last - least + 1, QUARTER_MIN), key=lambda at: abs(at - usual)):
            fed = None if self.limits.busy.touches(at, at + 1) else self.limits.fed(at)
            if fed is not None:
                yield at, *fed

    def _backs(
        self, cold: _ColdBlocks, front_start: int, ended: int, window: Window | None
    ) -> Iterator[tuple[int, int, Block]]:
        """Starts of the back block after the front one, and the minute it is then ready."""
        low_h, high_h, usual_h = self.limits.hours()
        if window is None:
            lengths = range(low_h * 60, high_h * 60 + 1, QUARTER_MIN)
            for minutes in sorted(lengths, key=lambda minutes: abs(minutes - usual_h * 60)):
                back = cold.back(front_start, round(minutes / 60), ended + minutes)
                if back is not None:
                    yield ended + minutes, ended + minutes + back.minutes, back
            return
        guess = cold.back(front_start, round(usual_h), ended + round(usual_h * 60))
        guess_min = 120 if guess is None else guess.minutes
        for ready in window.readies:
            minutes, settled = guess_min, None
            for _ in range(3):  # what is not risen in the cold is risen after it: the two lengths settle each other
                hour = round((ready - minutes - ended) / 60)
                back = cold.back(front_start, hour, ended + hour * 60)
                if back is None or back is settled:
                    break
                minutes, settled = back.minutes, back
            if settled is not None:
                yield ready - settled.minutes, ready, settled

def _quickness(choice: Choice) -> tuple[float, ...]:
    return float(choice.cold == "none"), choice.dough.yeast_fresh_pct, choice.leaven_pct, choice.dough_c
