"""No plan keeps what was asked: why, the nearest that can be kept, and whether a warm place would help."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.dough_said import piece_name
from assistant.answers.plan_read_as import read_as
from assistant.answers.plan_reply import as_planned, fields_of
from assistant.answers.plan_said import Settled, trade_of
from assistant.answers.plan_words import levers, shown_steps, span
from assistant.answers.what_ferments import fresh_pct
from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.fridge import tub_l
from assistant.engine.plan.limits import WARM_MOST_MIN
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import kept
from assistant.engine.plan.steps import Plan
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bench
from assistant.talk.memory import kept as kept_as_json
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour
from grammar.requests.plan import PlanRequest

_INSTANT_PCT = 1.0
"""Instant yeast, % of flour, that a same-day dough usually takes."""


def refusal(miss: Miss, request: PlanRequest, said: Settled, room: Room) -> Refused:
    """The refusal; where the wish stands alone the next line may change it."""
    question = request if request.stands_alone else None
    heard = read_as(request, said)
    clock = Clock(said.wish.now)
    if miss.limit == "past":
        gone, stands = why_of(miss, said, room), _dough_kept(request, said, room)
        return Refused(gone, "an hour still to come", question=question, read_as=heard, kept=stands)
    nearest = None
    fields: dict[str, Any] | None = None
    if miss.nearest is not None:
        planned = as_planned(miss.nearest, said, room)
        shown = shown_steps(miss.nearest, planned, room.kb, clock)
        fields = fields_of(miss.nearest, planned, shown, clock)
        nearest = _nearest_words(miss.nearest, said, clock)
    why = why_of(miss, said, room)
    nearest = nearest or _INSTEAD.get(miss.limit, "a later hour, or fewer hours taken")
    helps = (_with_yeast(miss, said, room), _baked_ahead(miss, said, room))
    told = " ".join(part for part in (nearest, *helps) if part)
    return Refused(why, told, fields, question, heard, _dough_kept(request, said, room))


def _dough_kept(request: PlanRequest, said: Settled, room: Room) -> Bench | None:
    """The bench with the dough in hand that the line gave figures of; None where it only named bread for an hour."""
    pieces = said.batch.pieces
    if not said.fresh or (request.piece_g is None and request.hydration_pct is None):
        return None
    name = piece_name(said.dough, pieces, room.kb) or said.bread.said_as[0]
    return room.bench.with_bake(kept_as_json(said.dough), room.stamp(), f"{pieces} {name}")


_INSTEAD = {
    "warm": "a little yeast beside the starter, or a dough without egg and milk",
    "taken": "fewer hours taken, or a later hour",
    "never": "a warmer place for the dough, or more starter",
}  # fmt: skip
"""What helps where there is no nearest plan, by the limit."""


def why_of(miss: Miss, said: Settled, room: Room) -> str:
    """Which limit binds, in words."""
    asked = said.wish.ready_by
    hour = day_and_hour(asked, room.now.date()) if asked is not None else ""
    name = said.bread.name.lower()
    if miss.limit == "past":
        return f"{hour} has gone by: it is {room.now.strftime('%a %H:%M')}"
    if miss.limit == "late" and miss.nearest is not None:
        return f"nothing gets {name} ready by {hour}: the soonest is {span(miss.minutes)} later"
    if miss.limit == "early" and miss.nearest is not None:
        return f"no plan ends within 45 min before {hour}: the nearest is {span(miss.minutes + 45)} early"
    if miss.limit == "warm":
        return f"a dough with egg or milk would stand warm for more than {WARM_MOST_MIN // 60} h with starter alone"
    if miss.limit == "fridge":
        tub = f"{tub_l(said.batch):.0f} l of tub for the bulk"
        whole = tub if said.wish.cold == "bulk" else f"{said.batch.pieces} shaped pieces"
        return f"the fridge does not take {whole}: {miss.minutes} shaped would fit"
    if miss.limit == "taken" and said.wish.busy:
        return "the hours that are taken leave no room for the work"
    if miss.limit == "never":
        return f"this dough does not get there in a kitchen of {round(said.kitchen.room_c, 1):g} °C"
    return f"no plan is ready by {hour}"


def _nearest_words(nearest: Plan, said: Settled, clock: Clock) -> str:
    moved = levers(nearest, said)
    start = day_and_hour(clock.local(nearest.start_min), said.wish.now.date())
    ready = day_and_hour(clock.local(nearest.ready_min), said.wish.now.date())
    first = nearest.tasks[0].step.replace("_", " ")
    return f"nearest: {first} at {start}, ready {ready}" + (f"; {moved[0]}." if moved else ".")


def _with_yeast(miss: Miss, said: Settled, room: Room) -> str:
    """Whether yeast instead of the starter would keep the hour."""
    if miss.limit != "late" or not said.batch.sourdough:
        return ""
    fresh = fresh_pct(room.kb, (("yeast_instant", _INSTANT_PCT),))
    dough = replace(said.batch.dough, starter_pct=0.0, yeast_fresh_pct=fresh)
    yeasted = replace(said.batch, dough=dough, leaven_said=True)
    if kept(said.wish, Courses.of(yeasted, said.kitchen, said.wish, trade_of(room.kb))) is None:
        return ""
    return f"With {_INSTANT_PCT:g} % instant yeast instead of the starter the hour can be kept."


_AHEAD_FROM_MIN = 14 * 60
"""Bread that is wanted sooner than this cannot well be baked before."""


def _baked_ahead(miss: Miss, said: Settled, room: Room) -> str:
    """Whether bread baked before, kept (frozen, where that is long) and warmed through would keep the hour."""
    hour = said.wish.ready_by
    if miss.limit not in ("late", "early", "taken") or hour is None or said.wish.ahead:
        return ""
    clock = Clock(said.wish.now)
    if clock.minutes(hour) < _AHEAD_FROM_MIN:
        return ""
    found = plan_ahead(said.batch, said.kitchen, replace(said.wish, ahead=True), trade_of(room.kb))
    if not isinstance(found, Plan) or found.night_min:
        return ""
    baked, warmed = found.last("bake"), found.last("refresh")
    if baked is None or warmed is None:
        return ""
    out = day_and_hour(clock.local(baked.end), said.wish.now.date())
    kept_so = "frozen and thawed" if found.last("thaw") is not None else "kept in a bag"
    return f"Baked ahead it can: out of the oven {out}, {kept_so}, warmed through for the hour."
