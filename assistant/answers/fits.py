"""Does it fit: litres of tub, pieces on a tray, mixes in a bowl."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.answers import answers
from assistant.answers.bread_meant import piece_bread, process_of
from assistant.answers.dough_said import solved
from assistant.answers.oven_and_pot import TRAY_CM
from assistant.engine.dough import Formula
from assistant.engine.fits import baked_width_cm, bowl_batches, dough_litres, gas_free_density_g_per_l, tray_pieces
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.fits import FitsRequest
from knowledge.records.breads import Bread

HEADROOM = 1.15
"""A tub is wanted so much larger than the dough at its mark: it domes, and you may be late."""
_LEAN_HYDRATION = 65.0


@dataclass(frozen=True, slots=True)
class _Dough:
    """What is to fit: dough grams, pieces and their mass where known, hydration, flour, and the bread it is."""

    dough_g: float
    pieces: float | None
    piece_g: float
    hydration_pct: float
    flour_g: float
    bread: Bread


@answers(FitsRequest)
def answer(request: FitsRequest, room: Room) -> Outcome:
    """The fit asked about, for the dough said or the one in hand."""
    assumed: list[str] = []
    dough = _dough(request, room, assumed)
    if request.what == "tray":
        said, fields = _tray(request, dough, room, assumed)
    elif request.what == "mixer":
        said, fields = _mixer(request, dough)
    else:
        said, fields = _tub(request, dough, assumed)
    text = " ".join(said)
    read_as = f"does it fit: {dough.dough_g:.0f} g of dough ({dough.bread.name.lower()}), {request.what}"
    lines = [Line(said[0], role="head"), *(Line(one) for one in said[1:])]
    if assumed:
        lines.append(Line("assumed: " + ", ".join(assumed), role="note"))
    return Outcome(
        kind="explanation",
        answer={"topic": f"fits_{request.what}", "text": text, **fields},
        read_as=read_as,
        page=Page(tuple(lines)),
        assumed=tuple(assumed),
        sources=(process_of(dough.bread, room.kb).source,),
    )


def _dough(request: FitsRequest, room: Room, assumed: list[str]) -> _Dough:
    formula: Formula | None = None
    if room.bake is not None and request.pieces is None and request.dough_g is None:
        formula = solved(room.formula_said, room)
    bread = piece_bread(request.bread or (formula.bread if formula else None), request.piece, room.kb, False)
    piece_g = request.piece_g or (formula.piece_g if formula else None) or bread.piece_usual_g
    if formula is not None:
        return _Dough(formula.dough_g, formula.pieces, piece_g, formula.hydration_pct, formula.flour_g, bread)
    if request.what != "tray" and request.dough_g is None and request.pieces is None:
        why = "which dough was not said, and none is in hand"
        raise Refused(why, "say its weight: how big a tub for 2.4 kg of dough")
    hydration = bread.hydration_usual_pct if request.bread or request.piece else _LEAN_HYDRATION
    grams = request.dough_g or (request.pieces or 1) * piece_g
    if request.what != "tray":
        assumed.append(f"{hydration:g} % hydration")
    if request.piece_g is None and request.dough_g is None:
        assumed.append(f"pieces of {piece_g:g} g")
    return _Dough(grams, request.pieces, piece_g, hydration, grams / (1 + hydration / 100 + 0.02), bread)


def _tub(request: FitsRequest, dough: _Dough, assumed: list[str]) -> tuple[list[str], dict[str, float | bool]]:
    rise = request.rise_pct
    if rise is None:
        rise = dough.bread.rise_bulk_pct
        assumed.append(f"bulk to +{rise:g} % ({dough.bread.name.lower()})")
    density = gas_free_density_g_per_l(dough.hydration_pct)
    at_mark = dough_litres(dough.dough_g, rise, density)
    start = dough_litres(dough.dough_g, 0, density)
    wanted = at_mark * HEADROOM
    fields: dict[str, float | bool] = {"start_l": start, "mark_l": at_mark, "tub_l": wanted}
    said = [f"{dough.dough_g:.0f} g of dough fill {start:.1f} l just mixed and {at_mark:.1f} l at +{rise:.0f} %."]
    if request.tub_ml is None:
        said.append(f"A tub of {wanted:.1f} l or more leaves room for the dome.")
        return said, fields
    tub = request.tub_ml / 1000
    fields["fits"] = tub >= at_mark
    if tub >= wanted:
        said.append(f"It fits in {tub:.1f} l; the mark stands at {100 * at_mark / tub:.0f} % of the tub's height.")
    elif tub >= at_mark:
        said.append(f"It just fits in {tub:.1f} l: watch it, an hour too long and it is over the rim.")
    else:
        said.append(f"It does not fit in {tub:.1f} l: two tubs, or {wanted:.1f} l.")
    return said, fields


def _tray(
    request: FitsRequest, dough: _Dough, room: Room, assumed: list[str]
) -> tuple[list[str], dict[str, float | bool]]:
    process = process_of(dough.bread, room.kb)
    width = baked_width_cm(dough.piece_g, dough.bread.bake_loss_pct, process)
    length = width * process.length_share
    if len(request.tray_cm) >= 2:
        sides = (request.tray_cm[0], request.tray_cm[1])
    else:
        sides = TRAY_CM
        assumed.append(f"a tray of {sides[0]:g} x {sides[1]:g} cm")
    count = tray_pieces(*sides, width, length, process.gap_cm)
    size = f"{width:.0f} cm across" if length == width else f"{length:.0f} x {width:.0f} cm"
    name = dough.bread.said_as[0]
    said = [f"{count} on a tray of {sides[0]:g} x {sides[1]:g} cm, {process.gap_cm:g} cm between."]
    said.append(f"A {dough.piece_g:.0f} g {name} bakes to about {size}.")
    fields: dict[str, float | bool] = {"per_tray": count, "width_cm": width, "length_cm": length}
    if dough.pieces is not None and count:
        trays = -(-int(dough.pieces) // count)
        said.append(f"{dough.pieces:g} need {trays} {'tray' if trays == 1 else 'trays'}.")
        fields["trays"] = trays
    return said, fields


def _mixer(request: FitsRequest, dough: _Dough) -> tuple[list[str], dict[str, float | bool]]:
    if request.mixer_g is None:
        raise Refused("how much flour the mixer takes was not said", "say it: my mixer takes 1 kg of flour")
    mixes = bowl_batches(dough.flour_g, dough.hydration_pct, request.mixer_g)
    each = dough.flour_g / mixes
    many = "One mix" if mixes == 1 else f"{mixes} mixes"
    said = [f"{many}: {dough.flour_g:.0f} g of flour, the bowl takes {request.mixer_g:.0f} g."]
    if mixes > 1:
        said.append(f"{each:.0f} g of flour in each.")
    if dough.hydration_pct < 60:
        stiff = f"A dough of {dough.hydration_pct:.0f} % is stiff"
        said.append(f"{stiff}: it strains the motor, so the bowl counts for less.")
    return said, {"mixes": mixes, "flour_g": dough.flour_g, "flour_each_g": each}
