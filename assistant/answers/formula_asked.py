"""A line for each thing a question asked of a dough outright."""

from __future__ import annotations

from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams, short_name
from grammar.requests.formula import FormulaRequest
from knowledge import Knowledge


def asked_lines(request: FormulaRequest, formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    """A line for each thing the question asked for outright: "salt 33.1 g"."""
    out: list[str] = []
    for asked in request.asked:
        line = _asked_line(asked, formula, kb)
        if line is not None and line not in out:
            out.append(line)
    if request.pieces_asked and formula.pieces is not None and formula.piece_g is not None:
        out.append(f"{figure(formula.pieces)} pieces of {figure(formula.piece_g)} g")
    return tuple(out)


def _asked_line(asked: str, formula: Formula, kb: Knowledge) -> str | None:
    if asked in ("hydration", "percentages"):
        return f"hydration {figure(formula.hydration_pct)} %"
    if asked in ("water", "all_water"):
        return f"water {grams(formula.poured_g)} g ({grams(formula.water_g)} g with what is in other things)"
    if asked in ("flour", "all_flour"):
        return f"flour {grams(formula.bowl_flour_g)} g in the bowl, {grams(formula.flour_g)} g in all"
    if asked == "prefermented":
        share = f"{figure(formula.prefermented_pct)} % of the flour is prefermented, in the starter"
        return f"{share}: {grams(formula.starter.flour_g)} g" if formula.starter is not None else share
    if asked == "piece_g" and formula.piece_g is not None:
        return f"each {grams(formula.piece_g)} g of dough"
    if asked == "dough":
        return f"dough {grams(formula.dough_g)} g"
    if asked.startswith("starter"):
        if formula.starter is None:
            return "no starter in this dough"
        return f"starter {grams(formula.starter.g)} g, {figure(formula.starter_pct or 0)} % of the flour outside it"
    if asked.startswith("salt"):
        g = sum(row.g for row in formula.rows if row.role == "salt")
        return f"salt {g:.1f} g" if g < 100 else f"salt {grams(g)} g"
    if asked in kb.ingredients:
        name, g = short_name(kb.ingredients[asked]), formula.row_g(asked)
        return f"{name} {grams(g)} g" if g else f"no {name} in this dough"
    return None
