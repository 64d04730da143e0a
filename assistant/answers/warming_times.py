"""How long a mass takes to another temperature: dough chilled or warmed, frozen dough thawed, bread cooled."""

from __future__ import annotations

import math
from typing import Any

from assistant.answers.bread_meant import process_of
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import models
from assistant.answers.stage_said import fridge_of, piece_of, stage_outcome
from assistant.engine.heat import Cover, cooling_tau_h, dough_heat, minutes_to_temp
from assistant.engine.refusal import Refused
from assistant.engine.thawing import bread_cools, thaw_min
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.spans import degrees_said, hours_said, range_said
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread

MIXED_C = 25.0
"""Dough in a kitchen, where nobody said how warm it is."""
NOT_COLD_C = 16.0
"""Dough this warm is no longer stiff with cold."""
MASS_G = 1000.0
PIECE_G = 500.0
UNEVEN = 1.3
"""How much longer than reckoned: fridges differ, and the middle lags behind the mean."""


def another_warmth(request: TimingRequest, room: Room) -> Outcome:
    """A dough going from one temperature to another in steady air, colder or warmer than it is."""
    m = models(room.kb)
    formula = formula_in_hand(room)
    warms = request.stage == "warm_up"
    chilled = not warms and (request.stage == "retard" or request.fridge)
    air_c, assumed = fridge_of(request, room, m) if chilled or (warms and request.temp_c is None) else (0.0, ())
    from_c = request.dough_c
    if warms:
        if from_c is None:
            from_c, assumed = fridge_of(request, room, m)
        air_c = request.temp_c if request.temp_c is not None else room.kitchen_c
        assumed = assumed if request.temp_c is not None else (*assumed, f"kitchen {degrees_said(air_c)}")
    elif not chilled:
        air_c = request.temp_c if request.temp_c is not None else room.kitchen_c
        assumed = () if request.temp_c is not None else (f"kitchen {degrees_said(air_c)}",)
    if from_c is None:
        from_c = MIXED_C
        assumed = (*assumed, f"dough {degrees_said(from_c)} to begin with")
    target_c = request.target_c
    if target_c is None:
        target_c = min(NOT_COLD_C, air_c - 2)
        assumed = (*assumed, f"to {degrees_said(target_c)}, no longer stiff with cold")
    mass_g = request.mass_g or (formula.piece_g or formula.dough_g if formula else None)
    if mass_g is None:
        mass_g = PIECE_G if warms else MASS_G
        assumed = (*assumed, f"{mass_g:.0f} g of dough in one piece")
    cp = dough_heat(m.heat, formula.hydration_pct if formula else 65.0)
    cover: Cover = "covered" if chilled else "still_room"
    minutes = minutes_to_temp(from_c, air_c, cooling_tau_h(m.heat, mass_g, cp, cover), target_c)
    if not math.isfinite(minutes):
        raise Refused(
            f"in {degrees_said(air_c)} air a dough of {degrees_said(from_c)} never reaches "
            f"{degrees_said(target_c)}",
            f"{'warmer' if target_c > from_c else 'colder'} surroundings, or a target on the way to them",
        )
    fan = minutes_to_temp(from_c, air_c, cooling_tau_h(m.heat, mass_g, cp, "fan"), target_c)
    fields: dict[str, Any] = {
        "stage": "retard" if chilled else "warm_up" if target_c > from_c else "cool",
        "minutes": max(1.0, minutes), "low_min": max(1.0, min(fan, minutes)), "high_min": UNEVEN * minutes + 1,
        "temp_c": air_c, "dough_c": from_c, "target_c": target_c, "mass_g": mass_g,
    }  # fmt: skip
    verb = "warm" if target_c > from_c else "cool"
    lines = (
        f"{mass_g:.0f} g from {degrees_said(from_c)} to {degrees_said(target_c)} in {degrees_said(air_c)} air: about "
        f"{hours_said(minutes)}, covered and in one piece ({hours_said(fan)} with a fan on it).",
        "That is the mean; the middle lags. Flat, on a tray or divided it goes much faster.",
        *(("Shaped bread may go into a hot oven cold; it only wants a few minutes more.",) if warms else ()),
    )
    read_as = (
        f"how long to {verb} {mass_g:.0f} g from {degrees_said(from_c)} to {degrees_said(target_c)}, "
        f"in {degrees_said(air_c)}"
    )
    return stage_outcome(fields, read_as, lines, assumed, (m.records["dough_body"].source,))


