"""Planned anew from where the bake stands: only what lies ahead moves, by the levers that are left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from assistant.engine.course.asked import Asked, CourseOfTime
from assistant.engine.course.run import course_of
from assistant.engine.course.told import Account, Mark, Reading
from assistant.engine.plan.blocks import HEATS
from assistant.engine.plan.clock import Clock, Spans
from assistant.engine.plan.steps import Plan, Task

EARLY_MIN = 45
"""Ready at most so many minutes before the hour asked for."""
_WARMER_C = (3.0, 6.0)
_COLDER_C = (3.0, 5.0)
_WARMEST_C, _COLDEST_C = 28.0, 14.0
_LEAST_COLD_MIN = 60
_LATER_STEP_MIN, _MOST_LATER_MIN = 20, 1440


@dataclass(frozen=True, slots=True)
class Replanned:
    """The bake from here on. lever: "cold" (longer or shorter in the fridge), "fridge" (into it now), "warmer" or
    "colder" (a place of `air_c` from now on), None where nothing is moved on purpose. off_min: ready after the hour
    asked (positive) or too early (negative), 0 where it is kept."""

    asked: Asked
    course: CourseOfTime
    lever: str | None
    air_c: float | None
    off_min: int


def as_planned(account: Account, plan: Plan | None, clock: Clock, now: datetime) -> Account:
    """The account with what the plan has had done by now, where nothing was told of the dough."""
    if plan is None or account.main:
        return account
    minute = clock.minutes(now)
    for task in plan.tasks:
        over, begun = task.end <= minute, task.at <= minute
        if task.step in ("mix", "shape") and over and task.load <= 1:
            account = account.with_mark(Mark(task.step, clock.local(task.end), None, False))
        elif task.step in ("divide", "retard", "boil", "bake", "cool") and begun:
            account = account.with_mark(Mark(task.step, clock.local(task.at), None, False))
        elif task.step == "warm_up" and begun:
            account = account.with_mark(Mark("warm_up", clock.local(task.at), None, False))
    return account


def replanned(asked: Asked, now: datetime, target: int) -> Replanned:
    """The bake from here on for another hour (`target`, minute of the clock), by the least lever that keeps it.

    Where none does: the soonest after the hour, else what comes nearest before it.
    """
    found: list[Replanned] = []
    for lever, air_c, tried in _tries(asked, now, target):
        course = course_of(tried, now)
        if course.ready_min is None:
            continue
        off = course.ready_min - target
        kept = -EARLY_MIN <= off <= 0
        one = Replanned(tried, course, lever, air_c, 0 if kept else off if off > 0 else off + EARLY_MIN)
        if kept:
            return one
        found.append(one)
    if not found:
        return Replanned(asked, course_of(asked, now), None, None, 0)
    return min(found, key=lambda one: (one.off_min < 0, abs(one.off_min)))


def replanned_around(asked: Asked, now: datetime, target: int, taken: Spans) -> Replanned:
    """As `replanned`, with nothing to do by hand in the hours `taken`: ready the least later that leaves them free.

    Where no hour within a day does, the bake as it would be without them.
    """
    at_first = replanned(asked, now, target)
    minute = asked.clock.minutes(now)
    for later in range(0, _MOST_LATER_MIN, _LATER_STEP_MIN):
        found = replanned(asked, now, target + later) if later else at_first
        ahead = (task for task in found.course.tasks if task.at > minute and task.step not in HEATS)
        ready = found.course.ready_min
        clash = any(taken.touches(one.at, one.end if one.hands_on else one.at + 1) for one in ahead)
        if ready is not None and not clash:
            return replace(found, off_min=max(ready - target, 0)) if later else found
    return at_first


def _tries(asked: Asked, now: datetime, target: int) -> Iterator[tuple[str | None, float | None, Asked]]:
    """The ways on, the least first."""
    aimed = replace(asked, ready_by=target)
    here = course_of(replace(asked, plan=asked.plan), now)
    as_it_is = course_of(aimed, now)
    moved = here.ready_min is not None and as_it_is.ready_min != here.ready_min
    yield ("cold" if moved else None), None, aimed
    stage = as_it_is.stands.stage
    if stage not in ("bulk", "bench_rest", "proof", "warm_up", "autolyse") or as_it_is.ready_min is None:
        return
    room_c = as_it_is.stands.air_c or asked.kitchen.room_c
    if as_it_is.ready_min > target:
        for by in _WARMER_C:
            if room_c + by <= _WARMEST_C:
                yield "warmer", room_c + by, _in_air(aimed, room_c + by, now)
        return
    for by in _COLDER_C:
        if room_c - by >= _COLDEST_C:
            yield "colder", room_c - by, _in_air(aimed, room_c - by, now)
    if stage in ("bulk", "proof") and target - as_it_is.ready_min >= _LEAST_COLD_MIN and _may_go_cold(asked, stage):
        yield "fridge", None, _into_fridge(aimed, as_it_is, stage, now, target)


def _in_air(asked: Asked, air_c: float, now: datetime) -> Asked:
    return replace(asked, account=asked.account.with_reading(Reading("room_c", air_c, now)))


def _may_go_cold(asked: Asked, stage: str) -> bool:
    where = "bulk" if stage == "bulk" else "shaped"
    return asked.fridge and where in asked.batch.process.retard_where


def without_fridge(asked: Asked, now: datetime) -> Asked:
    """The bake with no fridge from now on: what lies in it is out, and nothing goes in."""
    account, plan = asked.account, asked.plan
    if account.main and account.main[-1].step == "retard":
        account = account.with_mark(Mark("warm_up", now))
    if plan is not None:
        minute = asked.clock.minutes(now)
        tasks = tuple(task for task in plan.tasks if task.step not in ("retard", "warm_up") or task.end <= minute)
        plan = replace(plan, tasks=tasks, cold="none", cold_min=0)
    return replace(asked, account=account, plan=plan, fridge=False)


def _into_fridge(asked: Asked, course: CourseOfTime, stage: str, now: datetime, target: int) -> Asked:
    """The plan with the fridge next: from now until it is time for what comes after."""
    at = round(asked.clock.minutes(now))
    rest = (course.ready_min or target) - at
    cold_min = max(_LEAST_COLD_MIN, target - at - rest)
    behind = [task for task in course.tasks if task.end <= at or task.at < at]
    tasks = [replace(task, minutes=at - task.at) if task.end > at else task for task in behind]
    if stage == "bulk" and not any(task.step == "bulk" for task in tasks):
        return asked
    tasks.append(Task("retard", at, cold_min, asked.kitchen.fridge_c))
    cold = "bulk" if stage == "bulk" else "shaped"
    base = asked.plan
    dough = asked.batch.dough
    if base is None:
        base = Plan(
            now=asked.clock.now, tasks=(), moves=(), night_min=0.0, warm_min=0.0,
            leaven_pct=dough.starter_pct or dough.yeast_fresh_pct, dough_c=asked.batch.process.dough_c, cold=cold,
            cold_min=cold_min, water_c=None, starter_fed=False,
        )  # fmt: skip
    return replace(asked, plan=replace(base, tasks=tuple(tasks), cold=cold, cold_min=cold_min))


def put_off(asked: Asked, now: datetime, by_min: float) -> Asked:
    """Behind by so much: the step after the stage under way begins so much later than it would have."""
    course = course_of(asked, now)
    left = course.stands.left_min or 0.0
    until = asked.clock.minutes(now) + left + by_min
    return replace(asked, account=asked.account.with_reading(Reading("not_before", round(until), now)))
