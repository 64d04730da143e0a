"""Why there are so many pieces of such a weight, and what the scale shows after each pour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.reasons.reason import Reason, with_layer
from assistant.engine.reasons.shares import bread_source
from assistant.engine.rounding import whole_grams

if TYPE_CHECKING:
    from knowledge import Knowledge


def piece_reasons(formula: Formula, kb: Knowledge) -> list[Reason]:
    pieces, piece_g = formula.pieces, formula.piece_g
    if pieces is None or piece_g is None:
        return []
    loss = f" / {1 + formula.loss_pct / 100:g}" if formula.loss_pct else ""
    spare = f", {grams(formula.spare_g)} g over" if formula.spare_g else ""
    out = [
        Reason(
            "pieces", "pieces", pieces, "",
            f"{grams(formula.dough_g)} g dough{loss} / {figure(piece_g)} g = {figure(pieces)}{spare}"
            f"{with_layer(formula, 'pieces')}",
        ),
    ]  # fmt: skip
    if formula.baked_g is not None:
        text = (
            f"{figure(formula.baked_g)} g baked / (1 - {1 - formula.baked_g / piece_g:.3g} bake loss) "
            f"= {figure(piece_g)} g raw"
        )
    else:
        text = (
            f"{grams(formula.dough_g)} g dough{loss} / {figure(pieces)} = {figure(piece_g)} g"
            f"{with_layer(formula, 'piece_g')}"
        )
    out.append(Reason("piece_g", "piece", piece_g, "g", text, bread_source(formula, "piece_g", kb)))
    if formula.loss_pct:
        lost = formula.dough_g - formula.spare_g - pieces * piece_g
        said = with_layer(formula, "loss_pct")
        text = f"{figure(formula.loss_pct)} %{said}: {grams(lost)} g stays on bowl and bench"
        out.append(Reason("loss_pct", "bench loss", formula.loss_pct, "%", text))
    return out


def reading_reasons(formula: Formula) -> list[Reason]:
    """What the scale shows after each pour."""
    weighed = whole_grams([row.g for row in formula.rows])
    out = []
    for index in range(1, len(formula.rows)):
        reading, row = weighed.readings_g[index], formula.rows[index]
        before, poured = weighed.readings_g[index - 1], weighed.rows_g[index]
        text = f"{grams(before)} + {grams(poured)} {row.name} = {grams(reading)} g"
        out.append(Reason(f"reading {index}", f"the scale after {row.name}", reading, "g", text))
    return out
