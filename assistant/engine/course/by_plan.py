"""The course of a bake of which nothing was told yet: the hours of its plan, if one stands."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from assistant.engine.course.asked import Asked, CourseOfTime, Stands
from assistant.engine.course.coming import BESIDE_TASKS


def by_the_plan(asked: Asked, now: datetime) -> CourseOfTime:
    """Nothing told yet: the plan's own hours, if one stands."""
    plan, clock = asked.plan, asked.clock
    nothing = Stands(
        stage=None, since=None, elapsed_min=0.0, left_min=None, low_left_min=None, high_left_min=None, rise_pct=None,
        target_rise_pct=None, next=None, air_c=None,
    )  # fmt: skip
    if plan is None:
        return CourseOfTime(clock=clock, tasks=(), stands=nothing, ready_min=None)
    minute = clock.minutes(now)
    tasks = [task for task in plan.tasks if task.step not in BESIDE_TASKS - {"score"}]
    begun = [task for task in tasks if task.at <= minute]
    coming = [task for task in tasks if task.at > minute]
    under = max(begun, key=lambda task: (task.at, task.end), default=None)
    after = coming[0] if coming else None
    stands = replace(
        nothing,
        stage=under.step if under is not None else None,
        since=clock.local(under.at) if under is not None else None,
        elapsed_min=minute - under.at if under is not None else 0.0,
        left_min=after.at - minute if after is not None else max(0.0, plan.ready_min - minute) if under else None,
        next=after.step if after is not None else None,
        air_c=asked.kitchen.room_c,
    )
    return CourseOfTime(clock=clock, tasks=plan.tasks, stands=stands, ready_min=plan.ready_min)
