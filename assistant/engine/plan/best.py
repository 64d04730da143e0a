"""The best plan over the choices for an hour, or for as soon as can be.

Order of merit: egg and milk doughs within their warm time; least minutes of hands between 22:00 and 06:00; fewest
choices moved from usual; the smallest moves; the latest start (or, without a deadline, the earliest bread).
"""

from __future__ import annotations

from math import ceil

from assistant.engine.plan.aside import Asides
from assistant.engine.plan.asked import Wish
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.feeding import RATIOS, Feed, Feeding
from assistant.engine.plan.limits import ANY_MERIT, WARM_MOST_MIN, Limits, Merit, Window
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.shared import ALONE, Shared
from assistant.engine.plan.steps import Plan


def by_hour(placing: Placing, options: tuple[Choice, ...], deadline: int | None) -> Plan | None:
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


def cool_enough(placing: Placing, options: tuple[Choice, ...]) -> tuple[Choice, ...]:
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
        if (
            best is not None
            and best_merit[0] == 0.0
            and best_merit[1] <= least_night
            and ((float(len(choice.moves)), choice.size) >= (best_merit[2], best_merit[3]))
        ):
            break
        found = placing.place(choice, window, _worst(best_merit))
        if found is None:
            continue
        merit = _merit(found, placing, window)
        if best is None or merit < best_merit:
            best, best_merit = found, merit
    return best
