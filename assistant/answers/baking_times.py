"""How long a bread bakes or boils, and how long until pot and water boil."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.fermentation_models import Models, models, pressure_of
from assistant.answers.oven_dial import off_c, on_the_dial
from assistant.answers.stage_cautions import ALKALI_BREAD
from assistant.answers.stage_said import piece_of, stage_outcome
from assistant.engine.altitude import boiling_point_c
from assistant.engine.oven_settings import FAN_LOWER_C
from assistant.engine.plan.batches import oven_factor, oven_of
from assistant.engine.possible import check_figure
from assistant.engine.refusal import Refused
from assistant.engine.thawing import comes_to_the_boil
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.spans import degrees_said, hours_said, range_said
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread

BAKE_POWER = 0.6
"""Baking time grows with the mass of a piece to about this power (trade estimate 0.5 to 0.67)."""
CORE_C = 96.0
"""The core of a bread that has no figure of its own."""
FROZEN_LONGER = 1.25
"""A piece that goes in frozen takes about a quarter longer (bakery practice, 20 to 30 %)."""
POT_L = 4.0
"""A large pot for boiling rings, where nobody said how much water."""
RINGS = {"gas": "a gas ring", "electric": "an electric ring", "induction": "an induction ring", "kettle": "a kettle"}


def baking(request: TimingRequest, room: Room, bread: Bread) -> Outcome:
    """Minutes in the oven by the bread's own row, the piece and the oven."""
    piece_g, known = piece_of(request, room, bread)
    factor = (piece_g / bread.piece_usual_g) ** BAKE_POWER * (FROZEN_LONGER if request.frozen else 1.0)
    said_c = request.temp_c if request.temp_c is not None and request.temp_c > 100 else None
    if said_c is not None:
        check_figure("oven_c", said_c, room.kb)
    most_c = room.setting("oven_max_c") if said_c is None else None
    fan_c = FAN_LOWER_C if request.fan else 0.0
    oven_c = oven_of(bread, most_c) if said_c is None else said_c + fan_c + off_c(room)
    dial_c = oven_c - off_c(room)
    core_c = request.core_c or bread.core_c or CORE_C
    slower = oven_factor(bread, oven_c, core_c)
    minutes = bread.minutes_usual * factor * slower
    fields: dict[str, Any] = {
        "stage": "bake", "minutes": minutes, "low_min": bread.minutes_low * factor * min(1.0, slower),
        "high_min": bread.minutes_high * factor * max(1.0, slower), "temp_c": oven_c,
        "fan_c": oven_c - FAN_LOWER_C, "core_c": request.core_c or bread.core_c,
        "piece_g": piece_g, "bread": bread.id,
    }  # fmt: skip
    fields["low_min"], fields["high_min"] = min(fields["low_min"], minutes), max(fields["high_min"], minutes)
    core = f"Done at {degrees_said(core_c)} inside" if fields["core_c"] else "Done by colour"
    dial = f"{degrees_said(dial_c - FAN_LOWER_C)} fan" if request.fan else degrees_said(dial_c)
    frozen = ", from frozen" if request.frozen else ""
    lines = (
        f"Bake about {hours_said(minutes)} at {dial} "
        f"({range_said(fields['low_min'], fields['high_min'])}) for {piece_g:.0f} g of {bread.name.lower()}{frozen}.",
        f"{core}." if request.fan else f"{core}. Fan oven: 15-20 °C less, and look early.",
    )
    assumed: tuple[str, ...] = () if known else (f"{piece_g:.0f} g a piece (usual)",)
    if most_c is not None and most_c < bread.oven_c_usual:
        assumed += (f"{degrees_said(most_c)}, the most your oven gives, not the usual {bread.oven_c_usual:g}: longer",)
    assumed += on_the_dial(oven_c, room)
    read_as = f"how long to bake {bread.name.lower()}, {piece_g:.0f} g, at {dial}{frozen}"
    return stage_outcome(fields, read_as, lines, assumed, (bread.source,))


