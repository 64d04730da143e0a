"""When something has risen: the forecast of a bulk, a proof, a preferment or a starter, as it is told."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from assistant.answers.fermentation_models import Models
from assistant.answers.fermenting import Fermenting
from assistant.answers.rise_setup import begins_in_min, rise_setup
from assistant.answers.stage_cautions import safety_notes
from assistant.engine.acidity import acidity
from assistant.engine.fermentation import Dough, Forecast, State, advance, forecast, minutes_to, rise_pct
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.stages import Around, stage_path
from assistant.engine.stops import straight_glass
from assistant.engine.temperature_path import Path
from assistant.talk.local_time import later, minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.spans import degrees_said, hours_said
from assistant.voice.timing_page import Told, timing_page
from grammar.moments import resolve
from grammar.requests.timing import TimingRequest

NAMES = {"bulk": "Bulk", "proof": "Proof", "preferment": "The preferment", "starter": "The starter"}
SOURCES = (
    "sourdough_yeast_growth", "acid_bacteria_growth", "bakers_yeast_growth", "bakers_yeast_gas", "sourdough_gas",
    "bakers_yeast_dough",
)  # fmt: skip


def rises(request: TimingRequest, room: Room, stage: str) -> Outcome:
    """How long until the stage has risen as far as it should, with its range and the hour it ends."""
    setup = rise_setup(request, room, stage)
    m, ferment, around, path, rise = setup.m, setup.ferment, setup.around, setup.path, setup.rise
    air_c, own_c, mass_g, assumed = setup.air_c, setup.own_c, setup.mass_g, setup.assumed
    why_rise, dough, begun = setup.why_rise, setup.ferment.dough, setup.begun
    begins_in = begins_in_min(request, room)
    done = max(0.0, -begins_in) if begins_in is not None else request.elapsed_min or 0.0
    state = advance(m.k, dough, begun, path, done) if done else begun
    notes: list[str] = []
    pace = 1.0
    if request.risen_now_pct is not None:
        state, pace, told_of_pace = _as_risen(m, dough, path, begun, request.risen_now_pct, done)
        notes += told_of_pace
    seen = _at_pace(forecast(m.k, dough, path, rise, state, ferment.timed), pace)
    if request.wished_c is not None and own_c is not None:
        notes += _off_by(request.wished_c, own_c, seen.minutes, ferment, m, around, mass_g, rise)
    if not math.isfinite(seen.minutes) or (around.second_c is not None and seen.minutes > 4 * 1440):
        around, path, seen, note = _taken_out(m, ferment, around, mass_g, rise, state)
        notes.append(note)
    high_min = seen.high_min if math.isfinite(seen.high_min) else 2.0 * seen.minutes
    minutes = max(1.0, seen.minutes)
    asked_min = request.asked_min
    if request.until is not None:
        asked_min = minutes_until(room.now, resolve(request.until, room.now)) - max(0.0, begins_in or 0.0)
    verdict = _verdict(asked_min, minutes, seen.low_min, high_min)
    by_then = None
    if asked_min is not None:
        by_then = rise_pct(m.k, dough, advance(m.k, dough, state, path, asked_min))
    ends = later(room.now, minutes + max(0.0, begins_in or 0.0))
    under_way = bool(done) or request.risen_now_pct is not None
    fields: dict[str, Any] = {
        "stage": stage,
        "minutes": minutes,
        "low_min": min(max(1.0, seen.low_min), minutes),
        "high_min": max(high_min, minutes),
        "temp_c": air_c,
        "dough_c": around.dough_c if around.dough_c is not None else air_c,
        "rise_pct": rise,
        "starter_pct": dough.starter_pct,
        "yeast_fresh_pct": dough.yeast_fresh_pct,
        "hydration_pct": dough.hydration_pct,
        "salt_pct": dough.salt_pct,
        "sooner_min": seen.sooner_min,
        "ends_at": ends.replace(tzinfo=None).isoformat(timespec="minutes"),
        "dough_ends_c": path.temp_c(state.at_min + minutes),
        "bread": ferment.bread.id if ferment.bread else None,
    }
    if asked_min is not None:
        fields |= {"asked_min": asked_min, "verdict": verdict, "rise_then_pct": by_then}
    if under_way:
        fields |= {"elapsed_min": done, "rise_now_pct": rise_pct(m.k, dough, state)}
    mean_c = (seen.warmest_c + seen.coldest_c) / 2
    notes_safe = safety_notes(room, stage, ferment.bread, ferment.formula, air_c, minutes)
    told = Told(
        name=NAMES[stage],
        fields=fields,
        where=where_said(around),
        why_rise=why_rise,
        ends=ends,
        now=room.now,
        timed=ferment.timed,
        outside="hot" if seen.warmest_c > m.k.hot_c + 0.5 else seen.outside,
        hot_c=m.k.hot_c,
        given=ferment.given,
        assumed=assumed,
        notes=tuple(notes),
        safety=notes_safe,
        acidity=acidity(m.records, dough, seen.end, mean_c),
        glass=straight_glass(m.records, rise) if rise is not None else None,
        from_when="From now" if under_way else "Started then" if (begins_in or 0) > 0 else "Started now",
        samples=_samples(m, dough, path, begun, done, minutes) if rise is not None else (),
    )
    return Outcome(
        "timing", fields, _read_as(request, stage, air_c, ferment, rise), timing_page(told),
        assumed=assumed, cautions=notes_safe, sources=tuple(dict.fromkeys(m.records[name].source for name in SOURCES)),
    )  # fmt: skip


def _as_risen(
    m: Models, dough: Dough, path: Path, begun: State, risen: float, done: float
) -> tuple[State, float, list[str]]:
    """The dough as it stands when it has risen so far, how much longer than reckoned that took, and that in words.

    What it took so far says how fast this dough goes here (a third to thrice the reckoned time is believed).
    """
    there = minutes_to(m.k, dough, path, risen, begun)
    if not math.isfinite(there):
        return begun, 1.0, []
    state = advance(m.k, dough, begun, path, there)
    if done <= 0 or there <= 0:
        return state, 1.0, []
    pace = min(max(done / there, 1 / 3), 3.0)
    if 0.8 <= pace <= 1.25:
        return state, pace, [f"+{risen:g} % after {hours_said(done)} is about what is reckoned for it."]
    how = "slower" if pace > 1 else "faster"
    words = f"+{risen:g} % after {hours_said(done)}: {max(pace, 1 / pace):.1f} times {how} than reckoned"
    return state, pace, [f"{words} ({hours_said(there)}); the rest is taken between the two."]


def _at_pace(seen: Forecast, pace: float) -> Forecast:
    """The forecast between the reckoned pace and the one seen so far; the range takes in both."""
    middle = math.sqrt(pace)
    return replace(
        seen, minutes=seen.minutes * middle, low_min=seen.low_min * min(pace, 1.0),
        high_min=seen.high_min * max(pace, 1.0), sooner_min=seen.sooner_min * middle,
    )  # fmt: skip


def _off_by(
    wished_c: float,
    own_c: float,
    minutes: float,
    ferment: Fermenting,
    m: Models,
    around: Around,
    mass_g: float,
    rise: float | None,
) -> list[str]:
    """What a dough that came out warmer or colder than was wanted saves or costs."""
    if abs(own_c - wished_c) < 0.5:
        return []
    dough = ferment.dough
    path = stage_path(m.heat, replace(around, dough_c=wished_c), mass_g, dough.hydration_pct, dough.salt_pct)
    meant = forecast(m.k, dough, path, rise, None, ferment.timed).minutes
    if not math.isfinite(meant) or not math.isfinite(minutes):
        return []
    off = abs(own_c - wished_c)
    side, by = ("warmer", "sooner") if own_c > wished_c else ("colder", "later")
    apart = hours_said(abs(meant - minutes))
    return [f"{off:.0f} °C {side} than you wanted: ready about {apart} {by}; go by the rise."]


def _taken_out(
    m: Models, ferment: Fermenting, around: Around, mass_g: float, rise: float | None, state: State
) -> tuple[Around, Path, Forecast, str]:
    """A dough that does not get there in the cold: a night of it, then back to the kitchen."""
    dough = ferment.dough
    if around.second_c is None:
        raise Refused(
            f"at {degrees_said(around.air_c)} it does not get there in three weeks: growth all but stops",
            "ferment at 18 to 26 °C; the fridge only holds what has already risen",
        )
    fridge_min = 60 * m.records["kitchen_night"].values["fridge_h"]
    then = replace(around, back_min=fridge_min)
    path = stage_path(m.heat, then, mass_g, dough.hydration_pct, dough.salt_pct)
    seen = forecast(m.k, dough, path, rise, state, ferment.timed)
    if not math.isfinite(seen.minutes):
        raise Refused(
            f"neither in the fridge nor at {degrees_said(around.air_c)} does it get there in three weeks",
            "more starter or yeast, and 18 to 26 °C",
        )
    risen = rise_pct(m.k, dough, advance(m.k, dough, state, path, around.switch_min + fridge_min))
    note = (
        f"In the fridge it all but stops: +{risen:.0f} % after {hours_said(fridge_min)} of it. "
        f"The time counts those and the rest back at {degrees_said(around.air_c)}."
    )
    return then, path, seen, note


def _verdict(asked_min: float | None, minutes: float, low_min: float, high_min: float) -> str | None:
    if asked_min is None:
        return None
    if asked_min < low_min:
        return "too short"
    if asked_min > high_min:
        return "too long"
    if asked_min < 0.85 * minutes:
        return "on the short side, within the range"
    if asked_min > 1.18 * minutes:
        return "on the long side, within the range"
    return "about right"


def where_said(around: Around) -> str:
    words = f"at {degrees_said(around.air_c)}"
    if around.dough_c is not None and abs(around.dough_c - around.air_c) >= 0.05:
        words = f"from {degrees_said(around.dough_c)} in {degrees_said(around.air_c)} air"
    if around.second_c is not None:
        words += f", {degrees_said(around.second_c)} after {hours_said(around.switch_min)}"
    elif around.later_c is not None:
        words += f", {'then' if around.steps else 'falling to'} {degrees_said(around.later_c)}"
    return words


def _read_as(request: TimingRequest, stage: str, air_c: float, ferment: Fermenting, rise: float | None) -> str:
    parts = [f"how long: {stage.replace('_', ' ')}", degrees_said(air_c)]
    if request.dough_c is not None:
        parts.append(f"dough {degrees_said(request.dough_c)}")
    if request.later_c is not None:
        parts.append(f"later {degrees_said(request.later_c)}")
    if request.fridge_after_min is not None:
        parts.append(f"into the fridge after {hours_said(request.fridge_after_min)}")
    parts += ferment.given
    if rise is not None:
        parts.append(f"to +{figure(rise)} %")
    if request.asked_min is not None:
        parts.append(f"is {hours_said(request.asked_min)} right")
    if request.elapsed_min is not None:
        parts.append(f"{hours_said(request.elapsed_min)} gone")
    return ", ".join((*parts, *request.spread_said))


def _samples(
    m: Models, dough: Dough, path: Path, begun: State, done: float, minutes: float
) -> tuple[tuple[float, float, float], ...]:
    """(minutes, rise in percent, dough in °C) from the beginning of the stage to its end, evenly spaced."""
    count, total = 40, done + minutes
    out, state = [], begun
    for step in range(count + 1):
        at = total * step / count
        state = advance(m.k, dough, state, path, at - state.at_min) if at > state.at_min else state
        out.append((at, rise_pct(m.k, dough, state), path.temp_c(at)))
    return tuple(out)
