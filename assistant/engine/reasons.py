"""Where each figure of a formula came from: the givens, the defaults and the sum with its figures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.engine.dough import Formula, PrefermentDetail, Row
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.rounding import whole_grams

if TYPE_CHECKING:
    from knowledge import Knowledge

LAYER_WORDS = {"said": "as you said", "set": "your setting", "assumed": "assumed", "solved": "worked out"}
CLOSE_SHARE = 0.0015
COUNTED_BY = "baker's percentages: every share is of all flour, the flour inside starter and preferments included"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why one figure is what it is.

    figure: its field (`flour_g`, `hydration_pct` ...) or `row <item>`, `preferment <item>`, `reading <number of pour>`.
    name: what a baker calls it. sum: the algebra with the figures in it. sources: records it rests on, in words.
    """

    figure: str
    name: str
    value: float
    unit: str
    sum: str
    sources: tuple[str, ...] = ()


def reasons_for(formula: Formula, kb: Knowledge) -> tuple[Reason, ...]:
    """A reason for every figure, the dough first, then the rows in pouring order, then what follows from them."""
    out = [_dough(formula), _flour(formula), _water(formula, kb)]
    out += [_row(row, formula, kb) for row in formula.rows]
    out += [_preferment(detail, formula) for detail in formula.preferments]
    out += _shares(formula, kb)
    out += _pieces(formula, kb)
    out += _readings(formula)
    return tuple(out)


def reason_for(formula: Formula, kb: Knowledge, named: str | None, value: float | None) -> Reason | None:
    """The reason for a figure by its name (a field or an item id) or by its value as printed; None where none fits."""
    reasons = reasons_for(formula, kb)
    if named is not None:
        for reason in reasons:
            if reason.figure in (named, f"row {named}", f"preferment {named}"):
                return reason
    if value is None:
        return None
    close = [reason for reason in reasons if abs(reason.value - value) <= max(0.6, CLOSE_SHARE * abs(value))]
    return min(close, key=lambda reason: abs(reason.value - value), default=None)


def layer_words(formula: Formula, field: str) -> str:
    """Said, set, assumed or worked out, in the baker's words; empty where it is not known."""
    layer = formula.layers.get(field)
    return LAYER_WORDS[layer] if layer is not None else ""


def _with_layer(formula: Formula, field: str) -> str:
    words = layer_words(formula, field)
    return f" ({words})" if words else ""


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


def _dough(formula: Formula) -> Reason:
    if formula.sized_what == "dough":
        return Reason("dough_g", "dough", formula.dough_g, "g", formula.sized_by)
    words, percent = _percent_sum(formula)
    text = f"{words} = {figure(percent)} % of {grams(formula.flour_g)} g flour = {grams(formula.dough_g)} g"
    return Reason("dough_g", "dough", formula.dough_g, "g", text, (COUNTED_BY,))


def _flour(formula: Formula) -> Reason:
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
    parts = [f"{grams(row.g)} {row.name}" for row in formula.rows if row.role == "flour"]
    if formula.starter is not None:
        parts.append(f"{grams(formula.starter.flour_g)} in the starter")
    parts += [f"{grams(part.flour_g)} in the {part.name}" for part in formula.preferments if part.flour_g > 0.05]
    return " + ".join(parts)


def _water(formula: Formula, kb: Knowledge) -> Reason:
    text = (
        f"{figure(formula.hydration_pct)} % hydration{_with_layer(formula, 'hydration_pct')} of "
        f"{grams(formula.flour_g)} g flour = {grams(formula.water_g)} g: {_water_parts(formula, kb)}"
    )
    return Reason("water_g", "all water", formula.water_g, "g", text, _water_sources(formula, kb))


def _water_parts(formula: Formula, kb: Knowledge) -> str:
    names = {row.item: row.name for row in formula.rows}
    parts = [f"{grams(formula.poured_g)} poured"] if formula.poured_g > 0 else []
    parts += [
        f"{grams(g)} in the {names.get(item, item).split(',')[0]}"
        for item, g in formula.water_from.items() if item != "water" and g > 0.05
    ]  # fmt: skip
    return " + ".join(parts)


