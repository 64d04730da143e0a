"""The pieces of a dough that came out heavier or lighter than planned."""

from __future__ import annotations

from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.composition import Portion
from assistant.engine.mend_rows import weighable
from assistant.engine.refusal import Refused


def short_of_pieces(plan: Bowl, wanted: int, piece_g: float, dough_g: float) -> tuple[float, tuple[Portion, ...]]:
    """The dough on the bench does not make `wanted` pieces of `piece_g`.

    Returns the piece mass it does make, and what a little dough of the same formula for the missing pieces takes.
    """
    if wanted < 1 or piece_g <= 0:
        raise Refused("No pieces to divide into.", "Say how many pieces, and of what size.")
    loss = 1 + plan.loss_pct / 100
    missing_g = max(wanted * piece_g * loss - dough_g, 0.0)
    factor = missing_g / plan.dough_g if plan.dough_g > 0 else 0.0
    rows = (*plan.portions, *((Portion(STARTER, plan.starter_g),) if plan.starter_g > 0 else ()))
    return dough_g / loss / wanted, weighable(Portion(row.item, row.g * factor) for row in rows)


def divided(plan: Bowl, dough_g: float) -> tuple[int | None, float | None]:
    """Pieces and piece mass for a dough of this weight: as near as can be to the planned piece."""
    if plan.pieces is None or plan.piece_g is None:
        return None, None
    net_g = dough_g / (1 + plan.loss_pct / 100)
    pieces = max(round(net_g / plan.piece_g), 1)
    return pieces, net_g / pieces
