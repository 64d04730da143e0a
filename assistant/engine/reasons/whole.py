"""Why the dough, all its flour and all its water are what they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.reasons.reason import COUNTED_BY, Reason, flour_inside, water_inside, water_sources, with_layer

if TYPE_CHECKING:
    from knowledge import Knowledge


def _percent_sum(formula: Formula) -> tuple[str, float]:
    """Flour, water and everything dry in percent of flour, as a sum, and what it comes to."""
    parts = ["100 flour", f"{figure(formula.hydration_pct)} water"]
    for row in formula.rows:
        if row.role == "salt":
            parts.append(f"{figure(row.pct)} salt")
        elif row.role == "extra":
            inside_g = formula.water_from.get(row.item, 0.0)
            dry = 100 * (row.g - inside_g) / formula.flour_g
            if dry > 0.005:
                parts.append(f"{figure(dry)} {row.name}{' without its water' if inside_g > 0.02 * row.g else ''}")
    return " + ".join(parts), 100 * formula.dough_g / formula.flour_g


def dough_reason(formula: Formula) -> Reason:
    if formula.sized_what == "dough":
        return Reason("dough_g", "dough", formula.dough_g, "g", formula.sized_by)
    words, percent = _percent_sum(formula)
    text = f"{words} = {figure(percent)} % of {grams(formula.flour_g)} g flour = {grams(formula.dough_g)} g"
    return Reason("dough_g", "dough", formula.dough_g, "g", text, (COUNTED_BY,))


def flour_reason(formula: Formula) -> Reason:
    if formula.sized_what == "dough":
        words, percent = _percent_sum(formula)
        text = (
            f"{words} = {figure(percent)} %; {grams(formula.dough_g)} g dough / {percent / 100:.4g} "
            f"= {grams(formula.flour_g)} g of all flour"
        )
    else:
        text = f"{formula.sized_by} makes {grams(formula.flour_g)} g of all flour: {_flour_parts(formula)}"
    return Reason("flour_g", "all flour", formula.flour_g, "g", text, (COUNTED_BY,))


def _flour_parts(formula: Formula) -> str:
    rows = [f"{grams(row.g)} {row.name}" for row in formula.rows if row.role == "flour"]
    return " + ".join([*rows, *flour_inside(formula)])


def water_reason(formula: Formula, kb: Knowledge) -> Reason:
    text = (
        f"{figure(formula.hydration_pct)} % hydration{with_layer(formula, 'hydration_pct')} of "
        f"{grams(formula.flour_g)} g flour = {grams(formula.water_g)} g: {_water_parts(formula)}"
    )
    return Reason("water_g", "all water", formula.water_g, "g", text, water_sources(formula, kb))


def _water_parts(formula: Formula) -> str:
    poured = [f"{grams(formula.poured_g)} poured"] if formula.poured_g > 0 else []
    return " + ".join([*poured, *water_inside(formula)])
