"""The course of a bake: its steps behind as told, its steps ahead as they come, and where it stands now.

One function for everybody: what is next, how long is left, when it is ready, the plan shown again, the loads, the card
and the calendar all read this. Minutes are of the clock, the plan's where there is one.
"""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import datetime

from assistant.engine.course.air import Air
from assistant.engine.course.asked import Asked, CourseOfTime, Stands, stage_c, stops_of
from assistant.engine.course.behind import steps_behind
from assistant.engine.course.by_plan import by_the_plan
from assistant.engine.course.coming import coming, next_step
from assistant.engine.course.folds import folds_ahead
from assistant.engine.course.follow import follow_dough
from assistant.engine.course.left import Left, left_of
from assistant.engine.course.starter_fed import starter_course
from assistant.engine.course.told import BESIDE, STAGE, Account, Mark
from assistant.engine.course.under_way import UnderWay, began
from assistant.engine.fermentation import rise_pct
from assistant.engine.plan.day import Day
from assistant.engine.plan.steps import Task


def course_of(asked: Asked, now: datetime) -> CourseOfTime:
    """The course of time of one dough at `now`."""
    asked = _with_next_load(asked)
    account = asked.account
    if account.marks and all(one.step in BESIDE for one in account.marks):
        account = _with_planned_mix(asked)  # folded, and nobody told of the mixing
        asked = replace(asked, account=account)
    if not account.main and not account.of("rise_pct"):
        return by_the_plan(asked, now)
    minute = asked.clock.minutes(now)
    changes = tuple((asked.clock.minutes(one.at), one.value) for one in account.of("room_c", until=now))
    air = Air(Day(asked.batch, asked.kitchen, asked.trade, asked.clock), changes)
    if account.main and account.main[-1].step == "feed_starter":
        return starter_course(asked, air, account.main[-1], minute)
    stage = STAGE[account.main[-1].step] if account.main else "bulk"
    dough = follow_dough(air, _with_planned_mix(asked), asked.mixed_c, stops_of(asked), minute)
    since = began(account, stage)
    return _dough_course(UnderWay(asked=asked, air=air, dough=dough, stage=stage, since=since, minute=minute))


def _dough_course(now: UnderWay) -> CourseOfTime:
    """The course of a dough in the stage it is in."""
    left = left_of(now)
    end = None if left.usual_min is None else max(now.minute, now.minute + left.usual_min)
    if end is not None and now.put_off_until:
        end = max(end, now.put_off_until[-1])
    ahead = coming(now, end)
    if ahead is not None and ahead.begins is not None and now.stage == "retard":
        end = ahead.begins
    tasks = [*steps_behind(now.asked, now.minute, now.asked.account), *_stage_task(now, end, left)]
    tasks += folds_ahead(now, end)
    if ahead is not None:
        tasks += ahead.tasks
    ready = max((task.end for task in ahead.tasks), default=None) if ahead is not None else None
    if ready is None and now.stage == "cool" and end is not None:
        ready = math.ceil(end - 1e-6)
    return CourseOfTime(
        clock=now.asked.clock,
        tasks=tuple(sorted(tasks, key=lambda task: task.at)),
        stands=_stands(now, left, end, next_step(now, ahead)),
        ready_min=ready,
    )


def _stage_task(now: UnderWay, end: float | None, left: Left) -> tuple[Task, ...]:
    """The stage itself among the steps, where it is known when it began and when it ends."""
    if end is None or now.since is None:
        return ()
    begins = round(now.begun)
    minutes = max(0, math.ceil(end - 1e-6) - begins)
    temp_c = stage_c(now.asked, now.stage)
    if temp_c is None:
        temp_c = now.air.air_c(now.minute)
    return (Task(now.stage, begins, minutes, temp_c, now.since.pieces, rise_pct=left.rise_pct),)


def _stands(now: UnderWay, left: Left, end: float | None, next_step: str | None) -> Stands:
    """Where the dough stands; what is left counts to minute `end`, put off or moved as that was."""
    usual, low, high = left.usual_min, left.low_min, left.high_min
    told = None if end is None else max(0.0, math.ceil(end - 1e-6) - now.minute)
    late = 0.0 if usual is None or told is None else told - max(0.0, usual)
    rise = rise_pct(now.asked.trade.kinetics, now.dough.dough, now.dough.state)
    return Stands(
        stage=now.stage,
        since=None if now.since is None else now.since.at.replace(tzinfo=None),
        elapsed_min=max(0.0, now.gone_min),
        left_min=told if usual is None or usual > 0 or late > 1 else 0.0,
        low_left_min=None if low is None else max(0.0, low + min(late, 0.0)),
        high_left_min=None if high is None else max(0.0, high, told or 0.0),
        rise_pct=rise if now.stage in ("bulk", "proof", "warm_up") else None,
        target_rise_pct=left.rise_pct,
        next=next_step,
        air_c=now.asked.kitchen.fridge_c if now.stage == "retard" else now.air.air_c(now.minute),
        seen_pace=now.dough.seen_pace,
    )


def _with_next_load(asked: Asked) -> Asked:
    """Where some of the pieces came out and others are left: the next load goes in as they come out."""
    account = asked.account
    last = account.main[-1] if account.main else None
    if last is None or last.step != "cool" or last.pieces is None:
        return asked
    out = sum(one.pieces or 0 for one in account.marks if one.step == "cool")
    if out >= asked.batch.pieces:
        return asked
    return replace(asked, account=account.with_mark(Mark("bake", last.at, None, False)))


def _with_planned_mix(asked: Asked) -> Account:
    """The account with its mixing as planned, where nobody told when that was."""
    account, plan = asked.account, asked.plan
    if plan is None or not account.main or any(one.step in ("mix", "bulk") for one in account.main):
        return account
    task = plan.last("knead") or plan.last("mix")
    if task is None or asked.clock.local(task.end) >= account.main[0].at.replace(tzinfo=None):
        return account
    return account.with_mark(Mark("mix", asked.clock.local(task.end), None, False))
