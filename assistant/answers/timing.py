"""How long a stage takes: by fermentation where something rises, by the bread's row or by practice elsewhere."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from typing import Any

from assistant.answers import answers
from assistant.answers.fermenting import (
    Fermenting,
    Models,
    fermenting,
    models,
    process_of,
    safety_notes,
)
from assistant.answers.plain_times import plain_time
from assistant.answers.solved_for import solved_for
from assistant.engine.acidity import acidity
from assistant.engine.fermentation import (
    Dough,
    Forecast,
    State,
    advance,
    forecast,
    minutes_to,
    mixed,
    refuse_if_deadly,
    rise_pct,
    shaped,
    starter_dough,
)
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.stages import Around, stage_path
from assistant.engine.stops import bulk_stop_before_cold_pct, straight_glass
from assistant.engine.temperature_path import Path, steady
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.spans import degrees_said, hours_said
from assistant.voice.timing_page import AS_WARM, Told, glass_page, timing_page
from grammar.moments import resolve
from grammar.requests.timing import TimingRequest
from knowledge.records.preferments import PrefermentKind

MASS_G = 1000.0
"""The dough where nobody said how much it is; it only matters where dough and air differ."""
NAMES = {"bulk": "Bulk", "proof": "Proof", "preferment": "The preferment", "starter": "The starter"}
SOURCES = (
    "sourdough_yeast_growth", "acid_bacteria_growth", "bakers_yeast_growth", "bakers_yeast_gas", "sourdough_gas",
    "bakers_yeast_dough",
)  # fmt: skip


@answers(TimingRequest)
def answer(request: TimingRequest, room: Room) -> Outcome:
    """The length of the stage asked about, with its range, what moves it, and where it ends by the clock."""
    stage = request.stage or "bulk"
    if request.solve is not None and request.asked_min is not None:
        return solved_for(request, lambda tried: _ferments(tried, room, stage), stage, request.asked_min)
    if request.how_to_see:
        return _see(request, room)
    if stage not in NAMES:
        return plain_time(request, room, stage)
    return _ferments(request, room, stage)


def _kitchen(request: TimingRequest, room: Room, m: Models) -> tuple[float, tuple[str, ...]]:
    """The air the stage happens in, and what was assumed of it."""
    if request.temp_c is not None and not (request.temp_kept and room.kitchen_is_set):
        return request.temp_c, ()
    if request.fridge and request.fridge_after_min is None and request.later_c is None:
        fridge_c = _fridge_c(request, room, m)
        return fridge_c, () if request.fridge_c is not None else (f"fridge {degrees_said(fridge_c)}",)
    alone = request.dough_c is not None and request.wished_c is None and not room.kitchen_is_set
    if request.dough_c is not None and alone and not request.fridge and request.later_c is None:
        return request.dough_c, ("surroundings as warm as the dough",)
    if room.kitchen_is_set or getattr(room.formula_said, "kitchen_c", None) is not None:
        return room.kitchen_c, (f"kitchen {degrees_said(room.kitchen_c)}, as you keep it",)
    return room.kitchen_c, (f"kitchen {degrees_said(room.kitchen_c)}",)


def _fridge_c(request: TimingRequest, room: Room, m: Models) -> float:
    if request.fridge_c is not None:
        return request.fridge_c
    setting = room.setting("fridge_c")
    return float(setting) if setting is not None else m.records["kitchen_night"].values["fridge_c"]


def _around(
    request: TimingRequest, room: Room, m: Models, air_c: float, own_c: float | None
) -> tuple[Around, tuple[str, ...]]:
    """What is around the dough, and what was assumed."""
    night = m.records["kitchen_night"].values
    if request.fridge_after_min is not None:
        fridge_c = _fridge_c(request, room, m)
        said = () if request.fridge_c is not None else (f"fridge {degrees_said(fridge_c)}",)
        return Around(air_c, own_c, second_c=fridge_c, switch_min=request.fridge_after_min), said
    if request.later_c is not None:
        if request.later_after_min is not None:
            return Around(air_c, own_c, request.later_c, request.later_after_min, steps=True), ()
        said = (f"the kitchen falls evenly to {degrees_said(request.later_c)} over {hours_said(night['falls_min'])}",)
        return Around(air_c, own_c, request.later_c, night["falls_min"]), said
    return Around(air_c, own_c), ()


def _target(
    request: TimingRequest, ferment: Fermenting, m: Models, stage: str, dough_c: float
) -> tuple[float | None, str]:
    """The rise the stage stops at, and why that one; None where it is a starter that ripens."""
    stops = m.records["bulk_stop_lean"].values
    if request.rise_pct is not None:
        return request.rise_pct, "as you asked"
    if stage == "starter":
        return None, "until it is ripe"
    if stage == "preferment":
        kind = request.preferment or "poolish"
        values = m.records["preferment_stop"].values
        return values.get(f"{kind}_pct", 100.0), f"a ripe {kind.replace('_', ' ')}"
    if ferment.bread is not None:
        value = ferment.bread.rise_proof_pct if stage == "proof" else ferment.bread.rise_bulk_pct
        if stage == "bulk" and request.fridge_after_min is not None and ferment.bread.rise_bulk_pct >= 50:
            return bulk_stop_before_cold_pct(m.records, dough_c), "going cold afterwards"
        if value > 0:
            return value, f"usual for {ferment.bread.name.lower()}"
    return stops["proof_pct" if stage == "proof" else "bulk_pct"], "a lean dough"


def _what(request: TimingRequest, room: Room, m: Models, stage: str) -> Fermenting:
    """What ferments: a dough, a preferment by its own figures, or a starter just fed."""
    pace = room.setting("culture_pace")
    if stage == "starter":
        ratio = request.ratio or (1.0, 2.0, 2.0)
        seed_pct = request.starter_hydration_pct or float(room.setting("starter_hydration_pct") or 100.0)
        if min(ratio[0], ratio[1]) <= 0:
            raise Refused("a feed needs seed and flour: 1:0 feeds nothing", "for example 1:2:2, seed, flour, water")
        dough = starter_dough(*ratio, seed_pct, pace=float(pace or 1.0), cold_seed=request.fridge)
        parts = ":".join(f"{part:g}" for part in ratio)
        said = (f"fed {parts}",) if request.ratio else ()
        return Fermenting(
            dough, None, request.mass_g, None, said, () if request.ratio else (f"fed {parts}",), pace is not None, None
        )
    if stage == "preferment":
        kind = room.kb.all(PrefermentKind)[request.preferment or "poolish"]
        if not kind.yeast_fresh_pct and not request.yeast:
            raise Refused(
                f"{kind.name} brings no yeast of its own, so it has no hour of ripeness",
                "a poolish, biga or sponge has one",
            )
        fresh = (
            fermenting(replace(request, starter_pct=0.0, salt_pct=0.0), room).dough.yeast_fresh_pct
            if request.yeast
            else kind.yeast_fresh_pct
        )
        hydration = request.hydration_pct or kind.hydration_usual_pct
        dough = Dough(hydration, 0.0, yeast_fresh_pct=fresh)
        words = f"{kind.name}: {figure(hydration)} % water, {figure(fresh)} % fresh yeast on its flour"
        return Fermenting(dough, None, request.mass_g, None, (), (words,), False, None)
    return fermenting(request, room)


def _ferments(request: TimingRequest, room: Room, stage: str) -> Outcome:
    m = models(room.kb)
    air_c, assumed_air = _kitchen(request, room, m)
    refuse_if_deadly(m.k, *(t for t in (air_c, request.later_c, request.dough_c, request.fridge_c) if t is not None))
    ferment = _what(request, room, m, stage)
    process = process_of(room.kb, ferment.bread)
    own_c = request.dough_c
    if own_c is None and request.temp_c is None and request.fridge and request.fridge_after_min is None:
        own_c = process.dough_c if process else 24.0
    around, assumed_around = _around(request, room, m, air_c, own_c)
    mass_g = ferment.mass_g or MASS_G
    if stage == "proof":
        mass_g = request.mass_g or ferment.piece_g or (ferment.bread.piece_usual_g if ferment.bread else MASS_G)
    dough = ferment.dough
    path = stage_path(m.heat, around, mass_g, dough.hydration_pct, dough.salt_pct)
    rise, why_rise = _target(request, ferment, m, stage, own_c if own_c is not None else air_c)
    begun = _begun(m, ferment, stage, path, air_c)
    begins_in = _since(request, room)
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
        asked_min = (resolve(request.until, room.now) - room.now).total_seconds() / 60 - max(0.0, begins_in or 0.0)
    verdict = _verdict(asked_min, minutes, seen.low_min, high_min)
    by_then = None
    if asked_min is not None:
        by_then = rise_pct(m.k, dough, advance(m.k, dough, state, path, asked_min))
    assumed = (*ferment.assumed, *assumed_air, *assumed_around, *request.spread_said)
    if path.legs[-1].tau_h > 0 and ferment.mass_g is None and stage != "proof" and request.mass_g is None:
        assumed = (*assumed, f"{MASS_G:.0f} g of dough")
    if own_c is None and path.legs[-1].tau_h == 0 and stage == "bulk":
        assumed = (*assumed, f"{AS_WARM} its surroundings, {degrees_said(air_c)}")
    ends = room.now + timedelta(minutes=minutes + max(0.0, begins_in or 0.0))
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
        where=_where(request, around),
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


def _begun(m: Models, ferment: Fermenting, stage: str, path: Path, air_c: float) -> State:
    """The state the stage begins in: just mixed, or shaped after a bulk to the bread's own stop at the same warmth."""
    start = mixed(m.k, ferment.dough)
    if stage != "proof":
        return start
    bulk_pct = ferment.bread.rise_bulk_pct if ferment.bread else m.records["bulk_stop_lean"].values["bulk_pct"]
    bulk_c = min(max(air_c, 20.0), 27.0)
    bulk = forecast(m.k, ferment.dough, steady(bulk_c), max(10.0, bulk_pct))
    return shaped(m.k, bulk.end) if math.isfinite(bulk.minutes) else start


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


