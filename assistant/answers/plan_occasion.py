"""An occasion at another hour moves every dough that was planned for it, not the one in hand alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from assistant.answers.course_kept import marked
from assistant.answers.plan_kept import standing
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bake
from assistant.talk.doughs import short_label, under_way
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_follow import followed

Answer = Callable[[PlanRequest, Room], Outcome]
_SAME_MIN = 60
"""Doughs planned to be ready so near to each other are for one occasion."""


def planned_in_hand(request: PlanRequest, room: Room) -> tuple[Room, PlanRequest]:
    """The room with a dough in hand whose hour there is to change, the newest that has one where the one in hand has
    none and nothing was told of it; and the whole wish for that dough."""
    if standing(room) is not None or marked(room):
        return room, request
    for bake in reversed(under_way(room.bench, room.now)):
        there = replace(room, bench=room.bench.taking(bake.id))
        stood = standing(there)
        if stood is not None:
            return there, followed(request, stood[0])
    return room, request


def with_the_others(moved: Outcome, request: PlanRequest, room: Room, answer: Answer) -> Outcome:
    """The outcome with the other doughs of the same hour moved too, and those without an hour named."""
    earlier, own = standing(room), room.bench.in_hand
    if earlier is None or moved.bench is None or own is None:
        return moved
    was, now = earlier[0], (request.ready, request.shift_min)
    if now == (was.ready, was.shift_min) or request.doughs or moved.kind != "plan":
        return moved
    bench, blocks = moved.bench, list(moved.page.blocks)
    for bake in _others(room):
        there = replace(room, bench=bench.taking(bake.id))
        found = _moved(there, request, _ready(room), answer)
        if found is None:
            continue
        told, outcome = found
        blocks += [Line(f"{short_label(bake)}: {told}", role="head")]
        bench = (outcome.bench or there.bench) if outcome is not None else bench
        blocks += list(_shown(outcome))
    return replace(moved, bench=bench.taking(own), page=Page(tuple(blocks)))


def _others(room: Room) -> Iterator[Bake]:
    return (bake for bake in under_way(room.bench, room.now) if bake.id != room.bench.in_hand)


def _moved(there: Room, request: PlanRequest, hour: float | None, answer: Answer) -> tuple[str, Outcome | None] | None:
    """What becomes of another dough: moved too, kept, or without an hour of its own. None where it is another day's."""
    ready = _ready(there)
    if ready is None:
        return "no hour was asked for it, it stays as it is.", None
    if hour is None or abs(ready - hour) > _SAME_MIN * 60:
        return None
    stood = standing(there)
    assert stood is not None
    try:
        outcome = answer(replace(stood[0], ready=request.ready, shift_min=request.shift_min), there)
    except Refused as why:
        return f"not moved: {why.why}", None
    return "moved too, by itself (“plan both together” puts them in one oven).", outcome


def _ready(room: Room) -> float | None:
    """When the plan of the dough in hand has it ready, seconds of the calendar."""
    stood = standing(room)
    return None if stood is None else Clock(stood[1].wish.now).local(stood[2].ready_min).timestamp()


def _shown(outcome: Outcome | None) -> tuple[Block, ...]:
    return () if outcome is None else tuple(outcome.page.blocks)
