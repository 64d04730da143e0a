"""A dough that came out warmer or colder than meant: what to do with it now, and what its mixing says for next time."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.fermentation_models import Models
from assistant.engine.growth import sourdough_rate
from assistant.engine.naming import figure
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from grammar.requests.water import WaterRequest

_NEAR_C = 0.75
"""As near to the target as a thermometer in dough tells."""


def learned(
    outcome: Outcome, request: WaterRequest, rise_c: float, target_c: float, room: Room, m: Models
) -> Outcome:
    """The water for next time, behind what is to be done now; the rise from mixing is kept as the kitchen's."""
    assert request.came_out_c is not None
    value = round(max(0.0, rise_c), 1)
    lines = (
        Line(_now(request.came_out_c, target_c, m), role="head"),
        Line(f"Mixing warmed it {figure(value)} °C: kept, and reckoned with from now on. Next time:"),
    )
    return replace(
        outcome, page=Page((*lines, *outcome.page.blocks)),
        bench=room.bench.with_settings({"friction_c": value}, room.stamp()),
        change={"what": "setting", "names": ["friction_c"], "values": [value]},
    )  # fmt: skip


def _now(came_out_c: float, target_c: float, m: Models) -> str:
    """What the dough there is does now, and what to do about it."""
    came = degrees_said(came_out_c)
    if abs(came_out_c - target_c) < _NEAR_C:
        return f"{came} is as meant."
    speed = sourdough_rate(m.k, came_out_c) / max(1e-6, sourdough_rate(m.k, target_c))
    if came_out_c > target_c:
        much = f"ferments about {figure(speed)} times as fast as" if speed > 1.05 else "ferments no slower than"
        return f"Now: at {came} it {much} at {degrees_said(target_c)}: look sooner, and stand it cooler."
    return (
        f"Now: at {came} it ferments at about {100 * speed:.0f} % of the pace of {degrees_said(target_c)}: stand it "
        "warmer or give it longer, and go by the rise."
    )
