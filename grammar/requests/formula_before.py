"""What figures and rows of the dough in hand were before they were changed, and how they come back as they were."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from grammar.requests.formula_bare import FIGURES

if TYPE_CHECKING:
    from grammar.requests.formula_parts import Part
    from grammar.requests.formula_request import FormulaRequest


@dataclass(frozen=True, slots=True)
class Was:
    """A figure as it was before it was changed, by field; None where it was left to the house."""

    name: str
    value: float | None = None


_FIELD = {"salt": "salt_pct", "starter": "starter_pct", "hydration": "hydration_pct"}
"""The figure of a row that is no ingredient of its own."""


def remembered(now: FormulaRequest, earlier: FormulaRequest) -> FormulaRequest:
    """The dough with what of the earlier one holds no longer: the newest of each figure and of each row."""
    changed = tuple(
        Was(name, getattr(earlier, name)) for name in FIGURES if getattr(earlier, name) != getattr(now, name)
    )
    names = {one.name for one in changed}
    return replace(
        now, was=(*changed, *(one for one in now.was if one.name not in names)), taken_out=_taken_out(now, earlier)
    )  # fmt: skip


def _taken_out(now: FormulaRequest, earlier: FormulaRequest) -> tuple[Part, ...]:
    """Rows as they were when they were left out or changed: the newest of each."""
    gone = tuple(part for part in earlier.parts if part not in now.parts)
    return (*gone, *(part for part in now.taken_out if all(part.item[0] != one.item[0] for one in gone)))


def put_back_in(new: FormulaRequest, rows: tuple[str, ...]) -> FormulaRequest:
    """The dough with these rows as they were before they were changed or left out."""
    if not rows:
        return new
    if "starter" in rows and "starter" in new.without:  # one leaven goes where the other comes back
        new = replace(new, parts=tuple(part for part in new.parts if not part.item[0].startswith("yeast")))
    if any(row.startswith("yeast") for row in rows):
        new = replace(new, starter_pct=None, prefermented_pct=None)
    if "water" in rows:  # what stood in for it was poured by no figure of its own
        told = tuple(part for part in new.parts if part.flour or part.rest or part.pct or part.g or part.measure)
        new = replace(new, parts=told)
    back = tuple(part for part in new.taken_out if part.item[0] in rows)
    kept = tuple(part for part in new.parts if all(part.item[0] != one.item[0] for one in back))
    for row in rows:
        for value in _before(new, row) if row in _FIELD else ():
            new = replace(new, **{_FIELD[row]: value})  # type: ignore[arg-type]
    return replace(new, parts=(*kept, *back), without=tuple(name for name in new.without if name not in rows))


def _before(new: FormulaRequest, row: str) -> tuple[float | None, ...]:
    """What the figure of a row was, where it was changed and not left out."""
    return () if row in new.without else tuple(one.value for one in new.was if one.name == _FIELD[row])[:1]
