"""The account of a bake as it is kept on the bench, and the course of time worked out from it.

What was told stands among the facts of its dough, or loose on the bench until there is one. Everybody who tells of
hours ahead asks `course_now`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from assistant.answers.account_kept import account_again, account_kept, account_of
from assistant.answers.learned import pace_of
from assistant.answers.plan_kept import standing
from assistant.answers.plan_said import Settled, settled, trade_of
from assistant.engine.course.asked import Asked, CourseOfTime
from assistant.engine.course.run import course_of
from assistant.engine.course.told import Account, Reading
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Plan
from assistant.engine.refusal import Refused
from assistant.talk.bench import TOLD, Bake, Bench
from assistant.talk.local_time import zoned
from assistant.talk.room import Room
from grammar.requests.plan import PlanRequest


def with_air(bench: Bench, values: Mapping[str, Any], now: datetime) -> Bench:
    """The bench after a setting: a kitchen found warmer or colder holds from now on for every dough under way."""
    room_c = values.get("kitchen_c")
    if not isinstance(room_c, int | float):
        return bench
    reading = Reading("room_c", float(room_c), now.replace(tzinfo=None))
    return replace(bench, bakes=tuple(_aired(one, reading) for one in bench.bakes))


def _aired(bake: Bake, reading: Reading) -> Bake:
    account = account_again(bake.facts.get(TOLD) or {})
    if not account.main:
        return bake
    return replace(bake, facts={**bake.facts, TOLD: account_kept(account.with_reading(reading))})


def bake_key(room: Room, account: Account) -> str:
    """What to call a bake among those learned from: its dough, or the day it began."""
    if room.bake is not None:
        return str(room.bake.id)
    return min((one.at for one in account.marks), default=room.now.replace(tzinfo=None)).date().isoformat()


def marked(room: Room) -> bool:
    """Whether anything was told of the dough in hand that says where it stands."""
    account = account_of(room)
    return bool(account.main or account.of("rise_pct"))


@dataclass(frozen=True, slots=True)
class Inputs:
    """What a course is worked out from, with the wish and the settled dough behind it."""

    asked: Asked
    wish: PlanRequest
    said: Settled


def inputs_of(room: Room, account: Account | None = None) -> Inputs:
    """For the dough in hand. Raises Refused where it cannot be solved."""
    stood = _own_plan(room)
    told = account_of(room) if account is None else account
    if stood is not None:
        wish, said, plan = stood
        asked = _asked(room, said, told, Clock(said.wish.now), plan)
        return Inputs(replace(asked, ready_by=plan.ready_min, mixed_c=plan.dough_c), wish, said)
    known = room.bake is not None
    wish = PlanRequest(start_now=not known, starter_pct=None if known else told.starter_pct)
    said = settled(wish, room)
    asked = _asked(room, said, told, Clock(zoned(room.now.replace(second=0, microsecond=0))), None)
    return Inputs(replace(asked, known=known and _bread_known(said)), wish, said)


def asked_of(room: Room, account: Account | None = None) -> Asked:
    """What the course of the dough in hand is worked out from. Raises Refused where it cannot be solved."""
    return inputs_of(room, account).asked


def course_as_plan(room: Room) -> tuple[PlanRequest, Settled, Plan] | None:
    """The plan that stands as the bake now runs: behind as told, ahead as it comes. None where there is neither."""
    if not marked(room):
        return standing(room)
    inputs = inputs_of(room)
    course = course_of(inputs.asked, room.now.replace(tzinfo=None))
    if not course.tasks:
        return None
    return inputs.wish, inputs.said, as_plan(inputs.asked, course)


def course_if_any(room: Room) -> tuple[PlanRequest, Settled, Plan] | None:
    """The same; None too where it cannot be worked out."""
    try:
        return course_as_plan(room)
    except Refused:
        return None


def as_plan(asked: Asked, course: CourseOfTime) -> Plan:
    """A course as a plan, so that whoever shows plans can show it."""
    cold_min = sum(task.minutes for task in course.tasks if task.step == "retard")
    if asked.plan is not None:
        return replace(asked.plan, tasks=course.tasks, cold_min=cold_min)
    dough = asked.batch.dough
    return Plan(
        now=asked.clock.now, tasks=course.tasks, moves=(), night_min=0.0, warm_min=0.0,
        leaven_pct=dough.starter_pct or dough.yeast_fresh_pct, dough_c=asked.batch.process.dough_c,
        cold="shaped" if cold_min else "none", cold_min=cold_min, water_c=None, starter_fed=False,
    )  # fmt: skip


def _bread_known(said: Settled) -> bool:
    dough = said.dough
    return dough.bread is not None or dough.piece is not None or said.formula.piece_g is not None


def _asked(room: Room, said: Settled, told: Account, clock: Clock, plan: Plan | None) -> Asked:
    pace = pace_of(room, bake_key(room, told))
    batch = replace(said.batch, dough=replace(said.batch.dough, pace=pace.value))
    batch = replace(batch, pieces=told.pieces_of(batch.pieces) or batch.pieces)
    until = max((clock.minutes(one.at) for one in told.marks), default=0.0) + 4 * 1440
    return Asked(
        batch=batch, kitchen=said.kitchen, trade=trade_of(room.kb), clock=clock, account=told, plan=plan,
        timed=pace.count > 0, busy=clock.spans(said.wish.busy, until),
    )  # fmt: skip


def _own_plan(room: Room) -> tuple[PlanRequest, Settled, Plan] | None:
    """The plan that stands, where it is one of the dough in hand."""
    memory = room.bench.notes.get("plan") or {}
    if room.bake is not None and memory.get("dough") != room.bake.name:
        return None
    try:
        return standing(room)
    except Refused:
        return None


def course_now(room: Room, account: Account | None = None) -> CourseOfTime:
    """The course of time of the dough in hand. Raises Refused where the dough cannot be solved."""
    return course_of(asked_of(room, account), room.now.replace(tzinfo=None))
