"""How long the steps take that no fermentation decides: the dispatcher, the cold stay, and what is practice."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from typing import Any

from assistant.answers.baking_times import baking, boiling, pot_boils
from assistant.answers.bread_meant import bread_of, process_of
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import Models, models
from assistant.answers.stage_cautions import safety_notes
from assistant.answers.stage_said import fridge_of, piece_of, stage_outcome
from assistant.answers.warming_times import another_warmth, cooling, thawing
from assistant.engine.cold_stay import cold_stay_h
from assistant.engine.fermentation import Dough, forecast, mixed, shaped
from assistant.engine.heat import cooling_tau_h, dough_heat
from assistant.engine.refusal import Refused
from assistant.engine.temperature_path import steady
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, degrees_said, hours_said, range_said, roughly_said
from grammar.moments import resolve
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread
from knowledge.records.durations import Duration

HELD_FROM_C = 24.0
"""Shaped dough that goes into a fridge, where nobody said how warm it is."""
HOLDS_C = 6.5
"""Up to here a fridge holds dough rather than raising it."""
WARMEST_FRIDGE_C = 12.0
STONE_MIN_PER_CM, STONE_MOST_MIN = 12.5, 100.0
"""An oven takes about 20 min, and each centimetre of stone so much more (bakery practice: 2 cm in 45 min)."""


def plain_time(request: TimingRequest, room: Room, stage: str) -> Outcome:
    """The length of such a step. Refused where it depends on a bread that was not named."""
    bread = bread_of(room, request.bread, request.piece)
    return _noted(_plain(request, room, stage, bread), room, stage, bread)


def _noted(outcome: Outcome, room: Room, stage: str, bread: Bread | None) -> Outcome:
    """The answer with the safety notes that belong to the step."""
    temp_c, minutes = float(outcome.answer["temp_c"]), float(outcome.answer["minutes"])
    notes = safety_notes(room, stage, bread, formula_in_hand(room), temp_c if stage != "bake" else 22.0, minutes)
    page = Page((*outcome.page.blocks, *(Line(note, role="warn") for note in notes)))
    return replace(outcome, cautions=notes, page=page)


def _plain(request: TimingRequest, room: Room, stage: str, bread: Bread | None) -> Outcome:
    if stage == "heat_pot" or (stage == "boil" and (request.litres is not None or request.power_kw is not None)):
        return pot_boils(request, room)
    if stage in ("bake", "boil"):
        if bread is None:
            raise Refused(f"how long to {stage} depends on the bread", f"name it: “how long do I {stage} the rings”")
        return baking(request, room, bread) if stage == "bake" else boiling(bread)
    if stage == "thaw":
        return thawing(request, room, bread)
    if request.target_c is not None or (stage == "warm_up" and (request.mass_g or request.dough_c is not None)):
        return another_warmth(request, room)
    if stage in ("retard", "bulk", "proof"):
        return cold_stay(request, room, bread)
    if stage == "cool":
        return cooling(request, room, bread)
    return _practice(request, room, stage, bread)


def cold_stay(request: TimingRequest, room: Room, bread: Bread | None) -> Outcome:
    """How long a dough may lie in the fridge: the bread's usual hours there, for the fridge as warm as it is."""
    m = models(room.kb)
    named = bread if bread is not None else room.kb.breads["sourdough_loaf"]
    process = process_of(named, room.kb)
    if process.retard_usual_h <= 0:
        raise Refused(f"{named.name.lower()} has no time in the fridge of its own", "name the bread it is like")
    fridge_c, assumed_fridge = fridge_of(request, room, m)
    if fridge_c > WARMEST_FRIDGE_C or fridge_c < 0:
        raise Refused(
            f"{degrees_said(fridge_c)} is no fridge",
            f"ask for the bulk or the proof at {degrees_said(fridge_c)}, or a fridge at 3 to 7 °C"
            if fridge_c > 0
            else "frozen dough keeps weeks; thaw it in the fridge overnight",
        )
    mass_g = piece_of(request, room, named)[0]
    low, usual, high = (
        60 * _as_warm(m, named, mass_g, fridge_c, hours)
        for hours in (process.retard_low_h, process.retard_usual_h, process.retard_high_h)
    )
    asked = request.asked_min or (request.fridge_after_min if request.judged else None)
    stage = request.stage or "retard"
    fields: dict[str, Any] = {
        "stage": stage, "minutes": usual, "low_min": low, "high_min": high, "temp_c": fridge_c, "bread": named.id,
    }  # fmt: skip
    lines = [
        f"At {degrees_said(fridge_c)}: {range_said(low, high)} for {named.name.lower()}, usually "
        f"{roughly_said(usual)}.",
        "A fridge holds dough, it hardly raises it: most of the rise there comes in the first 5 h, while the dough is "
        "still warm; after that it keeps and sours.",
    ]
    if stage in ("bulk", "proof"):
        lines.append(f"So cold no {stage} ends: let it rise as far as it should before, or bring it back to 18-26 °C.")
    if asked is not None:
        verdict = "too short" if asked < low else "too long" if asked > high else "fine"
        fields |= {"asked_min": asked, "verdict": verdict}
        lines.insert(0, f"{hours_said(asked)} in the fridge is {verdict}.")
    assumed = (*(() if bread is not None else (f"a dough like {named.name.lower()}",)), *assumed_fridge)
    read_as = f"how long in the fridge at {degrees_said(fridge_c)}: {named.name.lower()}"
    return stage_outcome(fields, read_as, tuple(lines), assumed, (process.source,))


