"""The steps ahead of a dough that stands somewhere: cut and shaped, into the fridge or not, through the oven."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from assistant.engine.course.air import Air
from assistant.engine.course.follow import Follower
from assistant.engine.plan.blocks import Block
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.course import Course
from assistant.engine.plan.steps import Plan, Task

_NEVER_BUSY = Spans((), ())


@dataclass(frozen=True, slots=True)
class Ahead:
    """Steps in minutes of the clock. begins: where the stage before them ends, if they settle that themselves."""

    tasks: tuple[Task, ...]
    begins: float | None = None


def steps_ahead(
    air: Air,
    dough: Follower,
    plan: Plan | None,
    then: str,
    begins: int,
    stops: tuple[float, float],
    ready_by: int | None = None,
    busy: Spans = _NEVER_BUSY,
) -> Ahead | None:
    """What comes from minute `begins` on, when the stage under way has ended.

    then: "mix", "divide", "shape", "cold", "out" (of the fridge) or "finish"; plan: one whose stretch in the fridge is
    still to come. None where the dough never rises.
    """
    day = air.latest
    batch = replace(day.batch, rise_bulk_pct=stops[0], rise_proof_pct=stops[1])
    day = replace(day, batch=batch)
    ferments = replace(dough.dough, pace=dough.dough.pace * dough.speed)
    course = Course(day, ferments, dough.temp_c, 0)
    state = dough.state._replace(at_min=0.0)
    cold = plan is not None
    block: Block | None
    if then == "mix":
        block = course.whole(begins)
    elif then == "finish":
        block = course.finish()
    elif then == "out":
        where = "shaped" if dough.in_pieces else "bulk"
        block = course.back(begins, "shaped" if where == "shaped" else "bulk", stops[1], state, dough.temp_c)
        if block is None:  # gone past its mark: it is worked or baked at once
            block = course.finish() if where == "shaped" else course.shaped_on(begins, state, dough.temp_c)
    elif then == "cold":
        assert plan is not None
        return _into_cold(course, dough, plan, begins, (), ready_by, busy)
    elif cold:
        assert plan is not None
        front = course.cut_and_shaped(begins, state, dough.temp_c, then == "shape")
        wait = _planned_wait(plan)
        there = _after(dough, front, begins + front.minutes)
        tasks = tuple(task.later(begins) for task in front.tasks)
        shaped_at = begins + front.minutes
        if wait > 0:
            proof = Task("proof", shaped_at, wait, day.air_c(shaped_at), rise_pct=stops[1], note="the rest in the cold")
            tasks = (*tasks, proof)
            there.to(shaped_at + wait)
        return _into_cold(course, there, plan, shaped_at + wait, tasks, ready_by, busy)
    else:
        block = course.shaped_on(begins, state, dough.temp_c, then == "shape")
    return None if block is None else Ahead(tuple(task.later(begins) for task in block.tasks))


def free_from(busy: Spans, minute: int) -> int:
    """The minute itself where somebody is there, else the first after it."""
    ends = [end for start, end in zip(busy.starts, busy.ends, strict=True) if start <= minute < end]
    return math.ceil(ends[0]) if ends else minute


def _after(dough: Follower, front: Block, at: int) -> Follower:
    """The dough as the block left it."""
    path = dough.day.path(at, front.temp_c, dough.day.piece_tau_h)
    there = replace(dough, at=float(at), state=front.state._replace(at_min=0.0), path=path, began=float(at), history=[])
    there.in_pieces = True
    there.count_from_here()
    return there


def _planned_wait(plan: Plan) -> int:
    """Minutes between the shaping and the fridge by the plan."""
    done, cold = plan.last("shape"), plan.last("retard")
    return 0 if done is None or cold is None else max(0, cold.at - done.end)


_LEAST_COLD = 0.6


def _into_cold(
    course: Course,
    dough: Follower,
    plan: Plan,
    begins: int,
    before: tuple[Task, ...],
    ready_by: int | None,
    busy: Spans,
) -> Ahead | None:
    """Into the fridge at `begins`, out so that it is ready at its hour: the cold takes up what it can."""
    day = course.day
    planned = plan.last("retard")
    assert planned is not None
    high = max(day.batch.process.retard_high_h * 60, planned.minutes)
    least = min(_LEAST_COLD * planned.minutes, 60 * day.batch.process.retard_low_h) or 60.0
    wanted = plan.ready_min if ready_by is None else ready_by
    minutes = max(planned.end - begins, least)
    tau_h = day.piece_tau_h if dough.in_pieces else day.tub_tau_h
    back: Block | None = None
    for _ in range(5):
        minutes = float(free_from(busy, begins + math.ceil(min(max(minutes, least), high))) - begins)
        there = dough.another()
        there.to(begins)
        there.lay(day.cold_path(there.temp_c, tau_h))
        there.to(begins + minutes)
        state = there.state._replace(at_min=0.0)
        where = "shaped" if dough.in_pieces else "bulk"
        out = begins + int(minutes)
        mark = day.batch.rise_proof_pct
        back = course.back(out, "shaped" if where == "shaped" else "bulk", mark, state, there.temp_c)
        if back is None:
            back = course.finish() if where == "shaped" else course.shaped_on(out, state, there.temp_c)
        if back is None:
            return None
        off = wanted - (out + back.minutes)
        if off == 0 or not least <= minutes + off <= high:
            if off and minutes != min(max(minutes + off, least), high):
                minutes = min(max(minutes + off, least), high)
                continue
            break
        minutes += off
    assert back is not None
    out = begins + int(minutes)
    cold = Task("retard", begins, int(minutes), day.kitchen.fridge_c)
    return Ahead((*before, cold, *(task.later(out) for task in back.tasks)))


def finishing(air: Air, stage: str, minute: float, ends: int, here: int, rest: int) -> Ahead:
    """The loads that follow the one in the pot or the oven, and the rack behind them.

    stage: "boil" or "bake", where that one is; minute: the present; ends: when it leaves there, now where it should
    have left already; here, rest: its pieces, and those still to come.
    """
    day = air.latest
    tasks: list[Task] = []
    free = ends
    if stage == "boil":
        tasks.append(Task("bake", ends, math.ceil(day.batch.bake_min), day.batch.oven_c, here))
        free = tasks[0].end
    if rest < 1:
        return Ahead((*tasks, Task("cool", free, day.cool_min, day.kitchen.room_c)))
    left = replace(day, batch=replace(day.batch, pieces=rest))
    block = Course(left, left.batch.dough, left.batch.process.dough_c, 0).finish()
    rows = [task for task in block.tasks if task.step not in ("preheat", "heat_pot", "score")]
    first_in = min(task.at for task in rows if task.step == "bake")
    change = math.ceil(day.trade.work["change"].minutes)
    shift = max(free + change - first_in, math.ceil(minute) - min(task.at for task in rows))
    return Ahead((*tasks, *(task.later(shift) for task in rows)))
