"""A conversion that goes on from the one before it: what it leaves unsaid stays."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.follow import changes, put_onto
from grammar.frames import Bound
from grammar.requests.measure_said import SAME

if TYPE_CHECKING:
    from grammar.requests.conversion import ConversionRequest
    from grammar.requests.recipe import RecipeRequest


def followed(
    line: ConversionRequest, earlier: ConversionRequest | RecipeRequest, bound: Bound
) -> ConversionRequest | RecipeRequest:
    """What was converted before with what the line says in the place of the same; a pasted recipe in other units."""
    if not isinstance(earlier, type(line)):
        return _of_a_recipe(line, earlier, bound)  # type: ignore[arg-type]
    line = _in_its_units(line, earlier)
    if any(one.unit == SAME for one in line.amounts):
        if earlier.heat is None or line.item or len(line.amounts) > 1:
            return line
        return replace(earlier, heat=replace(line.amounts[0], unit=earlier.heat.unit))
    if _measures(line):
        return line if line.to else replace(line, to=earlier.to if _same_kind(line, earlier) else None)
    if line.amounts and line.item:
        return replace(
            line, to=line.to or (earlier.to if earlier.amounts else None), system=line.system or earlier.system
        )
    if not _measures(earlier):
        said = {name: value for name, value in changes(line).items() if name in _TAKEN}
        return put_onto(earlier, said, {"item": ("fills", "size")})
    if line.amounts or line.item:
        return line
    towards = (line.fan or line.to_fan) and not earlier.fan
    return replace(earlier, to=line.to or (None if towards else earlier.to), to_fan=towards)


_TAKEN = ("amounts", "item", "name", "to", "system", "fills", "size")
"""What a line may say anew of a thing that was converted."""


_CORRECTS = ("act:correct", "act:change", "mistake:meant", "stance:was", "stance:called_for")


def _of_a_recipe(
    line: ConversionRequest, earlier: RecipeRequest, bound: Bound
) -> ConversionRequest | RecipeRequest:
    """The recipe just read in other cups, or with one of its rows said anew."""
    if line.system and not line.amounts and not line.item and line.heat is None:
        return replace(earlier, system=line.system)
    if line.amounts and line.item and bound.said(*_CORRECTS) and not (bound.asks() or bound.said("ask:*")):
        much = " and ".join(one.text for one in bound.phrases if one.kind == "amount")
        return replace(earlier, anew=f"{much} {line.name}")
    return replace(line, of_dough=True) if line.to and not (line.amounts or _measures(line)) else line


def _in_its_units(line: ConversionRequest, earlier: ConversionRequest) -> ConversionRequest:
    """The line with bare figures in the units of the conversion before."""
    if earlier.amounts and any(one.unit == SAME for one in line.amounts):
        unit = earlier.amounts[0].unit
        line = replace(line, amounts=tuple(replace(one, unit=unit) for one in line.amounts))
    bare = line.heat is not None and line.heat.unit == "each"
    if bare and line.heat is not None and earlier.heat is not None and earlier.heat.unit != "gas":
        line = replace(line, heat=replace(line.heat, unit=earlier.heat.unit))
    return line


def _measures(one: ConversionRequest) -> bool:
    """Whether heat or a length is converted, rather than so much of a thing."""
    return one.heat is not None or one.length is not None or bool(one.sizes_cm)


def _same_kind(new: ConversionRequest, earlier: ConversionRequest) -> bool:
    return (new.heat is None) == (earlier.heat is None) and (new.length is None) == (earlier.length is None)
