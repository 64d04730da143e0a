"""What lies behind a dough: as it was told, and before the first that was told as it was planned."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.engine.course.asked import Asked, stage_c
from assistant.engine.course.told import BESIDE, STAGE, Account, Mark
from assistant.engine.plan.day import Day
from assistant.engine.plan.steps import Task

_WORK = frozenset({"mix", "shape", "preshape"})
"""Steps whose mark says that they are over; any other mark says that its stage begins."""
_BESIDE_MIN = 5
_CUTTING_MIN = 15
"""Pieces cut or rounded lie at most so long before the next work on them began."""
_ORDER = (
    "feed_starter", "autolyse", "mix", "knead", "bulk", "fold", "divide", "preshape", "bench_rest", "shape", "retard",
    "warm_up", "proof", "preheat", "heat_pot", "boil", "score", "bake", "cool",
)  # fmt: skip
"""The steps of a plan in the order of a bake."""


def steps_behind(asked: Asked, minute: float, account: Account) -> list[Task]:
    """What lies behind: as told, and before the first that was told as planned."""
    clock, main = asked.clock, account.main
    tasks: list[Task] = []
    for place, mark in enumerate(main):
        at = round(clock.minutes(mark.at))
        before = round(clock.minutes(main[place - 1].at)) if place else -math.inf
        tasks += _done_then(asked, mark, at, before)
        if place + 1 < len(main):
            tasks += _stage_behind(asked, mark, at, main[place + 1])
    begun = min((task.at for task in tasks), default=minute)
    before_it = [one for one in _as_planned(asked, minute, account) if one.step != "feed_starter" or one.end <= begun]
    beside = (mark for mark in account.marks if mark.step in BESIDE)
    return [*before_it, *tasks, *(Task(mark.step, round(clock.minutes(mark.at)), _BESIDE_MIN, None) for mark in beside)]


def _as_planned(asked: Asked, minute: float, account: Account) -> list[Task]:
    """The steps of the plan that come before all that was told."""
    if asked.plan is None:
        return []
    first = min((asked.clock.minutes(one.at) for one in account.main), default=minute)
    told = {STAGE.get(one.step, one.step) for one in account.marks} | {one.step for one in account.marks}
    tasks = []
    for task in asked.plan.tasks:
        if task.step in told or task.at >= min(first, minute) or _ranks_later(task.step, account):
            continue
        end = min(task.end, round(first))
        if end > task.at and (end == task.end or task.step != "feed_starter"):  # a feed cut short was another one
            tasks.append(replace(task, minutes=end - task.at))
    return tasks


def _done_then(asked: Asked, mark: Mark, at: int, before: float) -> list[Task]:
    """Work that was over by its mark: it took as long as such work takes, no longer than since the mark before."""
    if mark.step not in _WORK:
        return []
    day = Day(asked.batch, asked.kitchen, asked.trade, asked.clock)
    if mark.step == "shape":
        usual = math.ceil(1 + asked.batch.process.shape_min * (mark.pieces or asked.batch.pieces))
    else:
        usual = day.work_min(mark.step)
    minutes = int(min(usual, max(0.0, at - before)))
    return [Task(mark.step, at - minutes, minutes, asked.mixed_c if mark.step == "mix" else None, mark.pieces)]


def _stage_behind(asked: Asked, mark: Mark, at: int, after: Mark) -> list[Task]:
    """The stage between a mark and the one after it."""
    step = {"mix": "bulk", "shape": "proof", "preshape": "bench_rest"}.get(mark.step, mark.step)
    if (mark.step == "mix" and after.step == "bulk") or mark.step in ("fold", "preheat"):
        return []
    minutes = max(0, round(asked.clock.minutes(after.at)) - at)
    if after.step in _WORK and mark.step in ("divide", "preshape"):
        minutes = min(minutes, _CUTTING_MIN)
    rise = {"bulk": asked.batch.rise_bulk_pct, "proof": asked.batch.rise_proof_pct}.get(step)
    return [Task(step, at, minutes, stage_c(asked, step), mark.pieces, rise_pct=rise)] if minutes > 0 else []


def _ranks_later(step: str, account: Account) -> bool:
    """Whether a planned step would come after the first one told: it is ahead or done, never planned before."""
    first = account.main[0].step if account.main else "mix"
    return step not in _ORDER or _ORDER.index(step) >= _ORDER.index(first)
