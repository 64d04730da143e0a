"""The folds of a bulk under way that are still to come."""

from __future__ import annotations

from assistant.engine.course.under_way import UnderWay
from assistant.engine.plan.day import GRID_MIN
from assistant.engine.plan.laying import FOLDS_WITHIN
from assistant.engine.plan.steps import Task

_USUAL = 3
"""How many where somebody folds a dough that is usually kneaded."""


def folds_ahead(now: UnderWay, end: float | None) -> tuple[Task, ...]:
    """Folds from now on, half an hour apart or closer in a short bulk, counted from the last one told.

    Sets that nobody told of are taken as done at their minute. None in the second half of the bulk, and none of a dough
    that is kneaded unless somebody folds it. `end`: the minute the bulk ends.
    """
    if now.stage != "bulk" or end is None or now.since is None:
        return ()
    begun, clock = now.begun, now.asked.clock
    told = [clock.minutes(one.at) for one in now.asked.account.marks if one.step == "fold" and one.at >= now.since.at]
    process = now.asked.batch.process
    sets = process.folds or (_USUAL if told else 0)
    if not sets:
        return ()
    minutes = now.air.latest.work_min("fold")
    gap = max(15, min(30, int(end - begun) // (sets + 1) // GRID_MIN * GRID_MIN))
    last = begun + max(sets * gap + minutes, (end - begun) * FOLDS_WITHIN)
    first = max(told, default=begun)
    hours = (round(first) + gap * n for n in range(1, sets - len(told) + 1))
    return tuple(Task("fold", at, minutes) for at in hours if now.minute < at and at + minutes <= min(end, last))
