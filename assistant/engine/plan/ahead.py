"""Baked beforehand: cooled, bagged or frozen, thawed, and warmed through for the hour."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.engine.plan.asked import EARLIEST_MIN, Batch, Kitchen, Trade, Wish
from assistant.engine.plan.best import best_plan, placing_for
from assistant.engine.plan.choices import choices
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.day import GRID_MIN, Day, up
from assistant.engine.plan.limits import Window
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.steps import Plan, Task

REFRESH_C = 190.0
_PREHEAT_MIN = 20
_BIG_G, _BIG_MORE_MIN = 250.0, 5
_LONGEST_MIN, _LEAST_MIN = 48 * 60, 4 * 60
_FREEZE_MIN = 3 * 60
_THAW_EARLY_MIN = 14 * 60


def plan_ahead(batch: Batch, kitchen: Kitchen, wish: Wish, trade: Trade) -> Plan | Miss:
    """The bake as late as the day before allows, kept, and refreshed for `wish.ready_by` (which must be given).

    Kept longer than it stays at its best it is frozen and thawed, else bagged. Raises ValueError without an hour.
    """
    if wish.ready_by is None:
        raise ValueError("baking ahead needs an hour to be ready by")
    clock = Clock(wish.now)
    day = Day(batch, kitchen, trade, clock)
    placing = placing_for(Courses.on(day, wish), wish)
    deadline = int(clock.minutes(wish.ready_by) // 1)
    if deadline <= 0:
        return Miss("past", -deadline, None)
    warming = _warming(day, placing, deadline)
    if warming is None:
        return Miss("late", 0, None)
    last = warming[0].at - _LEAST_MIN
    readies = tuple(range(last, max(GRID_MIN, last - _LONGEST_MIN), -60))
    if not readies:
        return Miss("late", 0, None)
    window = placing.finishing(Window(readies, last, readies[-1]))
    baked = best_plan(placing, choices(day, wish), window) if window.readies else None
    if baked is None:
        return Miss("late", 0, None)
    return _kept(baked, day, placing, warming)


def _warming(day: Day, placing: Placing, deadline: int) -> list[Task] | None:
    """Oven on and the pieces warmed through, ready at the hour or up to 45 min before; None if nobody can be there."""
    big = _BIG_MORE_MIN if day.batch.piece_g >= _BIG_G else 0
    loads = math.ceil(day.batch.pieces / day.kitchen.oven_pieces)
    minutes = up((day.work_min("refresh") + big) * loads)
    for ready in range(deadline, deadline - EARLIEST_MIN - 1, -GRID_MIN):
        at = ready - minutes
        on = at - _PREHEAT_MIN
        if on < 0 or placing.limits.busy.touches(at, ready) or placing.limits.busy.touches(on, on + 1):
            continue
        return [Task("preheat", on, _PREHEAT_MIN, REFRESH_C), Task("refresh", at, minutes, REFRESH_C, day.batch.pieces)]
    return None


def _kept(baked: Plan, day: Day, placing: Placing, warming: list[Task]) -> Plan | Miss:
    cooled = baked.ready_min
    use_at = warming[0].at
    freeze = use_at - cooled > day.batch.best_within_h * 60
    out_at = use_at
    tasks = list(baked.tasks)
    if freeze:
        thaw = up(day.trade.work["thaw_100_g"].minutes * (day.batch.piece_g / 100) ** (2 / 3))
        at = warming[1].at - thaw
        while placing.limits.busy.touches(at, at + 1) and warming[1].at - at < thaw + _THAW_EARLY_MIN:
            at -= GRID_MIN
        if at - cooled < _FREEZE_MIN:
            freeze = False
        else:
            out_at = at
            tasks.append(Task("thaw", at, warming[1].at - at, day.kitchen.room_c))
    note = "then freeze, wrapped airtight" if freeze else "then bag, at room temperature"
    tasks = [
        replace(task, minutes=out_at - task.at, note=note) if task.step == "cool" else task for task in tasks
    ]
    tasks += warming
    order = sorted(tasks, key=lambda task: task.at)
    return replace(baked, tasks=tuple(order))
