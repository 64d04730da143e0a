"""How long the steps take that no fermentation decides: baking, boiling, cooling, chilling, kneading, heating."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from assistant.answers.fermenting import ALKALI_BREAD, bread_of, formula_in_hand, models, process_of, safety_notes
from assistant.engine.heat import cooling_tau_h, dough_heat, minutes_to_temp
from assistant.engine.oven_settings import FAN_LOWER_C
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said, hours_said
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread
from knowledge.records.durations import Duration

BAKE_POWER = 0.6
"""Baking time grows with the mass of a piece to about this power (trade estimate 0.5 to 0.67)."""


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
    if stage in ("bake", "boil"):
        if bread is None:
            raise Refused(f"how long to {stage} depends on the bread", f"name it: “how long do I {stage} the rings”")
        return _bake(request, room, bread) if stage == "bake" else _boil(bread)
    if stage == "retard":
        return _chill(request, room) if request.target_c is not None else _retard(request, room, bread)
    if stage == "cool" and request.target_c is not None:
        return _chill(request, room)
    return _practice(request, room, stage, bread)


def _outcome(
    fields: dict[str, Any], read_as: str, lines: tuple[str, ...], assumed: tuple[str, ...], sources: tuple[str, ...]
) -> Outcome:
    head, *rest = lines
    blocks = [Line(head, role="head"), *(Line(line) for line in rest)]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    return Outcome("timing", fields, read_as, Page(tuple(blocks)), assumed=assumed, sources=sources)


def _piece_g(request: TimingRequest, room: Room, bread: Bread) -> tuple[float, bool]:
    formula = formula_in_hand(room)
    if request.mass_g is not None:
        return request.mass_g, True
    if formula is not None and formula.piece_g is not None:
        return formula.piece_g, True
    return bread.piece_usual_g, False


def _bake(request: TimingRequest, room: Room, bread: Bread) -> Outcome:
    piece_g, known = _piece_g(request, room, bread)
    factor = (piece_g / bread.piece_usual_g) ** BAKE_POWER
    said_c = request.temp_c if request.temp_c is not None and request.temp_c > 100 else None
    oven_c = bread.oven_c_usual if said_c is None else said_c + FAN_LOWER_C if request.fan else said_c
    # A hotter or cooler oven than usual: the time moves about in step with the distance to the dough's core.
    core_c = bread.core_c or 96.0
    oven_factor = (bread.oven_c_usual - core_c) / max(30.0, oven_c - core_c)
    minutes = bread.minutes_usual * factor * oven_factor
    fields = {
        "stage": "bake", "minutes": minutes, "low_min": bread.minutes_low * factor * min(1.0, oven_factor),
        "high_min": bread.minutes_high * factor * max(1.0, oven_factor), "temp_c": oven_c,
        "fan_c": oven_c - FAN_LOWER_C, "core_c": bread.core_c,
        "piece_g": piece_g, "bread": bread.id,
    }  # fmt: skip
    fields["low_min"], fields["high_min"] = min(fields["low_min"], minutes), max(fields["high_min"], minutes)
    core = f"Done at {degrees_said(bread.core_c)} inside" if bread.core_c else "Done by colour"
    lines = (
        f"Bake about {hours_said(minutes)} at {_dialled(oven_c, request.fan)} ({hours_said(fields['low_min'])} to "
        f"{hours_said(fields['high_min'])}) for {piece_g:.0f} g of {bread.name.lower()}.",
        f"{core}." if request.fan else f"{core}. Fan oven: 15-20 °C less, and look early.",
    )
    assumed = () if known else (f"{piece_g:.0f} g a piece (usual)",)
    return _outcome(fields, f"how long to bake {bread.name.lower()}, {piece_g:.0f} g", lines, assumed, (bread.source,))


def _dialled(oven_c: float, fan: bool) -> str:
    """What the dial is set to."""
    return f"{degrees_said(oven_c - FAN_LOWER_C)} fan" if fan else degrees_said(oven_c)


def _boil(bread: Bread) -> Outcome:
    if not bread.boil_s_per_side:
        raise Refused(f"{bread.name.lower()} is not boiled", "boiled are ring rolls and alkali-dipped twists")
    side_s = bread.boil_s_per_side
    minutes = 2 * side_s / 60
    fields = {
        "stage": "boil", "minutes": minutes, "low_min": minutes * 2 / 3, "high_min": minutes * 4 / 3, "temp_c": 100.0,
        "seconds_per_side": side_s, "bread": bread.id,
    }  # fmt: skip
    lines = (
        f"{side_s:.0f} s a side, {2 * side_s:.0f} s in all ({side_s * 2 / 3:.0f} to {side_s * 4 / 3:.0f} s a side).",
        "In a soda bath at a simmer, or a cold lye dip: ask for the bath itself before you begin."
        if bread.id == ALKALI_BREAD
        else "Longer gives a thicker, chewier, shinier skin and less rise in the oven.",
    )
    return _outcome(fields, f"how long to boil {bread.name.lower()}", lines, (), (bread.source,))


def _chill(request: TimingRequest, room: Room) -> Outcome:
    """A dough going from one temperature to another in steady air."""
    m = models(room.kb)
    formula = formula_in_hand(room)
    from_c = request.dough_c if request.dough_c is not None else 25.0
    fridge = request.stage == "retard" or request.fridge
    setting = room.setting("fridge_c")
    air_c = request.fridge_c or request.temp_c
    assumed: list[str] = []
    if air_c is None:
        air_c = (
            (float(setting) if setting is not None else m.records["kitchen_night"].values["fridge_c"])
            if fridge
            else room.kitchen_c
        )
        assumed.append(f"{'fridge' if fridge else 'kitchen'} {degrees_said(air_c)}")
    mass_g = request.mass_g or (formula.piece_g or formula.dough_g if formula else None)
    if mass_g is None:
        mass_g = 1000.0
        assumed.append("1000 g of dough in one piece")
    assert request.target_c is not None
    cp = dough_heat(m.heat, formula.hydration_pct if formula else 65.0)
    minutes = minutes_to_temp(from_c, air_c, cooling_tau_h(m.heat, mass_g, cp, "covered"), request.target_c)
    if not math.isfinite(minutes):
        raise Refused(
            f"in {degrees_said(air_c)} air a dough of {degrees_said(from_c)} never reaches "
            f"{degrees_said(request.target_c)}",
            "colder surroundings, or a target on the way to them",
        )
    fan = minutes_to_temp(from_c, air_c, cooling_tau_h(m.heat, mass_g, cp, "fan"), request.target_c)
    fields = {
        "stage": "retard" if fridge else "cool", "minutes": max(1.0, minutes), "low_min": max(1.0, min(fan, minutes)),
        "high_min": 1.3 * minutes + 1, "temp_c": air_c, "dough_c": from_c, "target_c": request.target_c,
        "mass_g": mass_g,
    }  # fmt: skip
    lines = (
        f"{mass_g:.0f} g from {degrees_said(from_c)} to {degrees_said(request.target_c)} in "
        f"{degrees_said(air_c)} air: about "
        f"{hours_said(minutes)}, covered ({hours_said(fan)} with a fan).",
        "That is the mean; the middle lags. Flat or divided it cools much faster.",
    )
    read_as = f"how long to cool {mass_g:.0f} g from {degrees_said(from_c)} to {degrees_said(request.target_c)}"
    return _outcome(fields, read_as, lines, tuple(assumed), (m.records["dough_body"].source,))


def _retard(request: TimingRequest, room: Room, bread: Bread | None) -> Outcome:
    """How long a dough may lie in the fridge: the bread's usual hours there."""
    m = models(room.kb)
    named = bread if bread is not None else room.kb.breads["sourdough_loaf"]
    process = process_of(room.kb, named)
    if process is None:
        raise Refused(f"{named.name.lower()} has no time in the fridge of its own", "name the bread it is like")
    setting = room.setting("fridge_c")
    fridge_c = request.fridge_c or (
        float(setting) if setting is not None else m.records["kitchen_night"].values["fridge_c"]
    )
    low, usual, high = (60 * h for h in (process.retard_low_h, process.retard_usual_h, process.retard_high_h))
    asked = request.asked_min or (request.fridge_after_min if request.judged else None)
    fields: dict[str, Any] = {
        "stage": "retard", "minutes": usual, "low_min": low, "high_min": high, "temp_c": fridge_c, "bread": named.id,
    }  # fmt: skip
    lines = [
        f"In the fridge: {hours_said(low)} to {hours_said(high)} for {named.name.lower()}, usually "
        f"{hours_said(usual)}.",
        "Most of the rise there happens in the first 5 h, "
        "while the dough is still warm; after that it keeps and sours.",
    ]
    if asked is not None:
        verdict = "too short" if asked < low else "too long" if asked > high else "fine"
        fields |= {"asked_min": asked, "verdict": verdict}
        lines.insert(0, f"{hours_said(asked)} in the fridge is {verdict}.")
    assumed = (
        *(() if bread is not None else (f"a dough like {named.name.lower()}",)),
        *(() if request.fridge_c is not None else (f"fridge {degrees_said(fridge_c)}",)),
    )
    return _outcome(fields, f"how long in the fridge: {named.name.lower()}", tuple(lines), assumed, (process.source,))


