"""What has to be asked back before a dough can be solved: more of what, which of two doughs, which weight."""

from __future__ import annotations

from assistant.answers.dough_change import how_much
from assistant.answers.dough_said import solved
from assistant.engine.naming import figure
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest


def ask_what_is_open(request: FormulaRequest, line: FormulaRequest | None, room: Room) -> None:
    """Raises Unclear where a dough cannot be solved before something is asked. line: what was said now, alone."""
    if line is not None:
        _ask_of_change(line, room)
    batches = request.batches or (line.batches if line is not None else ())
    if batches:
        raise Unclear("Those are two doughs: I weigh out one at a time. Which first?", batches)
    if request.two_sizes or (line is not None and line.two_sizes):
        raise _two_sizes(line or request, room)
    if request.either is not None:
        said = f"{request.either:g}"
        raise Unclear(f"{said} what: pieces, or grams each?", (f"{said} pieces", f"{said} g each"))


def _ask_of_change(line: FormulaRequest, room: Room) -> None:
    """A change without its figure, for heads of a dough that feeds nobody told of, or of nobody knows what."""
    if line.vague and line.more_pieces is None and line.asked and room.bake is not None:
        raise how_much(line.asked[0], room)
    if line.heads_changed is not None and line.heads_changed.by and not _fed(room):
        many = abs(line.heads_changed.by)
        more = "more" if line.heads_changed.by > 0 else "fewer"
        near = (f"{figure(many)} {more} pieces", f"{figure(2 * many)} {more} pieces")
        raise Unclear("How many pieces does each one get?", near)
    if line.vague and line.more_pieces is not None:
        count, fewer = abs(line.more_pieces), line.more_pieces < 0
        word, less = ("fewer", "less") if fewer else ("more", "more")
        near = (f"{count:g} {word} pieces", f"{count:g} points {less} water: make it ...")
        raise Unclear(f"{count:g} {word} of what: pieces, grams, or points of hydration?", near)


def _fed(room: Room) -> bool:
    """Whether it is known of the dough in hand how many it is to feed."""
    said = room.formula_said
    return isinstance(said, FormulaRequest) and (said.heads is not None or said.portions is not None)


def _two_sizes(line: FormulaRequest, room: Room) -> Unclear:
    """ "make half of them 100 g": one batch has one weight; what each half would be on its own."""
    earlier = room.formula_said
    now = solved(earlier, room) if isinstance(earlier, FormulaRequest) else None
    if now is None or now.pieces is None or now.piece_g is None or line.piece_g is None:
        return Unclear("How many pieces of which weight?", ("12 rolls of 80 g", "6 rolls of 120 g"))
    some = round(now.pieces * (line.scale or 0.5))
    total_g = (now.pieces - some) * now.piece_g + some * line.piece_g
    ways = (f"{figure(total_g)} g dough", f"{figure(some)} pieces of {figure(line.piece_g)} g")
    left = f"{figure(now.pieces - some)} of {figure(now.piece_g)} g and {figure(some)} of {figure(line.piece_g)} g"
    question = f"{left} are two weights in one batch: {figure(total_g)} g of dough in all. Which is to be made?"
    return Unclear(question, ways)
