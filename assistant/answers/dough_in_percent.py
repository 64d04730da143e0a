"""A dough that was said in weights, as shares of its flour: the same dough in any size."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.engine.dough import Formula
from grammar.requests.formula import FormulaRequest, Part

_UNLEAVENED = ("starter", "yeast")


def is_weighed(request: FormulaRequest) -> bool:
    """Whether shares of the dough follow from weights that were said."""
    weights = (request.water_g, request.salt_g, request.starter_g, request.discard_g)
    return request.from_masses or weights != (None,) * 4 or any(_is_by_weight(part) for part in request.parts)


def _is_by_weight(part: Part) -> bool:
    """Whether a row was said in grams, cups or spoons rather than as a share."""
    return part.g is not None or part.measure is not None


def masses_of(request: FormulaRequest) -> dict[str, Any]:
    """The fields of a request that say how much there is."""
    names = ("dough_g", "flour_g", "all_flour_g", "water_g", "starter_g", "salt_g", "discard_g", "from_masses", "parts")
    return {name: getattr(request, name) for name in names}


def in_percent(request: FormulaRequest, formula: Formula) -> FormulaRequest:
    """The same dough with its weights as shares of the flour, so that it can be made in another size.

    A share that was neither said nor weighed stays open, so that it is still told as assumed.
    """

    def share(name: str) -> float | None:
        said: float | None = getattr(request, name)
        return getattr(formula, name) if formula.layers.get(name) == "solved" else said

    rows = {row.item: row for row in formula.rows}
    unleavened = request.from_masses and formula.starter is None and not any("yeast" in item for item in rows)
    flours = [part.item[0] for part in request.parts if _is_by_weight(part) and part.flour]
    largest = max(flours, key=lambda item: rows[item].g, default=None)
    parts = []
    for part in request.parts:
        row = rows.get(part.item[0])
        if not _is_by_weight(part) or row is None:
            parts.append(part)
        elif part.item[0] == largest:
            parts.append(replace(part, g=None, measure=None, rest=True))
        else:
            parts.append(replace(part, g=None, measure=None, pct=row.pct))
    return replace(
        request, parts=tuple(parts), from_masses=False, by_weight=request.by_weight or request.from_masses,
        flour_g=None, all_flour_g=None, dough_g=None, water_g=None,
        starter_g=None, salt_g=None, hydration_pct=share("hydration_pct"), salt_pct=share("salt_pct"),
        piece_g=request.piece_g if request.baked_g or request.piece_g else formula.piece_g,
        starter_pct=share("starter_pct"), without=request.without + (_UNLEAVENED if unleavened else ()),
    )  # fmt: skip
