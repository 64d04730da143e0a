"""What the answers about the length of a stage share: their outcome, the piece, the fridge."""

from __future__ import annotations

from typing import Any

from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import Models
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread

COLDEST_ROOM_C = 12.0
"""A warmth said of a stay in the fridge that is above this is the kitchen's."""


def stage_outcome(
    fields: dict[str, Any], read_as: str, lines: tuple[str, ...], assumed: tuple[str, ...], sources: tuple[str, ...]
) -> Outcome:
    """The outcome of a stage whose length no fermentation decides: the first line is what was asked."""
    head, *rest = lines
    blocks = [Line(head, role="head"), *(Line(line) for line in rest)]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    return Outcome("timing", fields, read_as, Page(tuple(blocks)), assumed=assumed, sources=sources)


def piece_of(request: TimingRequest, room: Room, bread: Bread) -> tuple[float, bool]:
    """Grams of a raw piece: as said, else of the dough in hand, else the bread's usual; whether anybody said it."""
    formula = formula_in_hand(room)
    if request.mass_g is not None:
        return request.mass_g, True
    if formula is not None and formula.piece_g is not None:
        return formula.piece_g, True
    return bread.piece_usual_g, False


def fridge_of(request: TimingRequest, room: Room, m: Models) -> tuple[float, tuple[str, ...]]:
    """The fridge's warmth: as said, as it is kept, else the usual one; and what was assumed of it."""
    said_c = request.fridge_c
    if said_c is None and request.stage == "retard" and request.temp_c is not None and request.temp_c <= COLDEST_ROOM_C:
        said_c = request.temp_c
    if said_c is not None:
        return said_c, ()
    setting = room.setting("fridge_c")
    if setting is not None:
        return float(setting), (f"fridge {degrees_said(float(setting))}, as you keep it",)
    usual_c = m.records["kitchen_night"].values["fridge_c"]
    return usual_c, (f"fridge {degrees_said(usual_c)}",)
