"""No plan keeps what was asked: why, the nearest that can be kept, and whether a warm place would help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from assistant.answers.plan_reply import fields_of
from assistant.answers.plan_said import Settled, trade_of
from assistant.answers.plan_words import levers, shown_steps, span
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.limits import WARM_MOST_MIN
from assistant.engine.plan.search import Miss, plan
from assistant.engine.plan.steps import Plan
from assistant.engine.refusal import Refused
from assistant.room import Room


def refusal(miss: Miss, said: Settled, room: Room, notes: Sequence[str] = ()) -> Refused:
    clock = Clock(said.wish.now)
    asked = said.wish.ready_by
    hour = asked.strftime("%a %H:%M") if asked is not None else ""
    if miss.limit == "past":
        return Refused(f"{hour} has gone by: it is {room.now.strftime('%a %H:%M')}", "an hour still to come")
    name = said.bread.name.lower()
    nearest = None
    fields: dict[str, Any] | None = None
    if miss.nearest is not None:
        shown = shown_steps(miss.nearest, said, room.kb, clock)
        fields = fields_of(miss.nearest, said, shown, clock)
        nearest = _nearest_words(miss.nearest, said, clock)
    if miss.limit == "late" and miss.nearest is not None:
        why = f"nothing gets {name} ready by {hour}: the soonest is {span(miss.minutes)} later"
    elif miss.limit == "early" and miss.nearest is not None:
        why = f"no plan ends within 45 min before {hour}: the nearest is {span(miss.minutes + 45)} early"
    elif miss.limit == "warm":
        why = f"a dough with egg or milk would stand warm for more than {WARM_MOST_MIN // 60} h with starter alone"
        nearest = nearest or "a little yeast beside the starter, or a dough without egg and milk"
    elif miss.limit == "taken":
        why = "the hours that are taken leave no room for the work"
        nearest = nearest or "fewer hours taken, or a later hour"
    elif miss.limit == "never":
        why = f"this dough does not get there in a kitchen of {round(said.kitchen.room_c, 1):g} °C"
        nearest = nearest or "a warmer place for the dough, or more starter"
    else:
        why = f"no plan is ready by {hour}"
        nearest = nearest or "a later hour, or fewer hours taken"
    warm = _warm_place(miss, said, room)
    return Refused(why, " ".join(part for part in (nearest, warm, *notes) if part), fields)


def _nearest_words(nearest: Plan, said: Settled, clock: Clock) -> str:
    moved = levers(nearest, said)
    start = clock.local(nearest.start_min).strftime("%a %H:%M")
    ready = clock.local(nearest.ready_min).strftime("%a %H:%M")
    first = nearest.tasks[0].step.replace("_", " ")
    return f"nearest: {first} at {start}, ready {ready}" + (f"; {moved[0]}." if moved else ".")


def _warm_place(miss: Miss, said: Settled, room: Room) -> str:
    """Whether a warm place would keep the hour."""
    if miss.limit != "late" or said.kitchen.room_c >= 24:
        return ""
    warm = replace(said.kitchen, room_c=26.0, night_c=None)
    found = plan(said.batch, warm, said.wish, trade_of(room.kb))
    return "In a place of 26 °C (oven with only its lamp on) the hour can be kept." if isinstance(found, Plan) else ""
