"""A dough made so many times as large, or in other pieces, with its shares as they are."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.dough_in_percent import in_percent, is_weighed
from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_sizes import PieceChange


def scaled(request: FormulaRequest, factor: float, dough_g: float) -> FormulaRequest:
    """The same dough `factor` times as large. dough_g: what it weighs now, for a size that does not multiply."""
    if factor <= 0:
        raise Refused("a dough cannot be scaled to nothing", "double it, or halve it")

    def times(value: float | None) -> float | None:
        return None if value is None else value * factor

    masses: dict[str, Any] = {
        name: times(getattr(request, name))
        for name in ("flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "discard_g", "dough_g", "portions")
    }
    parts = tuple(replace(part, g=times(part.g)) for part in request.parts)
    preferments = tuple((kind, pct, times(g), hydration) for kind, pct, g, hydration in request.preferments)
    pieces, choices = times(request.pieces), request.choices
    if pieces is not None and pieces > 1 and abs(pieces - round(pieces)) > 1e-9:
        choices = (*choices, f"{round(pieces)} pieces, the nearest to {figure(pieces)}")
        pieces = float(round(pieces))
    new = replace(
        request, pieces=pieces, choices=choices, parts=parts, preferments=preferments, limits=(), scale=None, **masses
    )
    if request.sizes_cm or request.tin_ml is not None:
        many = (request.pieces if request.pieces is not None else request.tins or 1) * factor
        if abs(many - round(many)) < 1e-9 and request.pieces is not None:
            return replace(new, pieces=float(round(many)))
        if abs(many - round(many)) < 1e-9:
            return replace(new, tins=float(round(many)))
        return replace(new, sizes_cm=(), tin_ml=None, tins=None, pieces=None, dough_g=dough_g * factor)
    sized = (new.pieces, new.dough_g, new.flour_g, new.all_flour_g, new.water_g, new.starter_g, new.portions)
    weighed = any(part.g is not None for part in parts)
    if sized == (None,) * 7 and not weighed:
        return replace(new, dough_g=dough_g * factor)
    return new


def kept_so(request: FormulaRequest, line: FormulaRequest, now: Formula) -> FormulaRequest:
    """The dough in another number or weight of pieces, each as heavy as it is, or all of it as much as it is."""
    weighed: dict[str, Any] = dict.fromkeys((*_SIZES, "baked_g"))
    if line.stays == "size" and line.pieces is not None and now.piece_g is not None:
        return replace(in_percent(request, now), **{**weighed, "piece_g": now.piece_g, "pieces": line.pieces})
    if line.stays != "dough" or (line.pieces is None and line.piece_g is None):
        return request
    cut = {"dough_g": now.dough_g, "pieces": line.pieces, "piece_g": line.piece_g}
    return replace(in_percent(request, now), **{**weighed, **cut})


_SIZES = ("dough_g", "flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "portions", "tin_ml", "tins")
"""Fields that say how much dough there is, in place of pieces and their weight."""


def by_piece(said: FormulaRequest, change: PieceChange, now: Formula) -> FormulaRequest:
    """The dough with as many pieces of another weight. Raises Refused where it is not in pieces, or none is left."""
    if now.pieces is None or now.piece_g is None:
        raise Refused("this dough is not in pieces", "say how many pieces, and how heavy")
    piece_g = change.to_g
    if piece_g is None:
        piece_g = now.piece_g * change.times if change.times is not None else now.piece_g + (change.by_g or 0.0)
    if piece_g <= 0:
        why = f"{grams(-(change.by_g or 0.0))} g less leaves nothing of {grams(now.piece_g)} g"
        raise Refused(why, "a smaller step")
    said = in_percent(said, now) if is_weighed(said) else said
    return replace(
        said, pieces=now.pieces, piece_g=piece_g, baked_g=None, dough_g=None, flour_g=None, all_flour_g=None,
        portions=None, sizes_cm=(), tin_ml=None, tins=None, limits=(), piece_change=None,
    )  # fmt: skip


def with_more_flour(plain: FormulaRequest, more_g: float, now: Formula) -> FormulaRequest:
    """The dough on so much more flour in the bowl, or less where that is negative."""
    if now.bowl_flour_g + more_g <= 0:
        why = f"there are {grams(now.bowl_flour_g)} g of flour in it, and {grams(-more_g)} g less leaves none"
        raise Refused(why, f"less than {grams(now.bowl_flour_g)} g")
    return replace(
        plain, flour_g=now.bowl_flour_g + more_g, sizes_cm=(), tin_ml=None, pieces=None, dough_g=None,
        all_flour_g=None, water_g=None, portions=None, tins=None,
    )  # fmt: skip
