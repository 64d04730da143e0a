"""What is not done where anything else keeps the hour: another place, a shorter rest, bread out sooner and kept."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.plan.asked import EARLIEST_MIN
from assistant.engine.plan.best import best_plan, by_hour, cool_enough, placing_for
from assistant.engine.plan.choices import Choice, choices, elsewhere
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.day import GRID_MIN
from assistant.engine.plan.limits import Window
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.steps import Move, Plan

_KEPT_STEP_MIN = 20
_LEAST_REST = 0.5
"""Bread that has to rest is cut after no less than this share of its rest."""
_LONGEST_KEPT_MIN = 240
"""Bread that is out before its hour waits no longer than this, or as long as it is at its best."""


def last_resort_plan(placing: Placing, options: tuple[Choice, ...], deadline: int) -> Plan | None:
    """What is not done where anything else keeps the hour: the dough in another place, a shorter rest before the bread
    is cut, bread out sooner and kept until the hour. Nobody is got up in the night for bread that then waits."""
    away = cool_enough(placing, elsewhere(placing.day, placing.limits.wish))
    placed = by_hour(placing, away, deadline)
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
    found = by_hour(rested, choices(rested.day, limits.wish), deadline)
    rack = None if found is None else found.last("cool")
    if found is None or rack is None:
        return None
    rested_h = round(rack.minutes / 60, 1)
    return replace(found, moves=(*found.moves, Move("rest", rest_h, rested_h, 1 - rested_h / rest_h)))