def _since(request: TimingRequest, room: Room) -> float | None:
    """Minutes from now at which the stage began (negative: it is under way); None where no hour was said."""
    if request.begun_at is None:
        return None
    minutes = (resolve(request.begun_at, room.now) - room.now).total_seconds() / 60
    if request.begun_at.day is None and request.since and minutes > 0:
        minutes -= (24 if request.begun_at.sure else 12) * 60  # "since 4" has gone by
    elif request.begun_at.day is None and minutes > 12 * 60:
        minutes -= 24 * 60  # a clock time that has gone by is today's
    return minutes


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


def _where(request: TimingRequest, around: Around) -> str:
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


def _see(request: TimingRequest, room: Room) -> Outcome:
    """How to see a rise where the bowl does not show it: a sample in a straight glass."""
    m = models(room.kb)
    ferment = fermenting(replace(request, starter_pct=request.starter_pct or 20.0), room)
    rise, why_rise = _target(request, ferment, m, request.stage if request.stage == "proof" else "bulk", 24.0)
    assert rise is not None
    glass = straight_glass(m.records, rise)
    refuse_if_deadly(m.k, _kitchen(request, room, m)[0])
    inner = replace(
        request, how_to_see=False, stage=request.stage if request.stage == "proof" else "bulk", rise_pct=rise
    )
    outcome = _ferments(inner, room, inner.stage or "bulk")
    fields = {**outcome.answer, "sample_g": glass.sample_g, "start_ml": glass.start_ml, "stop_ml": glass.stop_ml}
    return replace(
        outcome,
        answer=fields,
        page=glass_page(rise, why_rise, glass, fields),
        read_as=f"how to see a rise of {figure(rise)} %",
    )
