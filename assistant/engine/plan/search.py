"""The plan for a wish, or the refusal with the nearest plan that can be kept."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.plan.asked import Batch, Kitchen, Trade, Wish
from assistant.engine.plan.best import by_hour, cool_enough, placing_for
from assistant.engine.plan.choices import choices
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.fridge import fits, most_chilled
from assistant.engine.plan.last_resort import last_resort_plan
from assistant.engine.plan.limits import WARM_AIM_MIN
from assistant.engine.plan.nearest import Miss, hopeless, nearest_plan
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.shared import ALONE, Shared
from assistant.engine.plan.steps import Plan


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
    options = cool_enough(placing, fitting)
    found = by_hour(placing, options, deadline)
    if batch.perishable and batch.sourdough and (found is None or found.warm_min > WARM_AIM_MIN):
        yeasted = cool_enough(placing, choices(day, wish, beside=True))
        helped = by_hour(placing, yeasted, deadline)
        if not batch.leaven_said:
            found = _cooler(placing, found, helped)
        elif found is None and helped is not None and not options:
            return Miss("warm", 0, helped)
        options = options or yeasted
    if found is None and deadline is not None:
        found = last_resort_plan(placing, options, deadline)
    if found is not None:
        return found
    if not options:
        return Miss("warm" if batch.perishable else "never", 0, None)
    if deadline is None:
        return Miss(hopeless(placing, options), 0, None)
    return nearest_plan(placing, options, deadline)


def _cooler(placing: Placing, found: Plan | None, helped: Plan | None) -> Plan | None:
    """The plan that stands less long above its warm time: with yeast beside the starter only where that helps."""
    there = [one for one in (found, helped) if one is not None]
    return min(there, key=lambda one: placing.limits.warm_over(one.warm_min), default=None)


def kept(wish: Wish, courses: Courses, shared: Shared = ALONE) -> Plan | None:
    """The plan for a wish, or None: what comes nearest is not looked for."""
    batch, kitchen, clock = courses.day.batch, courses.day.kitchen, courses.day.clock
    placing = placing_for(courses, wish, shared)
    deadline = None if wish.ready_by is None else int(clock.minutes(wish.ready_by) // 1)
    if deadline is not None and deadline <= 0:
        return None
    options = cool_enough(placing, tuple(c for c in choices(placing.day, wish) if fits(batch, kitchen, c.cold)))
    found = by_hour(placing, options, deadline)
    return found if found is not None or deadline is None else last_resort_plan(placing, options, deadline)
