"""The dough that does not make the pieces it was to make."""

from __future__ import annotations

from assistant.answers.in_the_bowl import amounts, notes, rows
from assistant.answers.mend_case import Case
from assistant.answers.mended import mend_fields
from assistant.engine.cautions import Scene
from assistant.engine.mend_pieces import short_of_pieces
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome, Unclear
from assistant.voice.page import Line, Page


def short(case: Case) -> Outcome:
    """The dough does not make the pieces that are wanted."""
    request, plan, room = case.request, case.plan, case.room
    wanted = int(request.pieces or plan.pieces or 0)
    piece_g = request.piece_g or plan.piece_g
    made = int(request.made) if request.made is not None else None
    if request.too_few is not None and plan.pieces:
        wanted, made = plan.pieces, plan.pieces - int(request.too_few)
    if wanted and made is not None and made > wanted:
        wanted, made = made, wanted
    if not wanted or piece_g is None:
        raise Unclear("How many pieces should it make, and of what size?", ("only makes 22 of 100 g, should be 24",))
    loss = 1 + plan.loss_pct / 100
    dough_g = request.dough_g or (made * piece_g * loss if made is not None else None)
    if dough_g is None:
        raise Unclear(
            "How much dough is there, or how many pieces did it make?", ("only makes 22", "only 2100 g of dough")
        )
    if dough_g >= wanted * piece_g * loss:
        raise Refused(f"{dough_g:.0f} g makes {wanted} of {figure(piece_g)} g and more.", "Weigh the dough again.")
    smaller_g, more = short_of_pieces(plan, wanted, piece_g, dough_g)
    smaller = figure(100 * (1 - smaller_g / piece_g))
    advice = f"Divide into {wanted} of {figure(smaller_g)} g: {smaller} % smaller, a little less time."
    fields = mend_fields((), plan, plan, case.known, room) | {
        "dough_g": dough_g, "pieces": wanted, "piece_g": smaller_g, "advice": advice, "more": rows(more),
    }  # fmt: skip
    blocks = [Line(advice, role="head")]
    missing = wanted - int(dough_g / loss / piece_g + 1e-6)
    if more and case.known:
        blocks.append(Line(f"Or mix a little more of the same for the {missing} missing: {amounts(more, room)}."))
    said, lines = notes(Scene("mend", room.text), room)
    return Outcome(
        "mend", fields, f"dough short of {wanted} pieces", Page((*blocks, *lines)), case.assumed, said, ("arithmetic",)
    )
