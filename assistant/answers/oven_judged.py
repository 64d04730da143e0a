"""Whether an oven's heat is right for a bread, by the heat its own row wants, before how long it bakes at that."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.baking_times import baking
from assistant.answers.bread_meant import bread_of
from assistant.engine.oven_settings import FAN_LOWER_C
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from grammar.requests.oven_judged import OvenJudgedRequest
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread

_NEAR_C = 5.0
"""An oven's dial is no truer than this."""
_PUFFS_BY_HEAT_C = 240.0
"""Flatbreads that open do so from here on: the floor has to turn their water to steam before they set."""


@answers(OvenJudgedRequest)
def answer(request: OvenJudgedRequest, room: Room) -> Outcome:
    """The verdict first, then the bake at that heat."""
    bread = bread_of(room, request.bread, request.piece)
    if bread is None:
        raise Refused("which bread it is for was not said", "for example: pitas at 240?")
    timed = TimingRequest(stage="bake", temp_c=request.oven_c, bread=request.bread, fan=request.fan)
    outcome = baking(replace(timed, piece=request.piece), room, bread)
    oven_c = request.oven_c + (FAN_LOWER_C if request.fan else 0.0)
    verdict, said = _verdict(oven_c, bread)
    fields = {**(outcome.answer or {}), "verdict": verdict}
    page = Page((Line(said, role="head"), *outcome.page.blocks))
    read_as = f"whether {degrees_said(request.oven_c)} is right for {bread.name.lower()}"
    return replace(outcome, answer=fields, read_as=read_as, page=page)


def _verdict(oven_c: float, bread: Bread) -> tuple[str, str]:
    """In a word, and as it is said."""
    low, usual, high = bread.oven_c_low, bread.oven_c_usual, bread.oven_c_high
    wants = f"{bread.name} wants {low:.0f} to {high:.0f} °C, usually {usual:.0f}"
    if oven_c < low - _NEAR_C:
        flat = " It will hardly puff: the floor has to be hot." if low >= _PUFFS_BY_HEAT_C else ""
        return "too cool", f"{degrees_said(oven_c)} is too cool: {wants[0].lower()}{wants[1:]}.{flat}"
    if oven_c > high + _NEAR_C:
        return "too hot", f"{degrees_said(oven_c)} is too hot: {wants[0].lower()}{wants[1:]}."
    return "right", f"Yes, {degrees_said(oven_c)} is right: {wants[0].lower()}{wants[1:]}."
