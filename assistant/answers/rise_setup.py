"""What a forecast is made of: what ferments, how warm it is and will be, where it stops, and since when it goes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from assistant.answers.bread_meant import process_of
from assistant.answers.fermentation_models import Models, models
from assistant.answers.fermenting import Fermenting, fermenting
from assistant.answers.learned import pace_of
from assistant.engine.fermentation import (
    Dough,
    State,
    forecast,
    mixed,
    refuse_if_deadly,
    shaped,
    starter_dough,
)
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.stages import Around, stage_path
from assistant.engine.stops import bulk_stop_before_cold_pct
from assistant.engine.temperature_path import Path, steady
from assistant.talk.kitchen import place_named
from assistant.talk.local_time import minutes_until
from assistant.talk.room import Room
from assistant.voice.spans import degrees_said, hours_said
from assistant.voice.timing_page import AS_WARM
from grammar.moments import resolve
from grammar.requests.timing import TimingRequest
from knowledge.records.preferments import PrefermentKind

MASS_G = 1000.0
"""The dough where nobody said how much it is; it only matters where dough and air differ."""
MIXED_C = 24.0
"""Dough as it comes from the bowl, where neither line nor bread says how warm."""
COOL_ROOM_C = 14.0
"""In a room this cold a dough is not as cold as the air from the beginning: it falls to it."""


@dataclass(frozen=True, slots=True)
class RiseSetup:
    """All a forecast needs. air_c: the place; own_c: the dough's warmth where it differs; assumed: in words."""

    m: Models
    stage: str
    air_c: float
    own_c: float | None
    ferment: Fermenting
    around: Around
    mass_g: float
    path: Path
    rise: float | None
    why_rise: str
    begun: State
    assumed: tuple[str, ...]


def rise_setup(request: TimingRequest, room: Room, stage: str) -> RiseSetup:
    """The forecast's givens settled. Refused where it would be frozen, killed, or too hot for a starter's yeast."""
    m = models(room.kb)
    air_c, assumed_air = kitchen_of(request, room, m)
    warmths = [t for t in (air_c, request.later_c, request.dough_c, request.fridge_c) if t is not None]
    refuse_if_deadly(m.k, *warmths)
    ferment = what_ferments(request, room, m, stage)
    if ferment.dough.yeast_fresh_pct <= 0:
        _refuse_if_too_hot(m, air_c if request.dough_c is None else max(air_c, request.dough_c))
    process = process_of(ferment.bread, room.kb) if ferment.bread is not None else None
    own_c = request.dough_c
    assumed_own: tuple[str, ...] = ()
    to_fridge = request.temp_c is None and request.fridge and request.fridge_after_min is None
    if own_c is None and (to_fridge or (stage == "bulk" and air_c <= COOL_ROOM_C)):
        own_c = process.dough_c if process else MIXED_C
        assumed_own = (f"dough {degrees_said(own_c)} from the bowl, falling to {degrees_said(air_c)}",)
    around, assumed_around = around_of(request, room, m, air_c, own_c)
    mass_g = ferment.mass_g or MASS_G
    if stage == "proof":
        mass_g = request.mass_g or ferment.piece_g or (ferment.bread.piece_usual_g if ferment.bread else MASS_G)
    path = stage_path(m.heat, around, mass_g, ferment.dough.hydration_pct, ferment.dough.salt_pct)
    rise, why_rise = target_of(request, ferment, m, stage, own_c if own_c is not None else air_c)
    assumed: tuple[str, ...] = (*ferment.assumed, *assumed_air, *assumed_own, *assumed_around, *request.spread_said)
    if path.legs[-1].tau_h > 0 and ferment.mass_g is None and stage != "proof" and request.mass_g is None:
        assumed = (*assumed, f"{MASS_G:.0f} g of dough")
    if own_c is None and path.legs[-1].tau_h == 0 and stage == "bulk":
        assumed = (*assumed, f"{AS_WARM} its surroundings, {degrees_said(air_c)}")
    begun = begun_of(m, ferment, stage, path, air_c)
    return RiseSetup(m, stage, air_c, own_c, ferment, around, mass_g, path, rise, why_rise, begun, assumed)


def _refuse_if_too_hot(m: Models, warm_c: float) -> None:
    """A starter's own yeast stops where its fitted curve ends; above that no hour can be given."""
    stops_c = m.heat.starter_most_c
    if warm_c > stops_c:
        raise Refused(
            f"at {degrees_said(warm_c)} it is too hot: a starter's yeast stops at about {degrees_said(stops_c)} and "
            "only the acid goes on",
            "cool it to 24 to 28 °C: a colder corner, ice in the water, a bowl set in cold water",
        )


