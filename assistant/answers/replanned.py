"""A bake under way planned anew from where it stands: guests at another hour, a colder kitchen, running late."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from assistant.answers.account_kept import account_of, with_account
from assistant.answers.course_kept import as_plan, inputs_of
from assistant.answers.plan_kept import TOPIC, made_then, standing
from assistant.answers.plan_reply import outcome_of
from assistant.answers.plan_said import Settled, settled
from assistant.answers.plan_words import span
from assistant.engine.course.asked import CourseOfTime
from assistant.engine.course.levers import Replanned, as_planned, put_off, replanned, replanned_around, without_fridge
from assistant.engine.course.run import course_of
from assistant.engine.course.told import Reading
from assistant.engine.plan.clock import Clock
from assistant.talk.doughs import answers_to
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour
from assistant.voice.page import Line, Page
from grammar.moments import resolve
from grammar.requests.plan import PlanRequest

_DOUGH = (
    "pieces", "piece_g", "bread", "piece", "hydration_pct", "salt_pct", "starter_pct", "yeast", "yeast_pct",
)  # fmt: skip
_BESIDE = frozenset({"fold", "score"})
_SHOWN = 2
_TRIES = 4


def from_here(request: PlanRequest, room: Room) -> Outcome | None:
    """The rest of the bake for the changed wish; None where nothing of it is done yet, or another dough is meant."""
    memory = room.bench.notes.get(TOPIC) or {}
    if room.bake is None or request.bedtime:
        return None
    stood = standing(room) if memory.get("dough") == room.bake.name else None
    if stood is None:
        return _without_a_plan(request, room)
    earlier, said_then, plan = stood
    if any(getattr(request, name) != getattr(earlier, name) for name in _DOUGH):
        return None
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    clock = Clock(said_then.wish.now)
    told = account_of(room)
    account = as_planned(told, plan, clock, now)
    if not account.main or account.main[-1].step in ("feed_starter", "cool"):
        return None
    said = made_then(request, memory, room)
    air_c = request.kitchen_c
    if air_c is not None and air_c != earlier.kitchen_c:
        account = account.with_reading(Reading("room_c", air_c, now))
        said = replace(said, kitchen=replace(said.kitchen, room_c=said_then.kitchen.room_c))
    before = course_of(inputs_of(room, as_planned(told, plan, clock, now)).asked, now)
    base = replace(inputs_of(room, account).asked, kitchen=said.kitchen)
    if request.cold == "none" and request.cold != earlier.cold:
        base = without_fridge(base, now)
    hour = _hour(request, said, clock, room)
    said = replace(said, wish=replace(said.wish, ready_by=hour))
    if request.late_min is not None:
        asked = put_off(base, now, request.late_min)
        found = Replanned(asked, course_of(asked, now), None, None, 0)
    else:
        target = _target(request, earlier, hour, clock, plan.ready_min)
        taken = clock.spans(said.wish.busy) if request.taken != earlier.taken else None
        found = replanned(base, now, target) if taken is None else replanned_around(base, now, target, taken)
    if request.oven_from is not None:
        found = _oven_free(found, int(clock.minutes(resolve(request.oven_from, now))), now)
    return _told(replace(request, late_min=None), said, found, before, room)


def _without_a_plan(request: PlanRequest, room: Room) -> Outcome | None:
    """The rest of a bake that was never planned, but told of; None where nothing says where it stands."""
    last = account_of(room).main[-1:]
    if not last or last[0].step in ("feed_starter", "cool") or _another(request, room):
        return None
    request = replace(request, bread=None, piece=None)
    inputs = inputs_of(room)
    asked, said, now = inputs.asked, inputs.said, room.now.replace(tzinfo=None, second=0, microsecond=0)
    before = course_of(asked, now)
    if before.ready_min is None or (request.start is not None and not request.no_sooner):
        return None
    if request.cold == "none":
        asked = without_fridge(asked, now)
    if request.late_min is not None:
        asked = put_off(asked, now, request.late_min)
    target = before.ready_min + round(request.shift_min or 0)
    hour = settled(request, room).wish.ready_by if request.ready is not None else None
    if hour is not None:
        target = int(asked.clock.minutes(hour))
        said = replace(said, wish=replace(said.wish, ready_by=hour))
    moved = hour is not None or request.shift_min is not None
    found = replanned(asked, now, target) if moved else Replanned(asked, course_of(asked, now), None, None, 0)
    if request.oven_from is not None:
        found = _oven_free(found, int(asked.clock.minutes(resolve(request.oven_from, now))), now)
    return _told(replace(request, late_min=None), said, found, before, room)


def _another(request: PlanRequest, room: Room) -> bool:
    """Whether another dough is meant: a figure of it is said, or a kind that the one in hand does not answer to."""
    if any(getattr(request, name) is not None for name in _DOUGH if name not in ("bread", "piece")):
        return True
    bake = room.bake
    kinds = [one for one in (request.bread, request.piece) if one is not None]
    names = " ".join(answers_to(bake.said, bake.called, room.kb)) if bake is not None else ""
    return any(one.split("_")[-1] not in names for one in kinds)


def _oven_free(found: Replanned, free_min: int, now: datetime) -> Replanned:
    """The bake with its first load no sooner than the oven is free."""
    for _ in range(_TRIES):
        first = min((task.at for task in found.course.ahead_of(now) if task.step == "bake"), default=free_min)
        if first >= free_min:
            break
        asked = put_off(found.asked, now, free_min - first)
        found = replace(found, asked=asked, course=course_of(asked, now))
    return found


def _hour(request: PlanRequest, said: Settled, clock: Clock, room: Room) -> datetime | None:
    """The hour wished for, by the clock of the plan that was kept; by this one where that hour has gone by."""
    then = replace(room, now=clock.now.replace(tzinfo=None))
    hour = settled(request, then).wish.ready_by
    return said.wish.ready_by if hour is None or hour < room.now.replace(tzinfo=None) else hour


def _target(
    request: PlanRequest, earlier: PlanRequest, hour: datetime | None, clock: Clock, ready_min: int
) -> int:
    """The minute it is to be ready: the hour of the wish, where that was changed; else the one it was planned for."""
    if (request.ready, request.shift_min) == (earlier.ready, earlier.shift_min):
        return ready_min
    return ready_min + round(request.shift_min or 0) if hour is None else int(clock.minutes(hour))


def _told(
    request: PlanRequest, said: Settled, found: Replanned, before: CourseOfTime, room: Room
) -> Outcome:
    now = room.now.replace(tzinfo=None)
    plan = as_plan(found.asked, found.course)
    there = replace(room, bench=with_account(room.bench, found.asked.account))
    outcome = outcome_of(request, said, plan, there, said.assumed)
    levers = _levers(found, now)
    moved = [*levers, *_moves(before, found.course, now, 1 if levers else _SHOWN + 1)]
    blocks = tuple(Line(one, role="head" if n == 0 else "plain") for n, one in enumerate(moved))
    rest = tuple(replace(block, more=True) if isinstance(block, Line) else block for block in outcome.page.blocks)
    return replace(outcome, page=Page((*blocks, *rest)))


def _levers(found: Replanned, now: datetime) -> list[str]:
    """What was done for the hour, and what it costs where it cannot be kept."""
    words = {
        "cold": "the fridge takes up the difference",
        "fridge": "into the fridge now: it holds the dough until then",
        "warmer": f"somewhere of {found.air_c or 0:.0f} °C from now on",
        "colder": f"somewhere of {found.air_c or 0:.0f} °C from now on",
    }
    told = [words[found.lever]] if found.lever is not None else []
    ready = found.course.ready_min
    if found.off_min and ready is not None:
        hour = day_and_hour(found.course.clock.local(ready), now.date())
        side = "after" if found.off_min > 0 else "before"
        told.append(f"the hour cannot be kept from here: {hour} is the nearest, {span(abs(found.off_min))} {side} it.")
    return told


def _moves(before: CourseOfTime, after: CourseOfTime, now: datetime, most: int) -> list[str]:
    """The steps ahead that begin at another hour than they did, and by how much; the end first."""
    rows = []
    if before.ready_min is not None and after.ready_min is not None and before.ready_min != after.ready_min:
        rows.append(_moved("ready", before.ready_min, after.ready_min, after.clock, now))
    minute = after.clock.minutes(now)
    firsts = {task.step: task.at for task in reversed(before.tasks) if task.at >= minute}
    seen = set(_BESIDE)
    for task in after.tasks:
        was = firsts.get(task.step)
        if task.step in seen or was is None or task.at < minute or was == task.at:
            continue
        seen.add(task.step)
        rows.append(_moved(task.step.replace("_", " "), was, task.at, after.clock, now))
    return ["Moved: " + "; ".join(rows[:most]) + "."] if rows else ["Nothing has to move."]


def _moved(name: str, was: int, new: int, clock: Clock, now: datetime) -> str:
    by = new - was
    hour = day_and_hour(clock.local(new), now.date())
    return f"{name} {hour} ({span(abs(by))} {'later' if by > 0 else 'sooner'})"


