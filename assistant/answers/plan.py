"""A plan by the clock: every step with its hours, what was moved to keep what was asked, and what to watch."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.plan_moved import bedtime, chosen, late
from assistant.answers.plan_refused import refusal
from assistant.answers.plan_reply import one_dough, outcome_of
from assistant.answers.plan_said import settled, trade_of
from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.search import Miss, plan
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from grammar.requests.plan import PlanChange, PlanRequest

COLDEST_C, WARMEST_C = 1.0, 42.0


@answers(PlanRequest)
@answers(PlanChange)
def answer(request: PlanRequest, room: Room) -> Outcome:
    """The plan for a wish, the last plan moved along, or the ways on at bedtime."""
    if request.kitchen_c is not None and not COLDEST_C <= request.kitchen_c <= WARMEST_C:
        hot = request.kitchen_c > WARMEST_C
        raise Refused(
            f"at {request.kitchen_c:.0f} °C {'the leaven dies' if hot else 'nothing rises'}",
            f"a kitchen between {COLDEST_C:g} and {WARMEST_C:g} °C",
        )
    if request.late_min is not None:
        moved = late(request, room)
        if moved is not None:
            return moved
    picked = chosen(request, room)
    if picked is not None:
        return picked
    said = settled(request, room)
    if request.bedtime and request.risen_pct is not None:
        return bedtime(request, said, room)
    make = plan_ahead if said.wish.ahead and said.wish.ready_by is not None else plan
    found = make(said.batch, said.kitchen, said.wish, trade_of(room.kb))
    notes: tuple[str, ...] = ()
    if isinstance(found, Miss) and said.wish.start_exact and said.wish.ready_by is not None:
        said = replace(said, wish=replace(said.wish, start_exact=False))
        found = make(said.batch, said.kitchen, said.wish, trade_of(room.kb))
        notes = ("begun at the hour you said it is not ready within 45 min before the other: it begins later.",)
    if isinstance(found, Miss):
        raise refusal(found, said, room, one_dough(request))
    return outcome_of(request, said, found, room, said.assumed, notes)
