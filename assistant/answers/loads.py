"""Pot and oven in batches: which pieces go when, who waits in the cold, and what holds everything up."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from assistant.answers import answers
from assistant.answers.account_kept import pieces_there
from assistant.answers.bread_meant import piece_bread, process_of
from assistant.answers.dough_said import solved
from assistant.answers.loads_under_way import UnderWay, timed, under_way_of
from assistant.answers.oven_and_pot import POT_PIECES, TRAY_CM, TRAYS, oven_takes
from assistant.engine.loads import Loads, PotAndOven, best_loads, even_sizes, minutes_saved, run_in_turn
from assistant.engine.plan.batches import bake_minutes, oven_factor, oven_of
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.loads_page import loads_page
from grammar.requests.loads import LoadsRequest
from knowledge.records.bench_work import BenchWork
from knowledge.records.breads import Bread
from knowledge.records.process import Process

_LEAST_BAKE_MIN = 0.5


@dataclass(frozen=True, slots=True)
class Pieces:
    """What is to be baked: how many, how heavy, of which bread."""

    count: int
    piece_g: float
    bread: Bread
    process: Process


@answers(LoadsRequest)
def answer(request: LoadsRequest, room: Room) -> Outcome:
    """The loads of a request; what is unsaid comes from the bake in hand, the kitchen's settings, the bread."""
    assumed: list[str] = []
    under_way = under_way_of(request, room)
    pieces = _pieces(request, room, assumed)
    if under_way is not None:
        pieces = replace(pieces, count=under_way.rest or pieces.count)
    work = _work(request, pieces, room, assumed)
    done, begin = timed(request, _run(work, under_way), under_way, room, assumed)
    oven_more = minutes_saved(work, oven_pieces=2 * work.oven_pieces)
    pot_more = minutes_saved(work, pots=2) if work.pot_pieces else 0.0
    page = loads_page(done, work, begin, pieces.bread.said_as[0], pot_more, oven_more)
    return Outcome(
        kind="loads",
        answer=_fields(done, work, begin),
        read_as=_read_as(work, begin, pieces),
        page=page,
        assumed=tuple(assumed),
        cautions=(_BOIL_CAUTION,) if work.pot_pieces else (),
        sources=(pieces.bread.source,),
    )


def _run(work: PotAndOven, stands: UnderWay | None) -> Loads:
    """The loads as the bake under way has them where its hours are known, else the quickest."""
    if stands is None or stands.next_at is None:
        return best_loads(work)
    return run_in_turn(work, even_sizes(work.pieces, work.oven_pieces))


_BOIL_CAUTION = "boiling water: lower the pieces in with a slotted spoon, keep children away from the pot"


def _pieces(request: LoadsRequest, room: Room, assumed: list[str]) -> Pieces:
    count, piece_g, bread_id = request.pieces, request.piece_g, request.bread
    boils = request.pot_pieces is not None
    if count is None and room.bake is not None:
        formula = solved(room.formula_said, room)
        count = None if formula.pieces is None else pieces_there(room, int(formula.pieces))
        piece_g = piece_g or formula.piece_g
        bread_id = bread_id or formula.bread
    if count is None:
        raise Refused(
            "how many pieces was not said, and there is no dough in hand", "say how many: 24 rings, pot takes 5"
        )
    if count != int(count):
        raise Refused(f"{count:g} pieces cannot be counted out", "a whole number of pieces")
    bread = piece_bread(bread_id, request.piece, room.kb, boils)
    if piece_g is None:
        piece_g = bread.piece_usual_g
        if request.bake_min is None or request.oven_pieces is None:
            assumed.append(f"pieces of {piece_g:g} g")
    return Pieces(int(count), piece_g, bread, process_of(bread, room.kb))


