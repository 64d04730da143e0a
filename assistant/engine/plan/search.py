"""The plan for a wish, or the refusal with the nearest plan that can be kept.

Order of merit: egg and milk doughs within their warm time; least minutes of hands between 22:00 and 06:00; fewest
choices moved from usual; the smallest moves; the latest start (or, without a deadline, the earliest bread).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from math import ceil

from assistant.engine.plan.aside import Asides
from assistant.engine.plan.asked import EARLIEST_MIN, Batch, Kitchen, Trade, Wish
from assistant.engine.plan.choices import Choice, choices, elsewhere
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.day import GRID_MIN, Day
from assistant.engine.plan.feeding import RATIOS, Feed, Feeding
from assistant.engine.plan.fridge import fits, most_chilled
from assistant.engine.plan.limits import ANY_MERIT, WARM_AIM_MIN, WARM_MOST_MIN, Limits, Merit, Window
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.shared import ALONE, Shared
from assistant.engine.plan.steps import Move, Plan

_NEAREST_CHOICES = 8
_NEAREST_LATER_MIN, _NEAREST_SOONER_MIN = 36 * 60, 12 * 60
_NEAREST_STEP, _KEPT_STEP_MIN = 15, 20
_LEAST_REST = 0.5
_LONGEST_KEPT_MIN = 240
"""Bread that is out before its hour waits no longer than this, or as long as it is at its best."""
"""Bread that has to rest is cut after no less than this share of its rest."""


@dataclass(frozen=True, slots=True)
class Miss:
    """No plan keeps everything: which limit the nearest one breaks, by how many minutes, and that plan (or None).

    limit: "late" or "early" (ready after or before the hour), "past" (the hour is gone), "never" (this dough does not
    rise here), "taken" (the taken hours leave no room at all), "warm" (egg or milk dough would stand warm above 6 h),
    "fridge" (the dough does not fit where it was to go cold; minutes: the shaped pieces that would).
    """

    limit: str
    minutes: int
    nearest: Plan | None


def plan(
    batch: Batch, kitchen: Kitchen, wish: Wish, trade: Trade, shared: Shared = ALONE, courses: Courses | None = None
) -> Plan | Miss:
    """The best plan that keeps every limit of the wish beside what is planned already, else what comes nearest.

    courses: what is known from an earlier search of the same batch, kitchen and wish.
    """
    courses = courses or Courses.of(batch, kitchen, wish, trade)
    day, clock = courses.day, courses.day.clock
    placing = placing_for(courses, wish, shared)
    every = choices(day, wish)
    fitting = tuple(choice for choice in every if fits(batch, kitchen, choice.cold))
    deadline = None if wish.ready_by is None else int(clock.minutes(wish.ready_by) // 1)
    if deadline is not None and deadline <= 0:
        return Miss("past", -deadline, None)
    if every and not fitting:
        free = replace(wish, cold=None, cold_h=None)
        return Miss("fridge", most_chilled(batch, kitchen), kept(free, courses, shared))
    options = _cool_enough(placing, fitting)
    found = _by_hour(placing, options, deadline)
    helped, limits = batch.perishable and batch.sourdough, placing.limits
    if helped and (found is None or found.warm_min > WARM_AIM_MIN):
        yeasted = _cool_enough(placing, choices(day, wish, beside=True))
        other = _by_hour(placing, yeasted, deadline)
        if batch.leaven_said:
            if found is None and other is not None and not options:
                return Miss("warm", 0, other)
        elif other is not None:
            both = (one for one in (found, other) if one is not None)
            found = min(both, key=lambda one: limits.warm_over(one.warm_min))
        options = options or yeasted
    if found is not None:
        return found
    if deadline is not None:
        found = _last_resort(placing, options, deadline)
    if found is not None:
        return found
    if not options:
        return Miss("warm" if batch.perishable else "never", 0, None)
    if deadline is None:
        return Miss(_hopeless(placing, options), 0, None)
    return _nearest(placing, options, deadline, day)


def kept(wish: Wish, courses: Courses, shared: Shared = ALONE) -> Plan | None:
    """The plan for a wish, or None: what comes nearest is not looked for."""
    batch, kitchen, clock = courses.day.batch, courses.day.kitchen, courses.day.clock
    placing = placing_for(courses, wish, shared)
    deadline = None if wish.ready_by is None else int(clock.minutes(wish.ready_by) // 1)
    if deadline is not None and deadline <= 0:
        return None
    options = _cool_enough(placing, tuple(c for c in choices(placing.day, wish) if fits(batch, kitchen, c.cold)))
    found = _by_hour(placing, options, deadline)
    return found if found is not None or deadline is None else _last_resort(placing, options, deadline)


def _last_resort(placing: Placing, options: tuple[Choice, ...], deadline: int) -> Plan | None:
    """What is not done where anything else keeps the hour: the dough in another place, a shorter rest before the bread
    is cut, bread out sooner and kept until the hour. Nobody is got up in the night for bread that then waits."""
    away = _cool_enough(placing, elsewhere(placing.day, placing.limits.wish))
    placed = _by_hour(placing, away, deadline)
    if placed is not None and not placed.night_min:
        return placed
    sooner = _rested_less(placing, deadline)
    if sooner is None or sooner.night_min:
        once = tuple(choice for choice in (*options, *away) if choice.cold != "both")
        sooner = _kept_until(placing, once, deadline)
    return placed if sooner is None or sooner.night_min else sooner


def _kept_until(placing: Placing, options: tuple[Choice, ...], deadline: int) -> Plan | None:
    """Bread that is out sooner than it is wanted, and kept."""
    longest = round(min(_LONGEST_KEPT_MIN, placing.day.batch.best_within_h * 60))
    last = deadline - EARLIEST_MIN - GRID_MIN
    readies = tuple(ready for ready in range(last, deadline - longest - 1, -_KEPT_STEP_MIN) if ready > 0)
    if not readies or not options or last < placing.least_min(options):
        return None
    window = placing.finishing(Window(readies, last, readies[-1], beside=True))
    found = best_plan(placing, options, window) if window.readies else None
    rack = None if found is None else found.last("cool")
    if found is None or rack is None:
        return None
    kept_min = deadline - found.ready_min
    note = "then keep, in a cloth"
    tasks = tuple(replace(t, minutes=t.minutes + kept_min, note=note) if t == rack else t for t in found.tasks)
    return replace(found, tasks=tasks, moves=(*found.moves, Move("kept", 0.0, float(kept_min), kept_min / 60)))


def _rested_less(placing: Placing, deadline: int) -> Plan | None:
    """The plan of a bread that has to rest before it is cut, with a shorter rest; None where that does not help."""
    day, limits = placing.day, placing.limits
    rest_h = day.batch.process.rest_h
    if rest_h <= 0:
        return None
    shorter = replace(day.batch, process=replace(day.batch.process, rest_h=rest_h * _LEAST_REST))
    rested = placing_for(Courses.on(replace(day, batch=shorter), limits.wish), limits.wish, limits.shared)
    found = _by_hour(rested, choices(rested.day, limits.wish), deadline)
    rack = None if found is None else found.last("cool")
    if found is None or rack is None:
        return None
    rested_h = round(rack.minutes / 60, 1)
    return replace(found, moves=(*found.moves, Move("rest", rest_h, rested_h, 1 - rested_h / rest_h)))


def _by_hour(placing: Placing, options: tuple[Choice, ...], deadline: int | None) -> Plan | None:
    """The best plan for the hour, or for as soon as can be."""
    if not options:
        return None
    if deadline is None:
        return _soonest(placing, options) if placing.limits.wish.soonest else best_plan(placing, options, None)
    if deadline < placing.least_min(options):
        return None
    rests = placing.day.batch.process.rest_h > 0
    beside = Window.by(deadline) if placing.limits.shared.alone else Window.shared(deadline)
    window = placing.finishing(Window.rested(deadline) if rests else beside)
    return best_plan(placing, options, window) if window.readies else None


def _soonest(placing: Placing, options: tuple[Choice, ...]) -> Plan | None:
    """The first bread there can be; the cold only ever makes it later."""
    warm = [choice for choice in options if choice.cold == "none"]
    found = [plan for choice in warm or options if (plan := placing.place(choice, None)) is not None]
    return min(found, key=lambda plan: (plan.ready_min, *_merit(plan, placing, None)), default=None)


def _cool_enough(placing: Placing, options: tuple[Choice, ...]) -> tuple[Choice, ...]:
    """Without the choices that an egg or milk dough may not be put through.

    Where even the strongest, warmest dough without yeast stands warm too long, every slower one that goes cold in the
    same place does too.
    """
    if not placing.day.batch.perishable:
        return options
    kept: list[Choice] = []
    for cold in dict.fromkeys(choice.cold for choice in options):
        group = [choice for choice in options if choice.cold == cold]
        quickest = max(group, key=lambda choice: (choice.leaven_pct, choice.dough_c))
        yeasted = quickest.dough.yeast_fresh_pct > 0
        if yeasted or placing.warm_min(quickest) <= WARM_MOST_MIN:
            kept += group
    return tuple(sorted(kept, key=lambda choice: (len(choice.moves), choice.size)))


def placing_for(courses: Courses, wish: Wish, shared: Shared = ALONE) -> Placing:
    """What places choices for this wish, on the day of its courses."""
    day, clock = courses.day, courses.day.clock
    until = 0.0 if wish.ready_by is None else clock.minutes(wish.ready_by)
    busy, nights = clock.spans(wish.busy, until), clock.nights(until)
    earliest = 0
    if wish.start_at is not None:
        earliest = max(0, ceil(clock.minutes(wish.start_at)))
    ratios = RATIOS if wish.feed_ratio is None else (wish.feed_ratio,)
    feeding = Feeding(day, busy, nights, ratios, wish.multiply)
    asides = Asides(day, busy, nights, shared.asides)
    return Placing(Limits(day, wish, busy, nights, feeding, asides, earliest, shared), courses)


def _merit(found: Plan, placing: Placing, window: Window | None) -> tuple[float, ...]:
    limits = placing.limits
    over = limits.warm_over(found.warm_min)
    fed, mix = found.build, found.first("mix")
    feed = None if fed is None else Feed(fed.at, fed.end, fed.ratio or 0.0)
    many = len(found.moves) + limits.more_feeds(feed, 0 if mix is None else mix.at)
    size = sum(move.size for move in found.moves)
    if window is None:
        return (over, found.night_min, many, size, float(found.ready_min))
    return (over, found.night_min, many + window.stale(found.ready_min), size, float(-found.start_min))


def _worst(merit: tuple[float, ...]) -> Merit:
    """What a plan may be at worst to be better than one of that merit."""
    return (merit[0], merit[1], merit[2]) if merit else ANY_MERIT


def best_plan(placing: Placing, options: tuple[Choice, ...], window: Window | None) -> Plan | None:
    """The best plan over the choices, tried in order of their moves, so that most are never looked at."""
    best: Plan | None = None
    best_merit: tuple[float, ...] = ()
    least_night = placing.least_night_min(window)
    for choice in options:
        if best is not None and best_merit[0] == 0.0 and best_merit[1] <= least_night and (
            (float(len(choice.moves)), choice.size) >= (best_merit[2], best_merit[3])
        ):
            break
        found = placing.place(choice, window, _worst(best_merit))
        if found is None:
            continue
        merit = _merit(found, placing, window)
        if best is None or merit < best_merit:
            best, best_merit = found, merit
    return best


def _nearest(placing: Placing, options: tuple[Choice, ...], deadline: int, day: Day) -> Plan | Miss:
    """The plan ready nearest to the hour, later or sooner, over the choices most likely to get there."""
    window = Window(
        tuple(
            sorted(
                range(
                    max(GRID_MIN, deadline - _NEAREST_SOONER_MIN), deadline + _NEAREST_LATER_MIN, _NEAREST_STEP
                ),
                key=lambda ready: abs(ready - deadline),
            )
        ),
        deadline + _NEAREST_LATER_MIN,
        max(GRID_MIN, deadline - _NEAREST_SOONER_MIN),
        deadline,
    )
    window = placing.finishing(window)
    nearest: Plan | None = None
    for choice in _likely(options):
        found = placing.place(choice, window)
        if found is not None and (nearest is None or _off(found, deadline) < _off(nearest, deadline)):
            nearest = found
    if nearest is None:
        return Miss(_hopeless(placing, options), 0, None)
    ready = nearest.ready_min
    if deadline - EARLIEST_MIN <= ready <= deadline:
        return nearest  # the coarse search had passed it over
    if ready > deadline:
        return Miss("late", ready - deadline, nearest)
    return Miss("early", deadline - ready - EARLIEST_MIN, nearest)


def _hopeless(placing: Placing, options: tuple[Choice, ...]) -> str:
    """Why there is not even a nearest plan: the dough never rises here, or the taken hours leave no room."""
    return "never" if placing.least_min(options) == 0 else "taken"


def _off(found: Plan, deadline: int) -> int:
    return abs(found.ready_min - deadline)


def _likely(options: tuple[Choice, ...]) -> list[Choice]:
    """The usual ways and the fastest ones."""
    fast = sorted(options, key=lambda choice: (choice.cold != "none", -choice.leaven_pct, -choice.dough_c))
    some = [*options[: _NEAREST_CHOICES // 2], *fast[: _NEAREST_CHOICES // 2]]
    return list(dict.fromkeys(some))


def ready_at(found: Plan, clock: Clock) -> datetime:
    """Local time at which the last step ends."""
    return clock.local(found.ready_min)
