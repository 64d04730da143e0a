"""How far a dough or a starter will have risen after a time, or has by now."""

from __future__ import annotations

import math
from typing import Any

from assistant.answers.rise_setup import RiseSetup, begins_in_min, rise_setup
from assistant.answers.rising_times import NAMES, SOURCES, where_said
from assistant.engine.fermentation import advance, minutes_to, minutes_to_ripe, rise_pct
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.local_time import minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import hours_said
from grammar.moments import resolve
from grammar.requests.timing import TimingRequest


def how_far(request: TimingRequest, room: Room, stage: str) -> Outcome:
    """The rise in percent after the time said (or gone), with its range, and how much longer the stage then has."""
    minutes = _after_min(request, room)
    if minutes is None or minutes <= 0:
        raise Refused("how long it has been was not said", "for example: 4 h at 25 °C with 20 % starter")
    setup = rise_setup(request, room, stage)
    k, dough = setup.m.k, setup.ferment.dough
    spread = (k.spread_timed if setup.ferment.timed else k.spread_untimed) if dough.starter_pct > 0 else k.spread_bakers
    low, middle, high = (_risen(setup, minutes, speed) for speed in (1 / spread, 1.0, spread))
    state = advance(k, dough, setup.begun, setup.path, minutes)
    if setup.rise is None:
        left = minutes_to_ripe(k, dough, setup.path, state)
    else:
        left = minutes_to(k, dough, setup.path, setup.rise, state)
    fields: dict[str, Any] = {
        "stage": stage, "minutes": minutes, "low_min": minutes, "high_min": minutes, "temp_c": setup.air_c,
        "rise_pct": middle, "rise_low_pct": low, "rise_high_pct": high, "starter_pct": dough.starter_pct,
        "yeast_fresh_pct": dough.yeast_fresh_pct, "hydration_pct": dough.hydration_pct, "salt_pct": dough.salt_pct,
        "left_min": left if math.isfinite(left) else None, "dough_ends_c": setup.path.temp_c(minutes),
        "solved": "rise_pct",
    }  # fmt: skip
    goal = "ripe" if setup.rise is None else f"+{figure(setup.rise)} %"
    there = f"{goal}: there by then"
    if left > 1:
        there = f"To {goal} ({setup.why_rise}) it then has about {hours_said(left)}"
    blocks = [
        Line(
            f"{NAMES[stage]} {where_said(setup.around)}: after {hours_said(minutes)} risen by about {_tens(middle)} % "
            f"({_tens(low)} to {_tens(high)} %).",
            role="head",
        ),
        Line(f"{there}."),
    ]
    if setup.assumed:
        blocks.append(Line("Assumed: " + "; ".join(setup.assumed) + ".", role="note"))
    read_as = ", ".join(
        (f"how far up after {hours_said(minutes)}: {stage.replace('_', ' ')}", where_said(setup.around),
         *setup.ferment.given)
    )  # fmt: skip
    return Outcome(
        "timing", fields, read_as, Page(tuple(blocks)), assumed=setup.assumed,
        sources=tuple(dict.fromkeys(setup.m.records[name].source for name in SOURCES)),
    )  # fmt: skip


def _after_min(request: TimingRequest, room: Room) -> float | None:
    begins = begins_in_min(request, room)
    if request.asked_min is not None or request.elapsed_min is not None:
        return request.asked_min if request.asked_min is not None else request.elapsed_min
    if request.until is not None:
        minutes = minutes_until(room.now, resolve(request.until, room.now))
        return minutes - (begins or 0.0)
    return -begins if begins is not None and begins < 0 else None


def _risen(setup: RiseSetup, minutes: float, speed: float) -> float:
    k, dough = setup.m.k, setup.ferment.dough
    return rise_pct(k, dough, advance(k, dough, setup.begun, setup.path, minutes, speed))


def _tens(pct: float) -> str:
    """A rise no finer than anybody can see it."""
    return f"{round(pct / 5) * 5:.0f}" if pct >= 5 else "0"