def _water_sources(formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    return tuple(
        f"water in {short_name(kb.ingredients[item])}: {kb.ingredients[item].source}"
        for item, g in formula.water_from.items() if item != "water" and g > 0.5 and item in kb.ingredients
    )  # fmt: skip


def _row(row: Row, formula: Formula, kb: Knowledge) -> Reason:
    sums = {"water": _poured, "starter": _starter, "flour": _flour_row, "salt": _salt}
    make = sums.get(row.role)
    if make is not None:
        return Reason(f"row {row.item}", row.name, row.g, "g", make(row, formula), _row_sources(row, formula, kb))
    field = "" if row.item not in formula.layers else _with_layer(formula, row.item)
    text = f"{figure(row.pct)} %{field} of {grams(formula.flour_g)} g flour = {grams(row.g)} g"
    return Reason(f"row {row.item}", row.name, row.g, "g", text, _row_sources(row, formula, kb))


def _row_sources(row: Row, formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    if row.role == "water":
        return _water_sources(formula, kb)
    return (COUNTED_BY,)


def _poured(row: Row, formula: Formula) -> str:
    names = {other.item: other.name for other in formula.rows}
    inside = [
        f"{grams(g)} in the {names.get(item, item).split(',')[0]}"
        for item, g in formula.water_from.items() if item != "water" and g > 0.05
    ]  # fmt: skip
    words = (
        f"{figure(formula.hydration_pct)} % hydration{_with_layer(formula, 'hydration_pct')} of "
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
    at = f"{figure(starter.hydration_pct)} % hydration{_with_layer(formula, 'starter_hydration_pct')}"
    if "prefermented_pct" in formula.layers:
        said = _with_layer(formula, "prefermented_pct")
        share = f"{figure(formula.prefermented_pct)} % prefermented flour{said} of {grams(formula.flour_g)} g"
        return f"{share} = {grams(starter.flour_g)} g flour; at {at} that is {grams(row.g)} g: {made_of}"
    said = _with_layer(formula, "starter_pct")
    share = f"{figure(formula.starter_pct or 0)} %{said} of the {grams(outside)} g flour outside it"
    return f"{share} = {grams(row.g)} g; at {at}: {made_of}"


def _flour_row(row: Row, formula: Formula) -> str:
    inside = []
    if formula.starter is not None:
        inside.append(f"{grams(formula.starter.flour_g)} in the starter")
    inside += [f"{grams(part.flour_g)} in the {part.name}" for part in formula.preferments if part.flour_g > 0.05]
    others = [f"{grams(other.g)} {other.name}" for other in formula.rows if other.role == "flour" and other != row]
    less = [*inside, *others]
    words = f"{grams(formula.flour_g)} g of all flour"
    if not less:
        return f"{words} = {grams(row.g)} g"
    return f"{words}, less {' and '.join(less)} = {grams(row.g)} g, {figure(row.pct)} % of it"


def _salt(row: Row, formula: Formula) -> str:
    said = _with_layer(formula, "salt_pct")
    return f"{figure(formula.salt_pct)} %{said} of {grams(formula.flour_g)} g flour = {grams(row.g)} g"


def _bread_source(formula: Formula, field: str, kb: Knowledge) -> tuple[str, ...]:
    """The bread's record, where the figure was taken from it."""
    if formula.bread is None or formula.layers.get(field) != "assumed":
        return ()
    return (f"{kb.breads[formula.bread].name}: {kb.breads[formula.bread].source}",)


def _preferment(detail: PrefermentDetail, formula: Formula) -> Reason:
    base = f"{grams(detail.flour_g)} flour" if detail.flour_g > 0.05 else f"{grams(detail.grain_g)} grain"
    parts = [base, f"{grams(detail.water_g)} water ({figure(detail.hydration_pct)} %)"]
    parts += [f"{grams(detail.yeast_g)} yeast"] if detail.yeast_g > 0 else []
    parts += [f"{grams(detail.salt_g)} salt"] if detail.salt_g > 0 else []
    share = f"{figure(100 * detail.flour_g / formula.flour_g)} % of all flour; " if detail.flour_g > 0.05 else ""
    text = f"{share}{' + '.join(parts)} = {grams(detail.g)} g"
    return Reason(f"preferment {detail.item}", detail.name, detail.g, "g", text, (COUNTED_BY,))


def _shares(formula: Formula, kb: Knowledge) -> list[Reason]:
    def usual(field: str) -> tuple[str, ...]:
        return _bread_source(formula, field, kb)

    flour = grams(formula.flour_g)
    salt_g = sum(row.g for row in formula.rows if row.role == "salt")
    more = formula.salt_total_pct - formula.salt_pct
    out = [
        Reason(
            "hydration_pct", "hydration", formula.hydration_pct, "%",
            f"{grams(formula.water_g)} g water / {flour} g flour = {figure(formula.hydration_pct)} %"
            f"{_with_layer(formula, 'hydration_pct')}", (*usual("hydration_pct"), *_water_sources(formula, kb)),
        ),
        Reason(
            "salt_pct", "salt share", formula.salt_pct, "%",
            f"{grams(salt_g)} g salt / {flour} g flour = {figure(formula.salt_pct)} %"
            f"{_with_layer(formula, 'salt_pct')}", usual("salt_pct"),
        ),
        Reason(
            "salt_total_pct", "salt in all", formula.salt_total_pct, "%",
            f"{figure(formula.salt_pct)} % weighed + {figure(more)} % in other things",
        ),
    ]  # fmt: skip
    if formula.starter is not None and formula.starter_pct is not None:
        starter, outside = formula.starter, formula.flour_g - formula.starter.flour_g
        out += [
            Reason(
                "starter_pct", "starter share", formula.starter_pct, "%",
                f"{grams(starter.g)} g starter / {grams(outside)} g flour outside it = {figure(formula.starter_pct)} %"
                f"{_with_layer(formula, 'starter_pct')}", usual("starter_pct"),
            ),
            Reason(
                "prefermented_pct", "prefermented flour", formula.prefermented_pct, "%",
                f"{grams(starter.flour_g)} g flour in the starter / {flour} g of all flour "
                f"= {figure(formula.prefermented_pct)} %",
            ),
        ]  # fmt: skip
    return out


def _pieces(formula: Formula, kb: Knowledge) -> list[Reason]:
    pieces, piece_g = formula.pieces, formula.piece_g
    if pieces is None or piece_g is None:
        return []
    loss = f" / {1 + formula.loss_pct / 100:g}" if formula.loss_pct else ""
    spare = f", {grams(formula.spare_g)} g over" if formula.spare_g else ""
    out = [
        Reason(
            "pieces", "pieces", pieces, "",
            f"{grams(formula.dough_g)} g dough{loss} / {figure(piece_g)} g = {figure(pieces)}{spare}"
            f"{_with_layer(formula, 'pieces')}",
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
            f"{_with_layer(formula, 'piece_g')}"
        )
    out.append(Reason("piece_g", "piece", piece_g, "g", text, _bread_source(formula, "piece_g", kb)))
    if formula.loss_pct:
        lost = formula.dough_g - formula.spare_g - pieces * piece_g
        said = _with_layer(formula, "loss_pct")
        text = f"{figure(formula.loss_pct)} %{said}: {grams(lost)} g stays on bowl and bench"
        out.append(Reason("loss_pct", "bench loss", formula.loss_pct, "%", text))
    return out


def _readings(formula: Formula) -> list[Reason]:
    """What the scale shows after each pour."""
    weighed = whole_grams([row.g for row in formula.rows])
    out = []
    for index in range(1, len(formula.rows)):
        reading, row = weighed.readings_g[index], formula.rows[index]
        before, poured = weighed.readings_g[index - 1], weighed.rows_g[index]
        text = f"{grams(before)} + {grams(poured)} {row.name} = {grams(reading)} g"
        out.append(Reason(f"reading {index}", f"the scale after {row.name}", reading, "g", text))
    return out
