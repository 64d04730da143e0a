"""The starter between bakes: its pace kept, what to do with it while away, how often to feed it, little discard."""

from __future__ import annotations

import math

from assistant.answers import answers
from assistant.answers.fermentation_models import models
from assistant.engine.starter import Culture, pace_of_culture
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said, hours_said
from grammar.requests.feed_care import AwayRequest, DiscardRequest, PaceRequest
from knowledge.records.starter_care import StarterCare


@answers(PaceRequest)
def pace(request: PaceRequest, room: Room) -> Outcome:
    """The culture's own pace, kept as a setting; every forecast then goes by it with a narrower range."""
    m = models(room.kb)
    temp_c = request.temp_c if request.temp_c is not None else room.kitchen_c
    ratio = request.ratio or (1.0, 1.0, 1.0)
    assumed = tuple(
        word
        for word, said in ((f"kitchen {degrees_said(temp_c)}", request.temp_c), ("a feed of 1:1:1", request.ratio))
        if said is None
    )
    setting = room.setting("starter_hydration_pct")
    culture = Culture(hydration_pct=float(setting) if setting is not None else 100.0)
    value = round(pace_of_culture(m.k, m.habits, culture, ratio, temp_c, request.minutes, request.rise_pct), 3)
    seen = "peaked" if request.rise_pct is None else f"rose by {request.rise_pct:.0f} %"
    quick = f"{abs(value - 1) * 100:.0f} % {'faster' if value >= 1 else 'slower'} than the usual one"
    parts = ":".join(f"{part:g}" for part in ratio)
    text = (
        f"Kept: your culture is {quick} ({parts} {seen} after {hours_said(request.minutes)} at "
        f"{degrees_said(temp_c)}). Times go by it from now on, with a narrower range."
    )
    blocks = [Line(text)]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    return Outcome(
        "setting", {"name": "culture_pace", "value": value},
        f"the starter fed {parts} {seen} after {hours_said(request.minutes)} at {degrees_said(temp_c)}",
        Page(tuple(blocks)), assumed=assumed, bench=room.bench.with_settings({"culture_pace": value}, room.stamp()),
        change={"what": "setting", "names": ["culture_pace"], "values": [value]},
        sources=(m.records["culture_pace"].source,),
    )  # fmt: skip


@answers(AwayRequest)
def away(request: AwayRequest, room: Room) -> Outcome:
    """How to keep the starter for so long."""
    days = request.minutes / 1440 if request.minutes is not None else 14.0
    ways = sorted(
        (one for one in room.kb.all(StarterCare).values() if one.up_to_days is not None),
        key=lambda one: one.up_to_days or math.inf,
    )
    chosen = next((one for one in ways if (one.up_to_days or 0) >= days), ways[-1])
    length = f"{days / 7:.0f} weeks" if days >= 14 else f"{days:.0f} days"
    return _care(
        chosen,
        f"Away {length}: the fridge" if chosen.id != "months" else f"Away {length}: dry it",
        f"keep the starter for {length}",
    )


@answers(DiscardRequest)
def discard(request: DiscardRequest, room: Room) -> Outcome:
    """How to throw little away."""
    if request.often:
        return _care(room.kb.all(StarterCare)["how_often"], "Feeding, how often", "how often to feed the starter")
    return _care(room.kb.all(StarterCare)["little_discard"], "Little discard", "how to make less discard")


def _care(care: StarterCare, title: str, read_as: str) -> Outcome:
    blocks = (
        Line(f"{title}.", role="head"),
        *(Line(f"{n}. {step[0].upper()}{step[1:]}.") for n, step in enumerate(care.steps, 1)),
    )
    text = " ".join(f"{step[0].upper()}{step[1:]}." for step in care.steps)
    return Outcome(
        "explanation", {"topic": care.title, "text": f"{title}. {text}"}, read_as, Page(blocks), sources=(care.source,),
        cautions=("Mould, or pink, orange or red streaks: throw it all out and start anew.",),
    )  # fmt: skip