def _practice(request: TimingRequest, room: Room, stage: str, bread: Bread | None) -> Outcome:
    """A step whose length is practice."""
    if stage == "warm_up":
        fields = {"stage": stage, "minutes": 60.0, "low_min": 30.0, "high_min": 120.0, "temp_c": room.kitchen_c}
        lines = ("30 to 120 min out of the fridge, by size; most shaped bread can go into the oven cold.",)
        return _outcome(fields, "how long out of the fridge", lines, (), ("bakery practice",))
    piece_g = None if bread is None else _piece_g(request, room, bread)[0]
    piece_g = request.mass_g or piece_g or 500.0
    records = sorted(
        (one for one in room.kb.all(Duration).values() if one.stage == stage), key=lambda one: one.up_to_g or math.inf
    )
    if not records:
        raise Refused(
            f"there is no usual time for {stage.replace('_', ' ')}", "ask about bulk, proof, baking or cooling"
        )
    record = next(one for one in records if one.up_to_g is None or piece_g <= one.up_to_g)
    low, usual, high = record.low_min, record.usual_min, record.high_min
    process = process_of(room.kb, bread)
    if stage == "preheat" and process is not None:
        usual = process.preheat_min
        low, high = min(low, usual), max(high, usual)
    if stage == "preheat" and request.heavy:
        usual, high = max(usual, 50.0), max(high, 60.0)
    if stage == "cool" and process is not None and process.rest_h > 1:
        usual, low, high = 60 * process.rest_h, 60 * process.rest_h * 0.6, 60 * process.rest_h * 1.5
    name = stage.replace("_", " ")
    said = [
        f"{name.capitalize()}: about {hours_said(usual)} ({hours_said(low)} to {hours_said(high)})"
        + (f" for {bread.name.lower()}." if bread is not None else "."),
        f"Done when: {record.sign}.",
    ]
    temp_c = record.temp_c if record.temp_c is not None else room.kitchen_c
    if stage == "preheat" and bread is not None:
        temp_c = bread.oven_c_usual
    fields = {"stage": stage, "minutes": usual, "low_min": low, "high_min": high, "temp_c": temp_c}
    return _outcome(fields, f"how long: {name}", tuple(said), (), (record.source,))
