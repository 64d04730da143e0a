"""The ways to one bread by one hour, side by side; the plan is the first of them and any other may be picked."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.plan_kept import plan_kept
from assistant.answers.plan_moved import offering
from assistant.answers.plan_refused import refusal
from assistant.answers.plan_reply import iso, outcome_of
from assistant.answers.plan_said import Settled, trade_of
from assistant.answers.plan_words import moved_words, span
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.side_by_side import AHEAD, PlanWay, side_by_side
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour
from assistant.voice.page import Block, Line, Page
from grammar.requests.plan import PlanRequest

_NAMES = {
    "none": "no fridge", "shaped": "shaped pieces in the fridge", "bulk": "bulk in the fridge",
    "both": "bulk and pieces in the fridge", AHEAD: "baked ahead, warmed through",
}  # fmt: skip
_COSTS = {
    "none": "mildest", "shaped": "{taste}, a thicker crust", "bulk": "{taste}; shaped cold",
    "both": "{taste}, two trips to the fridge", AHEAD: "a softer crust",
}  # fmt: skip
ALONE = "no other way keeps this."


def ways_of(request: PlanRequest, said: Settled, room: Room) -> Outcome:
    """Up to three ways; a wish that no way keeps is refused as any."""
    trade = trade_of(room.kb)
    found = side_by_side(said.batch, said.kitchen, said.wish, trade)
    if not found:
        only = plan(said.batch, said.kitchen, said.wish, trade)
        if isinstance(only, Miss):
            raise refusal(only, request, said, room)
        return outcome_of(request, said, only, room, said.assumed, (ALONE,))
    if len(found) == 1:
        return outcome_of(request, said, found[0].plan, room, said.assumed, (ALONE,))
    first = replace(said, wish=found[0].wish)
    outcome = outcome_of(request, first, found[0].plan, room, said.assumed)
    clock = Clock(said.wish.now)
    offered = [{"way": way.name, "risk": _night(way) or None, "plan": plan_kept(way.plan)} for way in found]
    rows = [Line(f"{n}. {_words(way, said, clock)}") for n, way in enumerate(found, 1)]
    head = Line(f"{len(found)} ways; the plan is the first, say which to take instead:", role="head")
    blocks: tuple[Block, ...] = (head, *rows, *(replace(block, more=True) for block in outcome.page.blocks))
    ways = [
        {
            "way": way.name,
            "start_at": iso(clock.local(way.plan.start_min)),
            "ready_at": iso(clock.local(way.plan.ready_min)),
            "hands_min": _hands_min(way),
            "night_hands_min": way.plan.night_min,
            "costs": _costs(way, said),
        }
        for way in found
    ]
    return offering(replace(outcome, answer={**outcome.answer, "ways": ways}, page=Page(blocks)), offered)


def _hands_min(way: PlanWay) -> int:
    return sum(task.minutes for task in way.plan.tasks if task.hands_on)


def _costs(way: PlanWay, said: Settled) -> str:
    """What this way does to the bread."""
    return _COSTS[way.name].format(taste="sourer" if said.batch.sourdough else "fuller in taste")


def _words(way: PlanWay, said: Settled, clock: Clock) -> str:
    today = said.wish.now.date()
    begins, ready = (day_and_hour(clock.local(at), today) for at in (way.plan.start_min, way.plan.ready_min))
    parts = (f"{_NAMES[way.name]}: begins {begins}, ready {ready}", f"{span(_hands_min(way))} of work", _night(way))
    return "; ".join(part for part in (*parts, _costs(way, said), *moved_words(way.plan, said)) if part)


def _night(way: PlanWay) -> str:
    return f"{way.plan.night_min:.0f} min of work between 22:00 and 06:00" if way.plan.night_min else ""