def _work(request: LoadsRequest, pieces: Pieces, room: Room, assumed: list[str]) -> PotAndOven:
    work = room.kb.all(BenchWork)
    bake_min = request.bake_min
    if bake_min is None:
        factor = oven_factor(pieces.bread, oven_of(pieces.bread, room.setting("oven_max_c")))
        bake_min = float(math.ceil(bake_minutes(pieces.bread, pieces.piece_g) * factor))
        assumed.append(f"{bake_min:g} min in the oven")
    if bake_min < _LEAST_BAKE_MIN:
        raise Refused(f"{bake_min * 60:g} s in the oven bakes nothing", "say the minutes one load bakes")
    pot = _pot(request, pieces, room, assumed)
    if pot is not None:
        pot *= int(request.pots)
    sides_s = request.boil_s_per_side
    if pot is not None and sides_s is None:
        sides_s = pieces.bread.boil_s_per_side or 45.0
        assumed.append(f"{sides_s:g} s a side")
    return PotAndOven(
        pieces=pieces.count,
        oven_pieces=_oven(request, pieces, room, assumed) * int(request.ovens),
        bake_min=bake_min,
        pot_pieces=pot,
        boil_s_per_side=sides_s or 0.0,
        lift_min=work["lift"].minutes,
        change_min=work["change"].minutes,
    )


def _pot(request: LoadsRequest, pieces: Pieces, room: Room, assumed: list[str]) -> int | None:
    if request.no_boil:
        return None
    if request.pot_pieces is not None:
        return _at_once(request.pot_pieces, "pot")
    if request.boil_s_per_side is None and pieces.bread.boil_s_per_side is None:
        return None
    if room.pot_pieces is not None:
        return room.pot_pieces
    assumed.append(f"pot takes {POT_PIECES}")
    return POT_PIECES


def _oven(request: LoadsRequest, pieces: Pieces, room: Room, assumed: list[str]) -> int:
    if request.oven_pieces is not None:
        return _at_once(request.oven_pieces, "oven")
    fit = oven_takes(pieces.piece_g, pieces.bread, pieces.process) // TRAYS
    if request.tray_pieces is not None or request.trays is not None:
        trays, each = request.trays, request.tray_pieces
        if trays is None:
            trays = 1.0
            assumed.append("one tray in the oven at a time")
        if each is None:
            each = float(fit)
            assumed.append(f"{fit} pieces on a tray of {TRAY_CM[0]:g} x {TRAY_CM[1]:g} cm")
        return max(1, int(trays) * int(each))
    if room.oven_pieces is not None:
        return room.oven_pieces
    assumed.append(f"oven takes {TRAYS} trays of {fit}")
    return TRAYS * fit


def _at_once(pieces: float, where: str) -> int:
    if pieces < 1:
        raise Refused(f"{pieces:g} pieces in the {where} at once cannot be", "say how many it takes")
    return int(pieces)


def _fields(done: Loads, work: PotAndOven, begin: datetime) -> dict[str, Any]:
    def at(minutes: float | None) -> str | None:
        return None if minutes is None else stamp(begin + timedelta(minutes=minutes))

    return {
        "boil_loads": len(done.potfuls),
        "bake_loads": len(done.loads),
        "loads": [
            {
                "pieces": load.pieces,
                "boil_start": at(load.boil_start_min),
                "bake_start": at(load.bake_start_min),
                "bake_end": at(load.bake_end_min),
                "waits_cold": load.waits_cold,
            }
            for load in done.loads
        ],
        "potfuls": [
            {"pieces": one.pieces, "start": at(one.start_min), "end": at(one.end_min)} for one in done.potfuls
        ],
        "total_min": done.total_min,
        "bottleneck": done.bottleneck,
        "boiled_wait_min": done.boiled_wait_min,
        "pot_pieces": work.pot_pieces,
        "oven_pieces": work.oven_pieces,
        "bake_min": work.bake_min,
    }


def stamp(moment: datetime) -> str:
    """ISO 8601 local to the minute, or to the second where it is not whole."""
    whole = moment.second == 0 and moment.microsecond == 0
    return moment.replace(microsecond=0).isoformat(timespec="minutes" if whole else "seconds")


def _read_as(work: PotAndOven, begin: datetime, pieces: Pieces) -> str:
    said = [f"{work.pieces} pieces ({pieces.bread.name.lower()})"]
    if work.pot_pieces:
        said.append(f"{work.pot_pieces} in the pot, {work.boil_s_per_side:g} s a side")
    said.append(f"{work.oven_pieces} in the oven, {work.bake_min:g} min")
    said.append(f"from {begin.strftime('%a %H:%M')}")
    return ", ".join(said)
