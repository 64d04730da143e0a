"""Where on the clock one choice can lie: every limit kept, the best place first.

The blocks of a choice are rigid; what is free is when the front block starts, how long the dough stays cold, and when
it is ready inside the window asked for. Lengths are first taken by the hour, which is quick, and the place found is
then laid out to the minute; a place that does not hold to the minute is dropped for the next best.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from assistant.engine.plan.asked import EARLIEST_MIN, Wish
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.course import HEATS, Block, Course, Where
from assistant.engine.plan.day import GRID_MIN, Day
from assistant.engine.plan.feeding import USUAL_RATIO, Feed, Feeding
from assistant.engine.plan.steps import Move, Plan, Task
from assistant.engine.rising import State

WARM_AIM_MIN, WARM_MOST_MIN = 240, 360
"""Egg and milk doughs: out of the fridge for at most 4 h where any lever can, never above 6 (fermentation sheet)."""

RIPE_KEEPS_MIN = 90
"""A starter said to be ripe is used within this."""

_QUARTER = 15
_WARM_DOUBT_MIN = 60
_COARSE_MIN = 120
"""Where the nights are cooler, blocks are first laid out for every other hour only."""
_FOLDS_WITHIN = 0.6
"""Folding later than this share of the bulk knocks out the gas it is meant to hold."""
_TRIES = 8
_FEED_MIN = 5.0
_ORDER = {step: n for n, step in enumerate(("feed_starter", "autolyse", "mix", "knead", "bulk", "fold"))}


class Place(NamedTuple):
    """A rough place: sort key, front start, back start, cold minutes, ready, front variant, feed, moves by the feed."""

    key: tuple[float, ...]
    front_at: int
    back_at: int
    ready: int
    variant: int
    feed: Feed | None
    moves: tuple[Move, ...]


@dataclass(frozen=True)
class Window:
    """Ready times that will do, the best first, and their bounds; with `wished`, nearness to it comes first."""

    readies: tuple[int, ...]
    last: int
    first: int
    wished: int | None = None

    @classmethod
    def by(cls, deadline: int) -> Window:
        """At the hour or at most 45 min before."""
        return cls(tuple(range(deadline, deadline - EARLIEST_MIN - 1, -GRID_MIN)), deadline, deadline - EARLIEST_MIN)

    @classmethod
    def rested(cls, deadline: int, day_min: int = 24 * 60) -> Window:
        """For bread that rests: it may be done resting up to a day before, and then rests on."""
        readies = [*range(deadline, deadline - EARLIEST_MIN, -GRID_MIN), *range(deadline - 45, deadline - day_min, -15)]
        return cls(tuple(ready for ready in readies if ready > 0), deadline, max(1, deadline - day_min))

    def off(self, ready: int) -> float:
        """Minutes from the hour wished, where that is what counts; else 0."""
        return 0.0 if self.wished is None else float(abs(ready - self.wished))


class _ColdBlocks:
    """Front and back blocks of one way into the cold, each laid out once: by the hour where the nights are cooler."""

    def __init__(self, placing: Placing, course: Course, choice: Choice, where: Where, variant: int) -> None:
        self._placing, self._course, self._choice = placing, course, choice
        self._where: Where = where
        self._variant = variant
        self._steady = placing.day.steady
        self._fronts: dict[int, Block | None] = {}
        self._colds: dict[tuple[int, int], tuple[State, float]] = {}
        self._backs: dict[tuple[int, int, int], Block | None] = {}

    def front(self, at: int) -> Block | None:
        """The front block started at that minute."""
        key = 0 if self._steady else at // _COARSE_MIN
        if key not in self._fronts:
            self._fronts[key] = self._placing.front(self._course, self._choice, self._variant, at)
        return self._fronts[key]

    def back(self, front_at: int, hour: int, at: int) -> Block | None:
        """The back block begun about minute `at`, so many hours after the front one started at `front_at` ended."""
        front = self.front(front_at)
        low_h, high_h, _ = self._placing.hours()
        if front is None or not low_h <= hour <= high_h:
            return None
        front_key, key = (0, 0) if self._steady else (front_at // _COARSE_MIN, at // _COARSE_MIN)
        if (front_key, hour, key) not in self._backs:
            if (front_key, hour) not in self._colds:
                self._colds[front_key, hour] = self._course.cold(front, self._where, hour * 60)
            state, temp_c = self._colds[front_key, hour]
            self._backs[front_key, hour, key] = self._course.back(at, self._where, front.proof_pct, state, temp_c)
        return self._backs[front_key, hour, key]


@dataclass(frozen=True)
class Placing:
    """Places choices of one wish on one day."""

    day: Day
    wish: Wish
    busy: Spans
    nights: Spans
    feeding: Feeding
    earliest: int
    _feeds: dict[int, tuple[Feed | None, tuple[Move, ...]] | None] = field(default_factory=dict)

    def place(self, choice: Choice, window: Window | None) -> Plan | None:
        """The best plan for a choice inside the window (None: as soon as it can be); None if there is none."""
        course = Course(self.day, choice.dough, choice.dough_c, self._autolyse_min())
        places = self._whole(course, window) if choice.cold == "none" else self._cold(course, choice, window)
        found = sorted(places)[:_TRIES]
        for place in found:
            plan = self._laid(course, choice, place, window)
            if plan is not None:
                return plan
        return None

    def warm_min(self, choice: Choice) -> float:
        """Minutes out of the fridge before the oven, with the least time in it; inf where that brings no bread."""
        course = Course(self.day, choice.dough, choice.dough_c, self._autolyse_min())
        if choice.cold == "none":
            whole = course.whole(self.earliest)
            return math.inf if whole is None else whole.warm_min
        where: Where = "bulk" if choice.cold == "bulk" else "shaped"
        low_h, _, _ = self.hours()
        front = self.front(course, choice, low_h if choice.cold == "both" else 0, self.earliest)
        if front is None:
            return math.inf
        cold_min = low_h * 60
        out_at = self.earliest + front.minutes + cold_min
        back = course.back(out_at, where, front.proof_pct, *course.cold(front, where, cold_min))
        return math.inf if back is None else _out_min(front) + back.warm_min - self.day.work_min("mix")

    def least_min(self, options: tuple[Choice, ...]) -> int:
        """Minutes from now before which no choice can be ready: the quickest of them, mixed at once."""
        quickest = max(options, key=_quickness)
        course = Course(self.day, quickest.dough, quickest.dough_c, self._autolyse_min())
        if quickest.cold == "none":
            block = course.whole(self.earliest)
            return 0 if block is None else self.earliest + block.minutes
        low_h, _, usual_h = self.hours()
        front = course.front(self.earliest, "bulk" if quickest.cold == "bulk" else "shaped", False, usual_h)
        return 0 if front is None else self.earliest + front.minutes + low_h * 60

    def finishing(self, window: Window) -> Window:
        """The window without the ready times at which nobody could be there for oven and pot."""
        dough = self.day.batch.dough
        finish = Course(self.day, dough, self.day.batch.process.dough_c, 0).finish()
        kept = tuple(
            ready
            for ready in window.readies
            if ready - finish.minutes + finish.earliest >= 0 and finish.free(ready - finish.minutes, self.busy)
        )
        return replace(window, readies=kept)

    # The rough search.

    def _whole(self, course: Course, window: Window | None) -> list[Place]:
        places: list[Place] = []
        blocks: dict[int, Block | None] = {}

        def block_at(at: int) -> Block | None:
            key = 0 if self.day.steady else at // _COARSE_MIN
            if key not in blocks:
                blocks[key] = course.whole(at)
            return blocks[key]

        for at, feed, moves, ready in self._starts(block_at, window):
            block = block_at(at)
            if block is None or not self._can(block, at) or self._too_warm(block.warm_min):
                continue
            night = block.night_min(at, self.nights) + self._feed_night(feed)
            last = float(ready) if window is None else float(-at)
            off = 0.0 if window is None else window.off(ready)
            key = (off, self._warm_over(block.warm_min), night, float(len(moves)), _size(moves), last)
            places.append(Place(key, at, at, ready, 0, feed, moves))
            if (night == 0 and not moves) or (window is not None and window.wished is not None):
                break
        return places

    def _starts(
        self, block_at: object, window: Window | None
    ) -> Iterator[tuple[int, Feed | None, tuple[Move, ...], int]]:
        """Starts of a bake in one block, with their feeds and the minute it is ready."""
        assert callable(block_at)
        if window is None:
            for at, feed, moves in self._forward_mixes():
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
            fed = self._fed(at)
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
        low_h, _, usual_h = self.hours()
        front = course.front(self.earliest, where, False, usual_h)
        return front is None or self.earliest + front.minutes + low_h * 60 > window.last

    def _variants(self, choice: Choice) -> tuple[int, ...]:
        """0: into the cold at once, 1: risen first; for a dough that goes cold twice: hours of the first time."""
        process = self.day.batch.process
        if choice.cold == "both":
            return tuple(range(int(process.retard_low_h), int(process.retard_high_h) + 1, 3))
        return (0, 1)

    def hours(self) -> tuple[int, int, float]:
        """Hours in the cold: least, most, usual; about the said length where one was said."""
        process = self.day.batch.process
        if self.wish.cold_h is not None:
            return max(1, int(self.wish.cold_h - 0.75)), int(self.wish.cold_h + 1.25), self.wish.cold_h
        return int(process.retard_low_h), int(process.retard_high_h), process.retard_usual_h

    def front(self, course: Course, choice: Choice, variant: int, at: int) -> Block | None:
        """The block up to the (last) cold."""
        _, _, usual_h = self.hours()
        if choice.cold != "both":
            where: Where = "bulk" if choice.cold == "bulk" else "shaped"
            return course.front(at, where, variant == 1, usual_h)
        first = course.front(at, "bulk", True, variant)
        if first is None:
            return None
        minutes = variant * 60
        state, temp_c = course.cold(first, "bulk", minutes)
        second = course.middle(at + first.minutes + minutes, state, temp_c, False, usual_h)
        if second is None:
            return None
        return _joined(first, minutes, second, self.day.kitchen.fridge_c)

    def _cold_variant(
        self, course: Course, choice: Choice, where: Where, variant: int, window: Window | None
    ) -> Iterator[Place]:
        """Places of one way into the cold, each better than the one before."""
        low_h, high_h, usual_h = self.hours()
        cold = _ColdBlocks(self, course, choice, where, variant)
        best: Place | None = None
        for front_start, feed, moves in self._front_starts(cold, window):
            front = cold.front(front_start)
            if front is None or not self._can(front, front_start):
                continue
            ended = front_start + front.minutes
            if self.busy.touches(ended, ended + 1):
                continue
            for back_start, ready, back in self._backs(cold, front_start, ended, window):
                if best is not None and window is not None and window.off(ready) > best.key[0]:
                    break  # the ready times come nearest first
                cold_min = back_start - ended
                if not low_h * 60 <= cold_min <= high_h * 60 or not self._can(back, back_start):
                    continue
                warm = _out_min(front) + back.warm_min - self.day.work_min("mix")
                if self._too_warm(warm):
                    continue
                night = self._feed_night(feed) + front.night_min(front_start, self.nights)
                night += back.night_min(back_start, self.nights)
                far = abs(cold_min / 60 - usual_h) / max(usual_h, 1.0) * 0.2
                last = float(-front_start) if window is not None else float(ready)
                off = 0.0 if window is None else window.off(ready)
                key = (off, self._warm_over(warm), night, float(len(moves)), _size(moves) + far, last)
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
            yield from self._forward_mixes()
            return
        low_h, high_h, usual_h = self.hours()
        some = cold.front(max(self.earliest, window.last - 24 * 60))
        if some is None or self._too_warm(_out_min(some)) or self.earliest + some.minutes + low_h * 60 > window.last:
            return
        after = cold.back(max(self.earliest, window.last - 24 * 60), round(usual_h), window.last)
        after_min = 120 if after is None else after.minutes
        if after is not None and self._too_warm(_out_min(some) + after.warm_min - _WARM_DOUBT_MIN):
            return
        least = some.minutes + low_h * 60 + (0 if after is None else after.minutes)
        most = some.minutes + high_h * 60 + 12 * 60
        first = max(self.earliest, window.first - most)
        first += -int(self.day.clock.minute_of_day(first)) % _QUARTER
        wished = window.last if window.wished is None else window.wished
        usual = wished - after_min - round(usual_h * 60) - some.minutes
        for at in sorted(range(first, window.last - least + 1, _QUARTER), key=lambda at: abs(at - usual)):
            fed = self._fed(at)
            if fed is not None:
                yield at, *fed

    def _backs(
        self, cold: _ColdBlocks, front_start: int, ended: int, window: Window | None
    ) -> Iterator[tuple[int, int, Block]]:
        """Starts of the back block after the front one, and the minute it is then ready."""
        low_h, high_h, usual_h = self.hours()
        if window is None:
            lengths = range(low_h * 60, high_h * 60 + 1, _QUARTER)
            for minutes in sorted(lengths, key=lambda minutes: abs(minutes - usual_h * 60)):
                back = cold.back(front_start, round(minutes / 60), ended + minutes)
                if back is not None:
                    yield ended + minutes, ended + minutes + back.minutes, back
            return
        guess = cold.back(front_start, round(usual_h), ended + round(usual_h * 60))
        guess_min = 120 if guess is None else guess.minutes
        for ready in window.readies:
            hour = round((ready - guess_min - ended) / 60)
            if not low_h <= hour <= high_h:
                continue
            back = cold.back(front_start, hour, ended + hour * 60)
            if back is not None:
                yield ready - back.minutes, ready, back

    def _forward_mixes(self) -> Iterator[tuple[int, Feed | None, tuple[Move, ...]]]:
        """Minutes at which the dough may be mixed when it is to be ready as soon as it can, soonest first."""
        exact = self.wish.start_exact
        horizon = self.earliest + (GRID_MIN if exact else 20 * 60)
        if self._needs_feed() and not (exact and self.wish.starter == "either"):
            for feed in self.feeding.soonest(self.earliest):
                moves = _feed_moves(feed)
                for hold in range(0, 61, _QUARTER):
                    yield feed.ripe + hold, feed, moves
            if exact:
                return
        for at in range(self.earliest, horizon, _QUARTER):
            fed = self._fed(at)
            if fed is not None:
                yield at, *fed

    # Limits.

    def _autolyse_min(self) -> int:
        asked = self.wish.autolyse_min
        return int(self.day.batch.process.autolyse_min if asked is None else asked)

    def _can(self, block: Block, at: int) -> bool:
        return at + min(0, block.earliest) >= 0 and at >= self.earliest and block.free(at, self.busy)

    def _feed_night(self, feed: Feed | None) -> float:
        """Minutes of hands a feed costs in the night."""
        return _FEED_MIN if feed is not None and self.nights.touches(feed.at, feed.at + 1) else 0.0

    def _warm_over(self, warm_min: float) -> float:
        return max(0.0, warm_min - WARM_AIM_MIN) if self.day.batch.perishable else 0.0

    def _too_warm(self, warm_min: float) -> bool:
        return self.day.batch.perishable and warm_min > WARM_MOST_MIN

    def _needs_feed(self) -> bool:
        return self.day.batch.sourdough and self.wish.starter != "ripe"

    def _fed(self, mix: int) -> tuple[Feed | None, tuple[Move, ...]] | None:
        """The feed a mix at that minute needs and the moves it costs; None if the starter cannot be ripe then."""
        if mix in self._feeds:
            return self._feeds[mix]
        self._feeds[mix] = found = self._fed_anew(mix)
        return found

    def _fed_anew(self, mix: int) -> tuple[Feed | None, tuple[Move, ...]] | None:
        if not self.day.batch.sourdough:
            return None, ()
        if self.wish.starter == "ripe":
            if self.wish.ripe_at is None:
                return None, ()
            ripe = int(self.day.clock.minutes(self.wish.ripe_at))
            if ripe - 1 <= mix <= ripe + RIPE_KEEPS_MIN:
                return None, ()
            if mix < ripe:
                return None
        if self.wish.starter == "either" and self.wish.start_exact:
            return None, (Move("ripe", "fed first", "ripe at the mix", 0.0),)
        feed = self.feeding.before(mix)
        if feed is not None:
            return feed, _feed_moves(feed)
        if self.wish.starter == "either" and mix <= 12 * 60:
            return None, (Move("ripe", "fed first", "ripe at the mix", 1.0),)
        return None

    # To the minute.

    def _laid(self, course: Course, choice: Choice, place: Place, window: Window | None) -> Plan | None:
        """The plan at a place, every length worked out for just there; None if it does not hold."""
        day = self.day
        back_at, ready = place.back_at, place.ready
        for _ in range(4):
            if choice.cold == "none":
                block = course.whole(back_at)
                if block is None:
                    return None
                blocks = [(back_at, block)]
                cold_min = 0
                mix_at, warm = back_at, block.warm_min
            else:
                front = self.front(course, choice, place.variant, place.front_at)
                if front is None:
                    return None
                ended = place.front_at + front.minutes
                cold_min = back_at - ended
                low_h, high_h, _ = self.hours()
                if not low_h * 60 <= cold_min <= high_h * 60 or self.busy.touches(ended, ended + 1):
                    return None
                where: Where = "bulk" if choice.cold == "bulk" else "shaped"
                block = course.back(back_at, where, front.proof_pct, *course.cold(front, where, cold_min))
                if block is None:
                    return None
                blocks = [(place.front_at, front), (back_at, block)]
                mix_at = place.front_at
                warm = _out_min(front) + block.warm_min - day.work_min("mix")
            ready = back_at + block.minutes
            if window is None or window.first <= ready <= window.last:
                break
            back_at += place.ready - ready
        else:
            return None
        if self._too_warm(warm) or not all(self._can(each, at) for at, each in blocks):
            return None
        if choice.cold == "none" and place.feed is not None and mix_at < place.feed.ripe:
            return None
        tasks = [task.later(at) for at, each in blocks for task in each.tasks]
        if choice.cold != "none":
            note = "" if day.batch.sourdough or choice.cold == "shaped" else "knock it back when it has doubled"
            tasks.append(Task("retard", back_at - cold_min, cold_min, day.kitchen.fridge_c, note=note))
            cold_min = sum(task.minutes for task in tasks if task.step == "retard")
        tasks = [self._switched_on(task) for task in tasks]
        folds, fold_moves = self._folds(blocks)
        tasks += folds
        if place.feed is not None:
            feed = place.feed
            tasks.append(
                Task("feed_starter", feed.at, feed.ripe - feed.at, day.air_c(feed.at), ratio=feed.ratio)
            )
        if window is not None and day.batch.process.rest_h:
            tasks = [_rested(task, window.last if window.wished is None else ready) for task in tasks]
        tasks.sort(key=lambda task: (task.at, _ORDER.get(task.step, 9)))
        night = sum(each.night_min(at, self.nights) for at, each in blocks) + self._feed_night(place.feed)
        return Plan(
            now=self.wish.now,
            tasks=tuple(tasks),
            moves=(*choice.moves, *place.moves, *fold_moves),
            night_min=night,
            warm_min=warm,
            leaven_pct=choice.leaven_pct,
            dough_c=choice.dough_c,
            cold=choice.cold,
            cold_min=cold_min,
            water_c=day.water_c(choice.dough_c),
            starter_fed=place.feed is not None,
        )

    def _switched_on(self, task: Task) -> Task:
        """Oven and pot go on sooner where nobody is there at their minute."""
        if task.step not in HEATS:
            return task
        on = Block.heat_at(task.at, HEATS[task.step], self.busy)
        return task if on is None else replace(task, at=int(on), minutes=task.end - int(on))

    def _folds(self, blocks: list[tuple[int, Block]]) -> tuple[list[Task], tuple[Move, ...]]:
        """Folds inside the first bulk, half an hour apart, none where nobody is there."""
        at, block = blocks[0]
        if not block.folds:
            return [], ()
        bulk = next(task for task in block.tasks if task.step == "bulk")
        start, end = at + bulk.at, at + bulk.end
        minutes = self.day.work_min("fold")
        gap = max(15, min(30, (end - start) // (block.folds + 1) // GRID_MIN * GRID_MIN))
        folds: list[Task] = []
        moment = start + gap
        last = start + max(block.folds * gap + minutes, (end - start) * _FOLDS_WITHIN)
        while len(folds) < block.folds and moment + minutes <= min(end, last):
            if self.busy.touches(moment, moment + minutes) or self.nights.touches(moment, moment + minutes):
                moment += GRID_MIN
                continue
            folds.append(Task("fold", moment, minutes))
            moment += gap
        if len(folds) == block.folds:
            return folds, ()
        return folds, (Move("folds", float(block.folds), float(len(folds)), 1 - len(folds) / block.folds),)


def _quickness(choice: Choice) -> tuple[float, ...]:
    return float(choice.cold == "none"), choice.dough.yeast_fresh_pct, choice.leaven_pct, choice.dough_c


def _out_min(front: Block) -> int:
    """Minutes of a front block that are not spent in the fridge."""
    return front.minutes - sum(task.minutes for task in front.tasks if task.step == "retard")


def _rested(task: Task, until: int) -> Task:
    """The rack, held on until the hour: bread that rests only gets better."""
    if task.step != "cool" or task.end >= until:
        return task
    return replace(task, minutes=until - task.at)


def _size(moves: tuple[Move, ...]) -> float:
    return sum(move.size for move in moves)


def _feed_moves(feed: Feed) -> tuple[Move, ...]:
    if feed.ratio == USUAL_RATIO:
        return ()
    return (Move("feed", USUAL_RATIO, feed.ratio, abs(feed.ratio - USUAL_RATIO) / 8),)


def _joined(first: Block, cold_min: int, second: Block, fridge_c: float) -> Block:
    """Two blocks with the fridge between as one."""
    shift = first.minutes + cold_min
    tasks = (
        *first.tasks,
        Task("retard", first.minutes, cold_min, fridge_c),
        *(task.later(shift) for task in second.tasks),
    )
    return replace(
        second,
        tasks=tasks,
        minutes=shift + second.minutes,
        hands=(*first.hands, *((start + shift, end + shift) for start, end in second.hands)),
        firsts=(*first.firsts, first.minutes, *(first_min + shift for first_min in second.firsts)),
        folds=first.folds,
    )
