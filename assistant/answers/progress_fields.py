"""Where the bake stands, in the machine form."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from types import MappingProxyType
from typing import Any

from assistant.answers.account_kept import iso
from assistant.engine.course.asked import CourseOfTime
from assistant.engine.course.told import Account
from assistant.engine.plan.steps import Task
from assistant.talk.local_time import later
from assistant.talk.room import Room


def fields_of(course: CourseOfTime, account: Account, room: Room) -> dict[str, Any]:
    """The machine form of a course."""
    stands = course.stands
    after = next_task(course, room)
    return {
        "stage": stands.stage,
        "since": None if stands.since is None else iso(stands.since),
        "elapsed_min": stands.elapsed_min,
        "left_min": stands.left_min,
        "low_left_min": stands.low_left_min,
        "high_left_min": stands.high_left_min,
        "rise_pct": stands.rise_pct,
        "target_rise_pct": stands.target_rise_pct,
        "next": stands.next,
        "next_at": after,
        "folds": [iso(course.clock.local(task.at)) for task in folds_to_come(course, room.now)],
        "ready_at": None if course.ready_min is None else iso(course.clock.local(course.ready_min)),
        "temp_c": stands.air_c,
        **told_fields(account),
    }


def folds_to_come(course: CourseOfTime, now: datetime) -> tuple[Task, ...]:
    """The folds after `now`, in order."""
    minute = course.clock.minutes(now)
    return tuple(task for task in course.tasks if task.step == "fold" and task.at > minute)


UNKNOWN: Mapping[str, Any] = MappingProxyType({
    "stage": None, "since": None, "elapsed_min": 0.0, "left_min": None, "low_left_min": None, "high_left_min": None,
    "rise_pct": None, "target_rise_pct": None, "next": None, "next_at": None, "folds": (),
    "ready_at": None, "temp_c": None,
})  # fmt: skip
"""The machine form where nothing can be told."""


def told_fields(account: Account) -> dict[str, Any]:
    """What was told, in the machine form."""
    return {
        "marks": [{"step": one.step, "at": iso(one.at), "pieces": one.pieces} for one in account.marks],
        "readings": [{"what": one.what, "value": one.value, "at": iso(one.at)} for one in account.readings],
    }


def next_task(course: CourseOfTime, room: Room) -> str | None:
    """The hour of the next step, ISO; None where nothing is left that can be told."""
    left = course.stands.left_min
    if left is None or course.stands.next is None:
        return None
    return iso(later(room.now.replace(tzinfo=None), left))
