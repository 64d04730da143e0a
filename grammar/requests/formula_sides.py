"""The tin a dough is to fill: its sides, depth and shape, as said and as kept from the one before."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.frames import Bound, Hit, amount_base
from grammar.requests.pans import INCH

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest


def _sizes(hit: Hit | None) -> tuple[float, ...]:
    if hit is None or hit.amount is None:
        return ()
    return hit.amount.sizes or ((amount_base(hit.amount) or 0.0),)


def sides_of(bound: Bound, hit: Hit | None) -> tuple[float, ...]:
    """The lengths said, of a tin whose width was said apart both."""
    sides = _sizes(hit)
    width = bound.base("width")
    return (*sides, width) if width is not None and len(sides) == 1 else sides


def shape_of(bound: Bound) -> str | None:
    """What the tin looks like from above, where a word says so."""
    shapes = [one for phrase in bound.phrases if not phrase.negated for one in phrase.ids("shape")]
    return next((one for one in ("round", "square", "loaf", "sheet") if one in shapes), None)


def depth_of(bound: Bound, sizes: Hit) -> float | None:
    """How deep in cm, a bare figure in the unit of the sides."""
    deep = bound.first("depth")
    value = amount_base(deep.amount) if deep is not None else None
    tokens = sizes.amount.tokens if sizes.amount is not None else ()
    inches = any(unit.id == "inch" for token in tokens for unit in token.units)
    bare = deep is not None and deep.amount is not None and deep.amount.dim == "num"
    return value * INCH if value is not None and bare and inches else value


def as_deep(line: FormulaRequest, earlier: FormulaRequest) -> FormulaRequest:
    """A line of new sides with the depth and shape told of the tin before, where it is one of as many sides."""
    alike = line.deep_cm is None and line.tin_shape is None and len(line.sizes_cm) == min(len(earlier.sizes_cm), 2)
    if not line.sizes_cm or not alike:
        return line
    deep_cm = earlier.sizes_cm[2] if len(earlier.sizes_cm) == 3 else earlier.deep_cm
    return replace(line, deep_cm=deep_cm, tin_shape=earlier.tin_shape)
