"""The dough a plan is for: the one in hand with what was said of it, or a new one filled up with what is usual."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.bread_meant import piece_bread
from assistant.answers.dough_said import by_head
from assistant.engine.dough import Formula
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.plan import PlanRequest
from knowledge import Knowledge
from knowledge.records.breads import Bread

DOZEN, LOAVES = 12.0, 2.0
LOAF_G = 350.0
_LARGE_PIECES = frozenset({"loaf", "boule", "batard"})

_FAR_LARGER = 3.0
"""A bread whose usual piece is so many times what the piece said weighs is no bread of such pieces."""


def in_pieces(request: PlanRequest, kb: Knowledge) -> PlanRequest:
    """ "20 sourdough rolls" are rolls: a plain loaf named beside a small piece says only what raises them."""
    if request.bread is None or request.piece is None or request.piece_g is not None:
        return request
    bread, small = kb.breads[request.bread], piece_bread(None, request.piece, kb, False)
    plain = bread.fat_usual_pct == 0 and bread.sugar_usual_pct == 0 and bread.yeast_fresh_usual_pct == 0
    if plain and bread.piece_usual_g >= _FAR_LARGER * small.piece_usual_g:
        return replace(request, bread=None)
    return request


def dough_planned(request: PlanRequest, room: Room, assumed: list[str]) -> tuple[FormulaRequest, bool]:
    """The dough to plan for, and whether it is a new one. Refused where none is in hand and none was said."""
    in_hand = room.formula_said if room.bake is not None else None
    changes = _dough_changes(request)
    if isinstance(in_hand, FormulaRequest) and not _another_dough(request, in_hand):
        if request.starter_pct is not None:
            in_hand = replace(in_hand, prefermented_pct=None, starter_g=None)
        return replace(in_hand, **changes), False  # type: ignore[arg-type]
    if not (request.names_dough or request.start_now or changes or request.starter is not None):
        why = "what is to be baked was not said, and no dough is in hand"
        raise Refused(why, "say it: 24 rings ready by 9 on Sunday")
    return replace(_new_dough(request, room.kb, assumed), **changes), True  # type: ignore[arg-type]


def _new_dough(request: PlanRequest, kb: Knowledge, assumed: list[str]) -> FormulaRequest:
    """A dough of the pieces said, their number and weight filled in where they were not."""
    bread = _named(request, kb)
    grams = request.piece_g or (bread.piece_usual_g if bread is not None else None)
    pieces = request.pieces
    if pieces is None:
        big = grams is not None and grams >= LOAF_G
        pieces = LOAVES if big or request.piece in _LARGE_PIECES else DOZEN
        assumed.append(f"{pieces:g} pieces")
    if grams is None:
        grams = piece_bread(None, request.piece, kb, False).piece_usual_g
    if request.piece_g is None:
        assumed.append(f"pieces of {grams:g} g")
    rich = bread is not None and bread.egg_usual_pct > 0
    if rich:
        assumed.append("its usual dough")
    dough = FormulaRequest(pieces=pieces, piece_g=grams, bread=request.bread, piece=request.piece, usual=rich)
    if request.for_heads and request.piece_g is None:
        return by_head(replace(dough, piece_g=None, for_heads=True), kb)
    return dough


def _dough_changes(request: PlanRequest) -> dict[str, object]:
    """What was said of the dough itself, as fields of its formula."""
    shares = ("hydration_pct", "salt_pct", "starter_pct")
    said = {name: getattr(request, name) for name in shares if getattr(request, name)}
    yeast = () if request.yeast is None else (Part((request.yeast,), pct=request.yeast_pct),)
    parts = (*request.flours, *request.rows, *yeast)
    if parts:
        said["parts"] = parts
    if request.preferments:
        said["preferments"] = request.preferments
    if yeast and request.starter_pct is None:
        said["without"] = ("starter",)
    return said


def _another_dough(request: PlanRequest, in_hand: FormulaRequest) -> bool:
    """Whether the line names a dough other than the one in hand: other pieces, or another number of them."""
    if request.bread is not None and request.bread != in_hand.bread:
        return True
    if request.piece is not None and request.piece not in (in_hand.piece, None) and in_hand.bread is None:
        return in_hand.piece is not None
    return request.pieces is not None and request.pieces != in_hand.pieces


def _named(request: PlanRequest, kb: Knowledge) -> Bread | None:
    """The bread named, by itself or by its pieces."""
    if request.bread is not None:
        return kb.breads[request.bread]
    if request.piece is not None:
        return piece_bread(None, request.piece, kb, False)
    return None


def planned_bread(request: PlanRequest, dough: FormulaRequest, formula: Formula, kb: Knowledge) -> Bread:
    """The bread whose rises, oven and cold the plan goes by."""
    bread_id = request.bread or dough.bread or formula.bread
    piece = request.piece or dough.piece
    if bread_id is None and piece is None and (formula.piece_g or 0) >= LOAF_G:
        piece = "loaf"
    bread = piece_bread(bread_id, piece, kb, False)
    if bread.id == "hearth_loaf" and formula.starter is not None:
        return kb.breads["sourdough_loaf"]
    return bread