def kitchen_of(request: TimingRequest, room: Room, m: Models) -> tuple[float, tuple[str, ...]]:
    """The air the stage happens in, and what was assumed of it."""
    if request.temp_c is not None and not (request.temp_kept and room.kitchen_is_set):
        return request.temp_c, ()
    if request.place is not None and request.dough_c is None and not request.fridge:
        return _warmth_of(request.place, room)
    if request.fridge and request.fridge_after_min is None and request.later_c is None:
        fridge_c = fridge_c_of(request, room, m)
        return fridge_c, () if request.fridge_c is not None else (f"fridge {degrees_said(fridge_c)}",)
    alone = request.dough_c is not None and request.wished_c is None and not room.kitchen_is_set
    if request.dough_c is not None and alone and not request.fridge and request.later_c is None:
        return request.dough_c, ("surroundings as warm as the dough",)
    if room.kitchen_is_set or getattr(room.formula_said, "kitchen_c", None) is not None:
        return room.kitchen_c, (f"kitchen {degrees_said(room.kitchen_c)}, as you keep it",)
    return room.kitchen_c, (f"kitchen {degrees_said(room.kitchen_c)}",)


def _warmth_of(name: str, room: Room) -> tuple[float, tuple[str, ...]]:
    """How warm a place is, as it was told. Raises Refused where it never was: another place's warmth is not its."""
    place = place_named(name, room.bench.settings)
    warm_c = None if place is None else place.day_c if place.day_c is not None else place.night_c
    if place is not None and warm_c is not None:
        return warm_c, (f"{place.name} {degrees_said(warm_c)}, as you keep it",)
    if name != KITCHEN:
        there = name.removeprefix("the ")
        raise Refused(f"how warm it is there was not told: {there}", f"say it with the question: {there} 14 °C")
    said = ", as you keep it" if room.kitchen_is_set else ""
    return room.kitchen_c, (f"kitchen {degrees_said(room.kitchen_c)}{said}",)


KITCHEN = "kitchen"
"""What the room one works in is called, by whatever name."""


def fridge_c_of(request: TimingRequest, room: Room, m: Models) -> float:
    if request.fridge_c is not None:
        return request.fridge_c
    setting = room.setting("fridge_c")
    return float(setting) if setting is not None else m.records["kitchen_night"].values["fridge_c"]


def around_of(
    request: TimingRequest, room: Room, m: Models, air_c: float, own_c: float | None
) -> tuple[Around, tuple[str, ...]]:
    """What is around the dough, and what was assumed."""
    night = m.records["kitchen_night"].values
    if request.fridge_after_min is not None:
        fridge_c = fridge_c_of(request, room, m)
        said = () if request.fridge_c is not None else (f"fridge {degrees_said(fridge_c)}",)
        return Around(air_c, own_c, second_c=fridge_c, switch_min=request.fridge_after_min), said
    if request.later_c is not None:
        if request.later_after_min is not None:
            return Around(air_c, own_c, request.later_c, request.later_after_min, steps=True), ()
        said = (f"the kitchen falls evenly to {degrees_said(request.later_c)} over {hours_said(night['falls_min'])}",)
        return Around(air_c, own_c, request.later_c, night["falls_min"]), said
    return Around(air_c, own_c), ()


def target_of(
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


def what_ferments(request: TimingRequest, room: Room, m: Models, stage: str) -> Fermenting:
    """What ferments: a dough, a preferment by its own figures, or a starter just fed."""
    pace = pace_of(room)
    if stage == "starter":
        ratio = request.ratio or (1.0, 2.0, 2.0)
        seed_pct = request.starter_hydration_pct or float(room.setting("starter_hydration_pct") or 100.0)
        if min(ratio[0], ratio[1]) <= 0:
            raise Refused("a feed needs seed and flour: 1:0 feeds nothing", "for example 1:2:2, seed, flour, water")
        dough = starter_dough(*ratio, seed_pct, pace=pace.value, cold_seed=request.fridge)
        parts = ":".join(f"{part:g}" for part in ratio)
        said = (f"fed {parts}",) if request.ratio else ()
        return Fermenting(
            dough, None, request.mass_g, None, said, () if request.ratio else (f"fed {parts}",), pace.count > 0, None
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


def begun_of(m: Models, ferment: Fermenting, stage: str, path: Path, air_c: float) -> State:
    """The state the stage begins in: just mixed, or shaped after a bulk to the bread's own stop at the same warmth."""
    start = mixed(m.k, ferment.dough)
    if stage != "proof":
        return start
    bulk_pct = ferment.bread.rise_bulk_pct if ferment.bread else m.records["bulk_stop_lean"].values["bulk_pct"]
    bulk_c = min(max(air_c, 20.0), 27.0)
    bulk = forecast(m.k, ferment.dough, steady(bulk_c), max(10.0, bulk_pct))
    return shaped(m.k, bulk.end) if math.isfinite(bulk.minutes) else start


def begins_in_min(request: TimingRequest, room: Room) -> float | None:
    """Minutes from now at which the stage began (negative: it is under way); None where no hour was said."""
    if request.begun_at is None:
        return None
    minutes = minutes_until(room.now, resolve(request.begun_at, room.now))
    if request.begun_at.day is None and request.since and minutes > 0:
        minutes -= (24 if request.begun_at.sure else 12) * 60  # "since 4" has gone by
    elif request.begun_at.day is None and minutes > 12 * 60:
        minutes -= 24 * 60  # a clock time that has gone by is today's
    return minutes