def thawing(request: TimingRequest, room: Room, bread: Bread | None) -> Outcome:
    """Frozen dough until it is soft to the middle: on the bench, or in the fridge where that was said."""
    m = models(room.kb)
    formula = formula_in_hand(room)
    if request.fridge:
        air_c, assumed = fridge_of(request, room, m)
    else:
        air_c = request.temp_c if request.temp_c is not None else room.kitchen_c
        assumed = () if request.temp_c is not None else (f"kitchen {degrees_said(air_c)}",)
    piece_g, known = piece_of(request, room, bread) if bread is not None else (request.mass_g or PIECE_G, False)
    if not (known or request.mass_g):
        assumed = (*assumed, f"{piece_g:.0f} g a piece")
    minutes = thaw_min(m.heat, m.records, piece_g, formula.hydration_pct if formula else 65.0, air_c)
    if not math.isfinite(minutes):
        raise Refused(
            f"at {degrees_said(air_c)} frozen dough does not thaw through", "in a fridge at 4 to 6 °C, or on the bench"
        )
    low, high = 0.6 * minutes, 1.4 * minutes
    fields: dict[str, Any] = {
        "stage": "thaw", "minutes": minutes, "low_min": low, "high_min": high, "temp_c": air_c, "piece_g": piece_g,
    }  # fmt: skip
    lines = (
        f"{piece_g:.0f} g of frozen dough at {degrees_said(air_c)}: {range_said(low, high)} until it is soft to the "
        "middle, apart and covered.",
        "Overnight in the fridge it thaws evenly; then it proofs like a cold dough, a good deal longer than fresh.",
    )
    read_as = f"how long to thaw {piece_g:.0f} g at {degrees_said(air_c)}"
    return stage_outcome(fields, read_as, lines, assumed, (m.records["frozen_dough"].source,))


def cooling(request: TimingRequest, room: Room, bread: Bread | None) -> Outcome:
    """Baked bread on a rack until it may be cut."""
    m = models(room.kb)
    kitchen_c = request.temp_c if request.temp_c is not None and request.temp_c < 45 else room.kitchen_c
    assumed: tuple[str, ...] = ()
    piece_g, known = piece_of(request, room, bread) if bread is not None else (request.mass_g or 0.0, True)
    if piece_g <= 0:
        piece_g, known = m.records["bread_cooling"].values["mass_g"], False
    if not known:
        assumed = (f"{piece_g:.0f} g",)
    seen = bread_cools(m.records, piece_g, kitchen_c)
    minutes, low, high = seen.minutes, seen.low_min, seen.high_min
    process = process_of(bread, room.kb) if bread is not None else None
    rests = process is not None and process.rest_h > 1
    if process is not None and rests:
        minutes, low, high = 60 * process.rest_h, 60 * process.rest_h * 0.6, 60 * process.rest_h * 1.5
    fields: dict[str, Any] = {
        "stage": "cool", "minutes": minutes, "low_min": low, "high_min": high, "temp_c": kitchen_c, "piece_g": piece_g,
        "core_c": seen.core_c, "bread": bread.id if bread is not None else None,
    }  # fmt: skip
    name = bread.name.lower() if bread is not None else "bread"
    lines = (
        f"Cool {piece_g:.0f} g of {name} {range_said(low, high)} on a rack before cutting.",
        "It sets as it rests; cut sooner it is gummy."
        if rests
        else f"Done when the core is down to about {degrees_said(seen.core_c)} and the underside no longer warm; cut "
        "hot it gums.",
    )
    read_as = f"how long to cool {name}, {piece_g:.0f} g, before cutting"
    return stage_outcome(fields, read_as, lines, assumed, (m.records["bread_cooling"].source,))
