"""Why each row and each preferment weighs what it does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.dough import Formula, PrefermentDetail, Row
from assistant.engine.naming import figure, grams
from assistant.engine.reasons.reason import COUNTED_BY, Reason, flour_inside, water_inside, water_sources, with_layer

if TYPE_CHECKING:
    from knowledge import Knowledge


def row_reason(row: Row, formula: Formula, kb: Knowledge) -> Reason:
    sums = {"water": _poured, "starter": _starter, "flour": _flour_row, "salt": _salt}
    make = sums.get(row.role)
    if make is not None:
        return Reason(f"row {row.item}", row.name, row.g, "g", make(row, formula), _row_sources(row, formula, kb))
    field = "" if row.item not in formula.layers else with_layer(formula, row.item)
    text = f"{figure(row.pct)} %{field} of {grams(formula.flour_g)} g flour = {grams(row.g)} g"
    return Reason(f"row {row.item}", row.name, row.g, "g", text, _row_sources(row, formula, kb))


def _row_sources(row: Row, formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    if row.role == "water":
        return water_sources(formula, kb)
    return (COUNTED_BY,)


def _poured(row: Row, formula: Formula) -> str:
    inside = water_inside(formula)
    words = (
        f"{figure(formula.hydration_pct)} % hydration{with_layer(formula, 'hydration_pct')} of "
        f"{grams(formula.flour_g)} g flour = {grams(formula.water_g)} g water"
    )
    if inside:
        words += f", less {' and '.join(inside)} = {grams(formula.poured_g)} g"
    if abs(formula.poured_g - row.g) > 0.05:
        words += f", of which {grams(row.g)} g {'is held back' if row.later else 'goes in first'}"
    return words


def _starter(row: Row, formula: Formula) -> str:
    starter = formula.starter
    assert starter is not None
    outside = formula.flour_g - starter.flour_g
    made_of = f"{grams(starter.flour_g)} flour + {grams(starter.water_g)} water"
    at = f"{figure(starter.hydration_pct)} % hydration{with_layer(formula, 'starter_hydration_pct')}"
    if "prefermented_pct" in formula.layers:
        said = with_layer(formula, "prefermented_pct")
        share = f"{figure(formula.prefermented_pct)} % prefermented flour{said} of {grams(formula.flour_g)} g"
        return f"{share} = {grams(starter.flour_g)} g flour; at {at} that is {grams(row.g)} g: {made_of}"
    said = with_layer(formula, "starter_pct")
    share = f"{figure(formula.starter_pct or 0)} %{said} of the {grams(outside)} g flour outside it"
    return f"{share} = {grams(row.g)} g; at {at}: {made_of}"


def _flour_row(row: Row, formula: Formula) -> str:
    others = [f"{grams(other.g)} {other.name}" for other in formula.rows if other.role == "flour" and other != row]
    less = [*flour_inside(formula), *others]
    words = f"{grams(formula.flour_g)} g of all flour"
    if not less:
        return f"{words} = {grams(row.g)} g"
    return f"{words}, less {' and '.join(less)} = {grams(row.g)} g, {figure(row.pct)} % of it"


def _salt(row: Row, formula: Formula) -> str:
    said = with_layer(formula, "salt_pct")
    return f"{figure(formula.salt_pct)} %{said} of {grams(formula.flour_g)} g flour = {grams(row.g)} g"


def preferment_reason(detail: PrefermentDetail, formula: Formula) -> Reason:
    base = f"{grams(detail.flour_g)} flour" if detail.flour_g > 0.05 else f"{grams(detail.grain_g)} grain"
    parts = [base, f"{grams(detail.water_g)} water ({figure(detail.hydration_pct)} %)"]
    parts += [f"{grams(detail.yeast_g)} yeast"] if detail.yeast_g > 0 else []
    parts += [f"{grams(detail.salt_g)} salt"] if detail.salt_g > 0 else []
    share = f"{figure(100 * detail.flour_g / formula.flour_g)} % of all flour; " if detail.flour_g > 0.05 else ""
    text = f"{share}{' + '.join(parts)} = {grams(detail.g)} g"
    return Reason(f"preferment {detail.item}", detail.name, detail.g, "g", text, (COUNTED_BY,))
