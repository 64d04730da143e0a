"""One number and no word for what it counts, said of the dough in hand."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.frames import Bound, amount_base, fits

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest

FIGURES = {
    "pieces": (1, 5000), "piece_g": (15, 2600), "hydration_pct": (40, 115), "salt_pct": (0.3, 4),
    "starter_pct": (1, 120), "loss_pct": (0, 15), "dough_g": (300, 60000), "flour_g": (50, 60000),
    "prefermented_pct": (1, 60), "starter_hydration_pct": (40, 200),
}  # fmt: skip
"""What one bare figure may correct, and how much each may plausibly be: pieces, g, %."""
_ONLY_WORDS = ("act:change", "act:correct", "act:make", "act:same", "act:use", "act:back", "ask:what_if")
_HYDRATION = (50.0, 85.0)
"""A bare figure between these is hydration where a dough is changed by it: "make it 68"."""
_AS_COUNTED, _NO_HYDRATION_STEP = (0.6, 1.7), 8.0
"""A bare figure this near to the number of pieces counts them, where as hydration it were a leap of so many points."""
_AS_MANY, _AS_HEAVY = (0.3, 3.5), (0.55, 1.8)
"""How far from what they are a baker plausibly takes the number of pieces and their mass at once."""


def bare_figure(line: FormulaRequest, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
    """One number and nothing that says what it counts: after a change the same figure again ("sorry, 22"); with "make
    it" what it is near to, and asked for where it is near to two."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    words = [phrase for phrase in bound.phrases if phrase.kind in ("label", "junk")]
    if replace(line, scale=None).steps:
        return line
    if len(amounts) != 1 or amounts[0].dim != "num" or not all(fits(word, _ONLY_WORDS) for word in words):
        return line
    value = amount_base(amounts[0]) or 0.0
    blank = replace(line, pieces=None, piece_g=None, hydration_pct=None, scale=None)
    said = [name for name in FIGURES if amounts[0].old is not None and getattr(earlier, name) == amounts[0].old.base]
    if len(said) == 1:
        return replace(blank, **{said[0]: value})  # type: ignore[arg-type]
    corrects = not bound.said("act:change", "act:make", "ask:what_if") and not bound.links() & {"for", "at", "of"}
    again = _same_figure(blank, earlier, value) if corrects else None
    if again is not None or "for" in bound.links():
        return again or line
    counts = earlier.pieces is not None and _AS_COUNTED[0] <= value / earlier.pieces <= _AS_COUNTED[1]
    eaters = earlier.portions is not None and _AS_COUNTED[0] <= value / earlier.portions <= _AS_COUNTED[1]
    if eaters and value % 1 == 0 and abs(value - (earlier.hydration_pct or value)) > _NO_HYDRATION_STEP:
        return replace(blank, portions=value)
    heavy = earlier.piece_g is not None and _AS_HEAVY[0] <= value / earlier.piece_g <= _AS_HEAVY[1]
    if counts and not heavy and value % 1 == 0 and abs(value - (earlier.hydration_pct or value)) > _NO_HYDRATION_STEP:
        return replace(blank, pieces=value)
    if _HYDRATION[0] <= value <= _HYDRATION[1]:
        return replace(blank, hydration_pct=value)
    if value != int(value) and value <= FIGURES["salt_pct"][1]:
        return replace(blank, salt_pct=value)  # no pieces are counted in tenths
    many = earlier.pieces is not None and _AS_MANY[0] <= value / earlier.pieces <= _AS_MANY[1]
    if many and heavy:
        return replace(blank, either=value)
    if heavy:
        return replace(blank, piece_g=value)
    return replace(blank, pieces=value) if many else line


def _same_figure(blank: FormulaRequest, earlier: FormulaRequest, value: float) -> FormulaRequest | None:
    """The figure the last line set, set again; None where it set several, or this cannot be it."""
    if len(earlier.last) != 1:
        return None
    name = earlier.last[0]
    if name in FIGURES:
        low, high = FIGURES[name]
        return replace(blank, **{name: value}) if low <= value <= high else None  # type: ignore[arg-type]
    part = next((part for part in earlier.parts if f"part {part.item[0]}" == name), None)
    return replace(blank, parts=(replace(part, pct=value),)) if part is not None and value <= 100 else None
