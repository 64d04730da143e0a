"""A swap's amounts in grams, and the dough meant where only some of it was told beside the swap."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.dough_said import cup_system
from assistant.engine.bowl import Bowl
from assistant.engine.composition import Portion
from assistant.engine.measures import Said, measure_book
from assistant.engine.weighing import weigh
from assistant.talk.room import Room
from grammar.requests.swap import SwapRequest

PLAIN_HYDRATION = 0.65


def weighed(request: SwapRequest, room: Room) -> SwapRequest:
    """The request in grams where it was said by the cup or spoon."""
    out_g = _by_measure(request.out_measure, request.out, room)
    into_g = _by_measure(request.into_measure, request.into, room)
    request = replace(
        request, out_g=request.out_g if out_g is None else out_g, into_g=request.into_g if into_g is None else into_g
    )
    return replace(request, have=False, have_g=request.out_g, out_g=None) if request.have else request


def _by_measure(measure: tuple[float, str] | None, items: tuple[str, ...], room: Room) -> float | None:
    """Grams of the likeliest of these ingredients by the cup, spoon or pack; None where no measure was said."""
    named = [item for item in items if item in room.kb.ingredients]
    if measure is None or not named:
        return None
    amount, unit = measure
    book = measure_book(room.kb)
    item = book.packed_as(unit, named)
    return weigh((Said(amount, amount, unit),), item, cup_system(room.bench.settings), "", book).g


def told_dough(request: SwapRequest, room: Room) -> Bowl:
    """The rows told in the line as a bowl."""
    rows: list[Portion] = []
    for ids, mass_g, measure, count in request.rows:
        item = next((item for item in ids if item in room.kb.ingredients), None)
        if item is None:
            continue
        each = room.kb.ingredients[item].each_g or 0.0
        g = mass_g or _by_measure(measure, ids, room) or (count or 0.0) * each
        if g > 0 and not item.startswith("starter"):
            rows.append(Portion(item, g))
    return Bowl((), starter_g=0.0).with_added(rows)


def plain_dough(request: SwapRequest, flour_g: float, room: Room) -> Bowl:
    """The dough meant where only its flour was said beside the swap: 65 % water, and the thing to be replaced."""
    rows = [Portion("flour_bread", flour_g), Portion("water", flour_g * PLAIN_HYDRATION)]
    named = next((item for item in request.out if item in room.kb.ingredients and not item.startswith("starter")), None)
    if named is not None and request.out_g:
        rows.append(Portion(named, request.out_g))
    return Bowl((), starter_g=0.0).with_added(rows)