def _as_warm(m: Models, bread: Bread, mass_g: float, fridge_c: float, hours: float) -> float:
    """The bread's hours in the usual fridge, turned into hours in this one."""
    hydration, salt = bread.hydration_usual_pct, bread.salt_usual_pct
    starter = bread.starter_usual_pct or 20.0
    dough = Dough(hydration, salt, starter)
    bulk = forecast(m.k, dough, steady(HELD_FROM_C), max(10.0, bread.rise_bulk_pct))
    begun = shaped(m.k, bulk.end) if math.isfinite(bulk.minutes) else mixed(m.k, dough)
    tau_h = cooling_tau_h(m.heat, mass_g, dough_heat(m.heat, hydration))
    return cold_stay_h(m.k, dough, begun, HELD_FROM_C, tau_h, fridge_c, hours)


def _practice(request: TimingRequest, room: Room, stage: str, bread: Bread | None) -> Outcome:
    """A step whose length is practice."""
    if stage == "warm_up":
        fields = {"stage": stage, "minutes": 60.0, "low_min": 30.0, "high_min": 120.0, "temp_c": room.kitchen_c}
        lines = ("30 to 120 min out of the fridge, by size; most shaped bread can go into the oven cold.",)
        return stage_outcome(fields, "how long out of the fridge", lines, (), ("bakery practice",))
    record = next((one for one in room.kb.all(Duration).values() if one.stage == stage), None)
    if record is None:
        raise Refused(
            f"there is no usual time for {stage.replace('_', ' ')}", "ask about bulk, proof, baking or cooling"
        )
    low, usual, high = record.low_min, record.usual_min, record.high_min
    process = process_of(bread, room.kb) if bread is not None else None
    if stage == "preheat" and process is not None:
        usual = process.preheat_min
        low, high = min(low, usual), max(high, usual)
    if stage == "preheat" and request.heavy:
        usual, high = max(usual, 50.0), max(high, 60.0)
    if stage == "preheat" and request.stone_cm is not None:
        usual = min(STONE_MOST_MIN, 20 + STONE_MIN_PER_CM * request.stone_cm)
        low, high = 0.8 * usual, 1.3 * usual
    name = stage.replace("_", " ")
    said = [
        f"{name.capitalize()}: about {hours_said(usual)} ({range_said(low, high)})"
        + (f" for {bread.name.lower()}." if bread is not None else "."),
        f"Done when: {record.sign}.",
    ]
    if stage == "preheat" and request.until is not None and request.until.minute is not None:
        hot_at = resolve(request.until, room.now)
        on_at = hot_at - timedelta(minutes=usual)
        said.insert(0, f"For {clock_said(hot_at, room.now)}: on at {clock_said(on_at, room.now)}.")
    temp_c = bread.oven_c_usual if stage == "preheat" and bread is not None else room.kitchen_c
    fields = {"stage": stage, "minutes": usual, "low_min": low, "high_min": high, "temp_c": temp_c}
    return stage_outcome(fields, f"how long: {name}", tuple(said), (), (record.source,))