def boiling(bread: Bread) -> Outcome:
    """Seconds a side in the bath."""
    if not bread.boil_s_per_side:
        raise Refused(f"{bread.name.lower()} is not boiled", "boiled are ring rolls and alkali-dipped twists")
    side_s = bread.boil_s_per_side
    minutes = 2 * side_s / 60
    fields: dict[str, Any] = {
        "stage": "boil", "minutes": minutes, "low_min": minutes * 2 / 3, "high_min": minutes * 4 / 3, "temp_c": 100.0,
        "seconds_per_side": side_s, "bread": bread.id,
    }  # fmt: skip
    lines = (
        f"{side_s:.0f} s a side, {2 * side_s:.0f} s in all ({side_s * 2 / 3:.0f} to {side_s * 4 / 3:.0f} s a side).",
        "In a soda bath at a simmer, or a cold lye dip: ask for the bath itself before you begin."
        if bread.id == ALKALI_BREAD
        else "Longer gives a thicker, chewier, shinier skin and less rise in the oven.",
    )
    return stage_outcome(fields, f"how long to boil {bread.name.lower()}", lines, (), (bread.source,))


def pot_boils(request: TimingRequest, room: Room) -> Outcome:
    """How long a pot of water takes to the boil, by its litres and the power under it, and where it boils here."""
    m = models(room.kb)
    hob = m.records["water_on_the_hob"].values
    boils_c, height = boils_at(request, room, m)
    assumed: list[str] = []
    litres = request.litres
    if litres is None:
        litres = POT_L
        assumed.append(f"{litres:g} l of water")
    power_kw, ring = request.power_kw, request.ring
    if power_kw is None:
        power_kw = hob["usual_kw"]
        assumed.append(f"{power_kw:g} kW under it")
    if ring is None:
        ring = "electric"
        assumed.append(f"{RINGS[ring]}, lid on")
    from_c = request.temp_c
    if from_c is None:
        setting = room.setting("tap_c")
        from_c = float(setting) if setting is not None else m.heat.usual_tap_c
        assumed.append(f"tap {degrees_said(from_c)}")
    if not 0 < litres <= 60 or not 0.1 <= power_kw <= 15:
        raise Refused(f"{litres:g} l over {power_kw:g} kW is no pot on a hob", "for example 6 litres on a 2 kW ring")
    seen = comes_to_the_boil(m.heat, m.records, 1000 * litres, power_kw, from_c, boils_c, ring)
    fields: dict[str, Any] = {
        "stage": "heat_pot", "minutes": seen.minutes, "low_min": seen.low_min, "high_min": seen.high_min,
        "temp_c": from_c, "boil_c": boils_c, "litres": litres, "power_kw": power_kw,
    }  # fmt: skip
    lines = (
        f"{litres:g} l from {degrees_said(from_c)} to the boil on {power_kw:g} kW: about {hours_said(seen.minutes)} "
        f"({range_said(seen.low_min, seen.high_min)}), lid on.",
        "Without a lid a fifth to a third longer. Begin with hot water from the kettle and it takes less than half.",
        *((f"At {height:.0f} m it boils at {degrees_said(boils_c)}.",) if height else ()),
    )
    read_as = f"how long until {litres:g} l boil on {power_kw:g} kW, from {degrees_said(from_c)}"
    return stage_outcome(fields, read_as, lines, tuple(assumed), (m.records["water_on_the_hob"].source,))


def boils_at(request: TimingRequest, room: Room, m: Models) -> tuple[float, float | None]:
    """Where water boils here, degrees Celsius, and the height it is for (None: sea level)."""
    _, height = pressure_of(room, request.altitude_m)
    return boiling_point_c(m.records, height or 0.0), height


def boiling_point(request: TimingRequest, room: Room) -> Outcome:
    """Where water boils at this height."""
    m = models(room.kb)
    boils_c, height = boils_at(request, room, m)
    where = f"at {height:.0f} m" if height else "at sea level"
    text = (
        f"Water boils at {degrees_said(boils_c)} {where}. Bread is baked through two degrees below that: "
        f"{degrees_said(boils_c - 2)} in the core is as much as to aim at."
    )
    assumed = () if height else ("sea level",)
    outcome = stage_outcome(
        {"topic": "boiling point", "text": text, "boil_c": boils_c, "core_limit_c": boils_c - 2},
        f"where water boils {where}", (text,), assumed, (m.records["boiling_water"].source,),
    )  # fmt: skip
    return replace(outcome, kind="explanation")
