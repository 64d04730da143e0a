"""The hour of what a report tells: as said, as planned, ever since, or not yet."""

from __future__ import annotations

from datetime import datetime, timedelta

from assistant.answers.course_kept import asked_of
from assistant.engine.course.told import COURSE, ONCE, Account, Mark
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from assistant.voice.spans import clock_said
from grammar.moments import latest
from grammar.telling import Told

_BEFORE_IT_WAS_SAID = timedelta(hours=11)
"""A dough is told of at most so long after it was begun."""


def no_sooner(step: str, account: Account, room: Room) -> datetime | None:
    """The hour before which a step can hardly have been: what it follows, or long before the dough was spoken of."""
    before = _before(step, account)
    if before or step == "feed_starter":
        return max((one.at for one in before), default=None)
    return datetime.fromisoformat(room.bake.begun) - _BEFORE_IT_WAS_SAID if room.bake is not None else None


def _before(step: str, account: Account) -> list[Mark]:
    return [one for one in account.main if one.step in ONCE and COURSE.index(one.step) < COURSE.index(step)]


def since_told(one: Told, account: Account) -> datetime | None:
    """The hour of what was told last, where it was so ever since."""
    return account.main[-1].at if one.throughout and account.main else None


def planned(step: str, account: Account, room: Room) -> datetime | None:
    """When the plan has a step done, where one stands: what was not told is taken as planned.

    As late as what was told before it was, and never before that.
    """
    at = _in_plan(step, room)
    last = max(_before(step, account), default=None, key=lambda one: one.at)
    if at is None or last is None:
        return at
    late = last.at - (_in_plan(last.step, room) or last.at)
    return max(at + max(late, timedelta(0)), last.at)


def _in_plan(step: str, room: Room) -> datetime | None:
    try:
        stood = asked_of(room).plan, asked_of(room).clock
    except Refused:
        return None
    plan, clock = stood
    task = plan.last(step) if plan is not None else None
    return None if task is None else clock.local(task.end if step in ("mix", "shape", "preshape") else task.at)


def hour_of(told: Told, now: datetime, floor: datetime | None = None) -> datetime:
    """When it was: the last such hour that has been. Refused where it is still to come.

    floor: it cannot well have been before that.
    """
    if told.ago_min is not None:
        return now - timedelta(minutes=round(told.ago_min))
    if told.at is None:
        return now
    at = latest(told.at, now)
    again = at + timedelta(hours=12)
    bare = not told.at.sure and told.at.day is None and told.at.part is None
    if bare and floor is not None and at < floor and timedelta(0) < again - now <= timedelta(hours=3):
        at = again  # the same place on the dial, soon to come
    if floor is not None and at < floor and timedelta(0) < at + timedelta(days=1) - now <= timedelta(hours=3):
        at += timedelta(days=1)  # it would be before what it follows: today's, which is still to come
    if at > now + timedelta(minutes=_AHEAD_MIN):
        raise Refused(
            f"{clock_said(at, now)} is still to come: say a stage once it has begun",
            "it began at an hour that has been, or now",
        )
    return min(at, now)


_AHEAD_MIN = 10.0
"""An hour so little ahead is now: clocks in a kitchen differ."""
