"""Bedtime with a bulk not yet up: the ways on, side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from assistant.engine.fermentation import advance, minutes_to, mixed, rise_pct
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day, near
from assistant.engine.plan.steps import Task
from assistant.engine.rising import State
from assistant.engine.temperature_path import relaxing

_GONE_TOO_FAR = 1.6
_TOO_FAR_POINTS = 40.0
"""Past this share of its mark, and by so many points, a dough has lost its strength."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way through the night. risen_pct: by the morning; up_min: minutes from now until it is up (None: past it);
    ready_min: minutes from now until the bread is ready; risk in words."""

    name: Literal["fridge", "bench", "cool"]
    risen_pct: float
    up_min: int | None
    ready_min: int
    risk: str
    tasks: tuple[Task, ...]


def state_at_rise(course: Course, day: Day, risen: float) -> tuple[State, float]:
    """The dough as it stands when it has risen so far in this kitchen, and its temperature."""
    k = day.trade.kinetics
    path = relaxing(course.dough_c, day.kitchen.room_c, day.tub_tau_h)
    minutes = minutes_to(k, course.dough, path, max(0.5, risen))
    minutes = 600.0 if math.isinf(minutes) else minutes
    state = advance(k, course.dough, mixed(k, course.dough), path, minutes)
    return state._replace(at_min=0.0), path.temp_c(minutes)


def ways_on(day: Day, course: Course, risen: float, morning: int, cool_c: float) -> tuple[Way, ...]:
    """Into the fridge now, left on the bench, or in the coolest corner (`cool_c`), with what each brings by `morning`
    (minutes from now). Ways that end in no bread are left out; the fridge first."""
    state, dough_c = state_at_rise(course, day, risen)
    mark = day.batch.rise_bulk_pct
    ways = [
        way
        for way in (
            _fridge(day, course, state, dough_c, morning, mark),
            _air(day, course, state, dough_c, morning, mark, "cool", cool_c),
            _air(day, course, state, dough_c, morning, mark, "bench", day.kitchen.room_c),
        )
        if way is not None
    ]
    return tuple(ways)


def _fridge(day: Day, course: Course, state: State, dough_c: float, morning: int, mark: float) -> Way | None:
    k = day.trade.kinetics
    path = day.cold_path(dough_c, day.tub_tau_h)
    out = advance(k, course.dough, state, path, morning)
    risen = rise_pct(k, course.dough, out)
    out = out._replace(at_min=0.0)
    block = course.back(morning, "bulk", day.batch.rise_proof_pct, out, path.temp_c(morning))
    block = block or course.shaped_on(morning, out, path.temp_c(morning))
    if block is None:
        return None
    warm = next((task.minutes for task in block.tasks if task.step == "warm_up"), 0)
    tasks = (Task("retard", 0, morning, day.kitchen.fridge_c), *(task.later(morning) for task in block.tasks))
    risk = "cold dough: it needs a while in the warm before it lets itself be shaped"
    if risen > mark * 1.25:
        risk = "it goes past its mark even in the cold: shape it first thing, straight from the fridge"
    return Way("fridge", risen, None if risen >= mark else morning + warm, morning + block.minutes, risk, tasks)


def _air(
    day: Day,
    course: Course,
    state: State,
    dough_c: float,
    morning: int,
    mark: float,
    name: Literal["bench", "cool"],
    air_c: float,
) -> Way | None:
    k = day.trade.kinetics
    path = relaxing(dough_c, air_c, day.tub_tau_h)
    out = advance(k, course.dough, state, path, morning)
    risen = rise_pct(k, course.dough, out)
    up = minutes_to(k, course.dough, path, mark, state)
    if math.isinf(up):
        return None
    at = max(morning, near(up))
    if at > morning:
        out = advance(k, course.dough, out, path, at - morning)
    block = course.shaped_on(at, out._replace(at_min=0.0), path.temp_c(at))
    if block is None:
        return None
    tasks = (Task("bulk", 0, at, air_c, rise_pct=mark), *(task.later(at) for task in block.tasks))
    if risen > max(mark * _GONE_TOO_FAR, mark + _TOO_FAR_POINTS):
        hours, minutes = divmod(near(up), 60)
        after = f"{hours} h {minutes:02d} min" if hours else f"{minutes} min"
        risk = f"it is up after {after} and goes too far before the morning"
    elif risen > mark * 1.25:
        risk = "it goes a little past its mark: shape it first thing"
    elif risen < mark:
        risk = "not up by the morning: the bread is later"
    else:
        risk = "up about when you are: look as soon as you wake"
    return Way(name, risen, near(up), at + block.minutes, risk, tasks)
