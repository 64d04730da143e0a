"""How long a stage takes: by fermentation where something rises, by the bread's row or by practice elsewhere."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.baking_times import boiling_point
from assistant.answers.fermentation_models import models
from assistant.answers.fermenting import fermenting
from assistant.answers.how_far import how_far
from assistant.answers.plain_times import HOLDS_C, plain_time
from assistant.answers.rise_setup import begins_in_min, kitchen_of, target_of
from assistant.answers.rising_times import NAMES, rises
from assistant.answers.solved_for import solved_for
from assistant.engine.fermentation import refuse_if_deadly
from assistant.engine.naming import figure
from assistant.engine.stops import straight_glass
from assistant.talk.local_time import minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.timing_page import glass_page
from grammar.moments import minute_of_day, resolve
from grammar.requests.timing import TimingRequest


@answers(TimingRequest)
def answer(request: TimingRequest, room: Room) -> Outcome:
    """The length of the stage asked about, with its range, what moves it, and where it ends by the clock."""
    stage = request.stage or "bulk"
    if stage == "boiling_point":
        return boiling_point(request, room)
    if request.how_to_see:
        return _see(request, room)
    if stage not in NAMES:
        return plain_time(request, room, stage)
    asked_min = _asked_min(request, room)
    if request.solve == "rise_pct":
        return how_far(request, room, stage)
    if request.solve is not None and asked_min is not None:
        return solved_for(request, lambda tried: rises(tried, room, stage), stage, asked_min)
    if stage in ("bulk", "proof") and _in_a_fridge(request, room):
        held = replace(request, fridge_c=kitchen_of(request, room, models(room.kb))[0])
        return plain_time(held, room, stage)
    return rises(request, room, stage)


def _asked_min(request: TimingRequest, room: Room) -> float | None:
    """How long the stage is to last: said as a length, or from one hour to another."""
    if request.asked_min is not None or request.until is None:
        return request.asked_min
    if (between := _between(request)) is not None:
        return between
    begins = begins_in_min(request, room) or 0.0
    minutes = minutes_until(room.now, resolve(request.until, room.now)) - begins
    return minutes % 1440 if request.until.day is None else minutes


def _between(request: TimingRequest) -> float | None:
    """Minutes from one hour of the dial to another; where neither says which half of the day, under twelve hours."""
    begun, until = request.begun_at, request.until
    if begun is None or until is None or begun.day is not None or until.day is not None:
        return None
    first, last = minute_of_day(begun), minute_of_day(until)
    if first is None or last is None:
        return None
    minutes = float((last - first) % 1440)
    told = any(one.half is not None or one.part is not None or one.sure for one in (begun, until))
    return minutes if told or minutes <= 720 else minutes - 720


def _in_a_fridge(request: TimingRequest, room: Room) -> bool:
    """Whether the dough is simply to lie somewhere as cold as a fridge, which holds it."""
    cold = request.temp_c is not None and 0 <= request.temp_c <= HOLDS_C
    moves = request.later_c is not None or request.fridge_after_min is not None or request.rise_pct is not None
    return cold and not moves and request.elapsed_min is None and request.begun_at is None


def _see(request: TimingRequest, room: Room) -> Outcome:
    """How to see a rise where the bowl does not show it: a sample in a straight glass."""
    m = models(room.kb)
    ferment = fermenting(replace(request, starter_pct=request.starter_pct or 20.0), room)
    rise, why_rise = target_of(request, ferment, m, request.stage if request.stage == "proof" else "bulk", 24.0)
    assert rise is not None
    glass = straight_glass(m.records, rise)
    refuse_if_deadly(m.k, kitchen_of(request, room, m)[0])
    inner = replace(
        request, how_to_see=False, stage=request.stage if request.stage == "proof" else "bulk", rise_pct=rise
    )
    outcome = rises(inner, room, inner.stage or "bulk")
    fields = {**outcome.answer, "sample_g": glass.sample_g, "start_ml": glass.start_ml, "stop_ml": glass.stop_ml}
    return replace(
        outcome,
        answer=fields,
        page=glass_page(rise, why_rise, glass, fields),
        read_as=f"how to see a rise of {figure(rise)} %",
    )
