"""A plan moved along: behind by so much, or at bedtime with the bulk not up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from assistant.answers.plan_kept import TOPIC, WAYS, made_then, plan_again, plan_kept, standing
from assistant.answers.plan_reply import iso, outcome_of
from assistant.answers.plan_said import Settled, trade_of
from assistant.answers.plan_words import span
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day
from assistant.engine.plan.late import delayed
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.ways import Way, ways_on
from assistant.engine.refusal import Refused
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.moments import latest, resolve
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_kind import WAY

COOL_CORNER_C = 15.0
MORNING_H = 7


def late(request: PlanRequest, room: Room) -> Outcome:
    """The last plan, behind by so much; `Refused` where there is no plan to move."""
    memory = room.bench.notes.get(TOPIC) or {}
    stood = standing(room)
    if stood is None:
        raise Refused("there is no plan to be late for", "ask for one first: 24 rings ready by 9 on Sunday")
    said = made_then(replace(request, late_min=None), memory, room)
    earlier = stood[2]
    clock = Clock(said.wish.now)
    now = room.now.replace(second=0, microsecond=0)
    by = _behind(request, earlier, clock, now)
    moved = delayed(earlier, max(0, int(clock.minutes(now))), by, clock.spans(said.wish.busy))
    notes = []
    if moved.absorbed_min:
        notes.append(f"the fridge takes up {span(moved.absorbed_min)}: what comes after it stays where it was.")
    if moved.later_min:
        notes.append(f"ready {span(moved.later_min)} later than before.")
    notes += [f"{task.step.replace('_', ' ')} now falls into taken hours." for task in moved.clashes[:2]]
    cold = sum(task.minutes for task in moved.plan.tasks if task.step == "retard")
    plan_now = replace(moved.plan, cold_min=cold, cold="shaped" if cold else "none")
    return outcome_of(request, said, plan_now, room, said.assumed, notes)


def _behind(request: PlanRequest, earlier: Plan, clock: Clock, now: datetime) -> int:
    """Minutes the plan is behind: from the hour the dough is really mixed, where that was said, else as said."""
    said = round(request.late_min or 0)
    mix = next((task for task in earlier.tasks if task.step == "mix"), None)
    if request.start is None or mix is None:
        return said
    local = now.replace(tzinfo=None)
    hours = (resolve(request.start, local), latest(request.start, local))
    behind = [round(clock.minutes(hour)) - mix.at for hour in hours]
    return min((one for one in behind if one > 0), key=lambda one: abs(one - said), default=said)


def chosen(request: PlanRequest, room: Room) -> Outcome | None:
    """The plan of the way on that was picked by its number, its name, or the cold said; None where none was offered."""
    memory = room.bench.notes.get(TOPIC) or {}
    offered = memory.get(WAYS)
    if not offered:
        return None
    names = [one["way"] for one in offered]
    wanted = _alike(request.way, names) or _by_the_cold(request, room, names)
    if wanted is None:
        return None
    if wanted.isdigit() and int(wanted) > len(offered):
        raise Refused(f"there are {len(offered)} ways on", "say which: the first, or the fridge, the bench")
    if not wanted.isdigit() and wanted not in names:
        raise Refused(f"that way brings no bread by this dough: {' and '.join(names)} do", "say which of them")
    way = offered[int(wanted) - 1 if wanted.isdigit() else names.index(wanted)]
    name = way["way"]
    cold = name if name in ("none", "bulk", "shaped", "both") else None
    request = replace(request, way=None, cold=cold, ahead=name == "ahead")
    said = made_then(request, memory, room)
    found = plan_again(way["plan"], said.wish.now)
    outcome = outcome_of(request, said, found, room, said.assumed, risk=way["risk"])
    return offering(outcome, offered)


_ALIKE = {"fridge": ("fridge", "shaped", "bulk"), "some": ("fridge", "shaped", "bulk"), "bulk": ("fridge", "bulk")}


def _alike(wanted: str | None, names: Sequence[str]) -> str | None:
    """The first of the ways offered that goes by this name, or is one of its kind; the name itself where none is."""
    return next((name for name in _ALIKE.get(wanted or "", ()) if name in names), wanted)


def _by_the_cold(request: PlanRequest, room: Room, names: Sequence[str]) -> str | None:
    """The way that goes cold as the line says, where it says that and nothing else."""
    stood = recalled(room.bench.stood(TOPIC))
    if not isinstance(stood, PlanRequest) or request.cold is None or replace(request, cold=stood.cold) != stood:
        return None
    wanted = _alike(request.cold, names)
    return wanted if wanted in names else None


def offering(outcome: Outcome, offered: Sequence[Mapping[str, Any]]) -> Outcome:
    """The ways stay on offer: another may be picked yet."""
    if outcome.bench is None:
        return outcome
    memory = {**outcome.bench.notes[TOPIC], WAYS: list(offered)}
    return replace(outcome, bench=outcome.bench.with_notes(TOPIC, memory), asked=(WAY,))


def bedtime(request: PlanRequest, said: Settled, room: Room) -> Outcome:
    """The ways on for a bulk that is not up at bedtime, side by side; the plan is the first of them."""
    clock = Clock(said.wish.now)
    day = Day(said.batch, said.kitchen, trade_of(room.kb), clock)
    course = Course(day, said.batch.dough, said.batch.process.dough_c, 0)
    local = said.wish.now.replace(tzinfo=None)
    wake = local.replace(hour=MORNING_H, minute=0) + timedelta(days=0 if local.hour < MORNING_H else 1)
    sleep = next((busy for busy in said.wish.busy if busy.why == "asleep"), None)
    if sleep is not None:
        wake = wake.replace(hour=sleep.end.hour, minute=sleep.end.minute)
    morning = int(clock.minutes(wake))
    cool_c = min(COOL_CORNER_C, said.kitchen.room_c - 4)
    found = ways_on(day, course, request.risen_pct or 0.0, morning, cool_c)
    if not found:
        raise Refused("a dough this far on does not keep until the morning", "shape it now and put it in the fridge")
    plans = [_plan_of(way, said, course) for way in found]
    up_at = f"up at {wake.strftime('%H:%M')}"
    outcome = outcome_of(request, said, plans[0], room, (*said.assumed, up_at), risk=found[0].risk)
    offered = [
        {"way": way.name, "risk": way.risk, "plan": plan_kept(one)} for way, one in zip(found, plans, strict=True)
    ]
    outcome = offering(outcome, offered)
    rows = tuple(f"{n}. {_way_name(way, cool_c)}: {_way_words(way, clock)}" for n, way in enumerate(found, 1))
    blocks: tuple[Block, ...] = (
        Line(f"+{request.risen_pct:.0f} % of the +{said.batch.rise_bulk_pct:.0f} % wanted. Ways on:", role="head"),
        *(Line(row) for row in rows),
        *(replace(block, more=True) for block in outcome.page.blocks),
    )
    ways = [
        {
            "way": way.name,
            "rise_pct": way.risen_pct,
            "up_at": None if way.up_min is None else iso(clock.local(way.up_min)),
            "ready_at": iso(clock.local(way.ready_min)),
            "risk": way.risk,
        }
        for way in found
    ]
    return replace(outcome, answer={**outcome.answer, "ways": ways}, page=Page(blocks))


def _plan_of(way: Way, said: Settled, course: Course) -> Plan:
    """A way as a plan of its own."""
    cold_min = sum(task.minutes for task in way.tasks if task.step == "retard")
    dough = said.batch.dough
    return Plan(
        now=said.wish.now, tasks=tuple(sorted(way.tasks, key=lambda task: task.at)), moves=(), night_min=0.0,
        warm_min=0.0, leaven_pct=dough.starter_pct or dough.yeast_fresh_pct, dough_c=course.dough_c,
        cold="bulk" if cold_min else "none", cold_min=cold_min, water_c=None, starter_fed=False,
    )  # fmt: skip


def _way_name(way: Way, cool_c: float) -> str:
    return {"fridge": "fridge now", "cool": f"coolest corner, {cool_c:.0f} °C", "bench": "left on the bench"}[way.name]


def _way_words(way: Way, clock: Clock) -> str:
    over = "over +200 %" if way.risen_pct > 200 else f"+{way.risen_pct:.0f} %"
    return f"{over} by the morning, ready {clock.local(way.ready_min).strftime('%a %H:%M')}; {way.risk}"
