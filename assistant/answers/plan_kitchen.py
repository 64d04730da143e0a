"""The kitchen a plan is made for: its warmth, its fridge, what oven and pot take at once."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.answers.oven_and_pot import POT_PIECES, TRAYS, oven_takes
from assistant.answers.plan_dough import LOAF_G
from assistant.engine.plan.asked import MIXING_RISE_C, Batch, Kitchen
from assistant.talk.kitchen import places
from assistant.talk.room import Room
from grammar.requests.plan import PlanRequest
from knowledge.records.breads import Bread

_PLACES_C = (10.0, 32.0)
"""Places in which a dough may rise."""


def kitchen_of(request: PlanRequest, bread: Bread, batch: Batch, room: Room, assumed: list[str]) -> Kitchen:
    """The kitchen as it was said for this bake, else as it is set, else as it is usual."""
    room_c = request.kitchen_c
    if room_c is None:
        room_c = room.kitchen_c
        assumed.append(f"kitchen {room_c:g} °C" + (" (your setting)" if room.kitchen_is_set else ""))
    fridge = request.fridge_c if request.fridge_c is not None else room.setting("fridge_c")
    if fridge is None:
        fridge = 4.0
        if request.cold not in (None, "none"):
            assumed.append("fridge 4 °C")
    return Kitchen(
        room_c=room_c,
        night_c=request.night_c if request.night_c is not None or request.kitchen_c is not None else room.night_c,
        fridge_c=float(fridge),
        oven_pieces=_oven(request, bread, batch, room, assumed),
        pot_pieces=_pot(request, batch, room, assumed),
        trays=int(request.trays or room.setting("trays") or TRAYS),
        places_c=tuple(dict.fromkeys(_steady_places(room))),
        fridge_l=request.fridge_l if request.fridge_l is not None else room.setting("fridge_l"),
        fridge_trays=_count(request.fridge_trays or room.setting("fridge_trays")),
        fridge_pieces=_count(request.fridge_pieces or room.setting("fridge_takes")),
        mixing_rise_c=MIXING_RISE_C if room.setting("friction_c") is None else float(room.setting("friction_c")),
    )


def _steady_places(room: Room) -> Iterator[float]:
    """Warmth of the places told of that are as warm by night as by day, the kitchen aside."""
    for place in places(room.bench.settings):
        same = place.night_c is None or place.night_c == place.day_c
        if place.day_c is not None and place.name != "kitchen" and same and _PLACES_C[0] <= place.day_c <= _PLACES_C[1]:
            yield place.day_c


def _count(setting: float | None) -> int | None:
    """A setting as a count of at least one."""
    return None if setting is None else max(1, int(setting))


def _oven(request: PlanRequest, bread: Bread, batch: Batch, room: Room, assumed: list[str]) -> int:
    """Pieces the oven takes at once: said, by its trays, set, or what a home oven takes."""
    if request.oven_pieces is not None:
        return max(1, int(request.oven_pieces))
    fit = oven_takes(batch.piece_g, bread, batch.process)
    if request.trays is not None or request.tray_pieces is not None:
        each = int(request.tray_pieces) if request.tray_pieces is not None else max(1, fit // 2)
        return max(1, int(request.trays or 1) * each)
    if room.oven_pieces is not None:
        return min(room.oven_pieces, fit) if batch.piece_g >= LOAF_G else room.oven_pieces
    if batch.pieces > fit:
        assumed.append(f"oven takes {fit} at a time")
    return fit


def _pot(request: PlanRequest, batch: Batch, room: Room, assumed: list[str]) -> int:
    """Pieces the pot takes at once."""
    setting = request.pot_pieces if request.pot_pieces is not None else room.pot_pieces
    if setting is not None:
        return max(1, int(setting))
    if batch.boil_s_per_side is not None:
        assumed.append(f"pot takes {POT_PIECES}")
    return POT_PIECES
