"""A plan by the clock: every step with its hours, what was moved to keep what was asked, and what to watch."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.plan_class import BEGUN_BEFORE, begun_before, with_places
from assistant.answers.plan_fed import with_fed_starter
from assistant.answers.plan_kept import standing
from assistant.answers.plan_moved import bedtime, chosen, late
from assistant.answers.plan_occasion import planned_in_hand, with_the_others
from assistant.answers.plan_refused import refusal
from assistant.answers.plan_reply import outcome_of
from assistant.answers.plan_said import Settled, settled, trade_of
from assistant.answers.plan_side_by_side import ways_of
from assistant.answers.plan_together import answer_together, several
from assistant.answers.replanned import from_here
from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour
from grammar.moments import resolve
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_change import PlanChange
from grammar.requests.plan_guests import NOT_SAID

COLDEST_C, WARMEST_C = 1.0, 42.0


@answers(PlanRequest)
@answers(PlanChange)
def answer(request: PlanRequest, room: Room) -> Outcome:
    """The plan for a wish, or the last one changed; those of the other doughs of the same occasion with it."""
    if not isinstance(room.line, PlanChange):
        return planned(request, room)
    there, request = planned_in_hand(request, room)
    return with_the_others(planned(request, there), request, there, planned)


def planned(request: PlanRequest, room: Room) -> Outcome:
    """The plan for a wish, the last plan moved along, or the ways on at bedtime."""
    if request.kitchen_c is not None and not COLDEST_C <= request.kitchen_c <= WARMEST_C:
        hot = request.kitchen_c > WARMEST_C
        raise Refused(
            f"at {request.kitchen_c:.0f} °C {'the leaven dies' if hot else 'nothing rises'}",
            f"a kitchen between {COLDEST_C:g} and {WARMEST_C:g} °C",
        )
    if request.late_min == NOT_SAID:
        raise Refused("by how much was not said", "say how far behind: 40 min late")
    picked = chosen(request, room) if request.late_min is None else None
    if picked is not None:
        return picked
    under_way = from_here(request, room)
    if under_way is not None:
        return under_way
    request = _after_the_oven(request, room)
    if request.late_min is not None:
        return late(request, room)
    whole = several(request, room)
    if whole is not None:
        jar = "starter in the jar" if whole.jar_g else ""
        unheard = (one for one in ("side by side" if whole.side_by_side else "", jar) if one)
        return answer_together(replace(whole, side_by_side=False, jar_g=None, lost=(*whole.lost, *unheard)), room)
    said = with_fed_starter(settled(request, room), room)
    if request.bedtime and request.risen_pct is not None:
        return bedtime(request, said, room)
    if request.side_by_side:
        return ways_of(request, said, room)
    make = plan_ahead if said.wish.ahead and said.wish.ready_by is not None else plan
    found = make(said.batch, said.kitchen, said.wish, trade_of(room.kb))
    notes: tuple[str, ...] = ()
    hour = said.wish.ready_by
    if isinstance(found, Miss) and request.places and said.wish.start_at is not None:
        said, found = begun_before(said, room)
        notes = (BEGUN_BEFORE,)
    if isinstance(found, Miss) and said.wish.start_exact and hour is not None:
        said, found = _one_hour_kept(said, room)
        by = day_and_hour(hour, room.now.date())
        kept = said.wish.ready_by is not None
        notes = (f"begun then it is not ready by {by}" + (": it begins later." if kept else ", but when it can be."),)
    if isinstance(found, Miss):
        raise refusal(found, request, said, room)
    outcome = outcome_of(request, said, found, room, said.assumed, notes)
    return with_places(outcome, request, said, room) if request.places else outcome


def _after_the_oven(request: PlanRequest, room: Room) -> PlanRequest:
    """The wish with its first load put off until the oven is free, where nothing of the bake is done yet."""
    stood = standing(room)
    if request.oven_from is None:
        return request
    if stood is None:
        raise Refused("there is no plan to put off", "ask for one first: 24 rings ready by 9 on Sunday")
    free = resolve(request.oven_from, room.now.replace(tzinfo=None))
    first = min((task.at for task in stood[2].tasks if task.step == "bake"), default=None)
    late = first is not None and Clock(stood[1].wish.now).local(first) < free
    return replace(request, bake_at=request.oven_from, ready=None, shift_min=None) if late else request


def _one_hour_kept(said: Settled, room: Room) -> tuple[Settled, Plan | Miss]:
    """Where the first step and the bread cannot both have their hour: the start where it is too late, else the end."""
    trade = trade_of(room.kb)
    hour = said.wish.ready_by
    begun = replace(said, wish=replace(said.wish, ready_by=None))
    soonest = plan(begun.batch, begun.kitchen, begun.wish, trade)
    if isinstance(soonest, Plan) and hour is not None and Clock(said.wish.now).local(soonest.ready_min) > hour:
        return begun, soonest
    later = replace(said, wish=replace(said.wish, start_exact=False))
    return later, plan(later.batch, later.kitchen, later.wish, trade)
