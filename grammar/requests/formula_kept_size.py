"""Which masses said of the dough in hand leave its size as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.frames import Bound

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest


def divides(line: FormulaRequest, earlier: FormulaRequest) -> bool:
    """ "in 80 g pieces" of a dough that was weighed and not yet cut up: the dough stays as it is."""
    other = (line.pieces, line.baked_g, line.dough_g, line.flour_g, line.all_flour_g, line.water_g, line.starter_g)
    weighed = (earlier.dough_g, earlier.flour_g, earlier.all_flour_g, earlier.water_g, earlier.starter_g)
    masses = weighed != (None,) * 5 or any(part.g is not None for part in earlier.parts)
    uncut = (earlier.pieces, earlier.baked_g, earlier.portions) == (None,) * 3
    return line.piece_g is not None and other == (None,) * 7 and uncut and masses and not earlier.sizes_cm


def is_its_starter(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> bool:
    """ "use 150 g of starter instead" of pieces: so much in the same dough; what there is of it to use up sizes it."""
    other = (line.pieces, line.piece_g, line.baked_g, line.dough_g, line.flour_g, line.all_flour_g, line.water_g)
    bidden = bound.said("act:use", "act:change", "act:make", "act:same") or "instead" in bound.links()
    sized = earlier.pieces is not None and earlier.piece_g is not None and other == (None,) * 7
    return line.starter_g is not None and sized and bool(bidden) and not bound.said("cue:use_up")


def only_a_row(line: FormulaRequest, earlier: FormulaRequest) -> bool:
    """ "supposing 450 of water", of a dough told in weights: that weight is another, and all others stay."""
    other = (line.pieces, line.piece_g, line.baked_g, line.dough_g, line.flour_g, line.all_flour_g, line.portions)
    return earlier.from_masses and other == (None,) * 7 and not line.sizes_cm and line.tin_ml is None
