"""Whether what is in the house is enough for a dough: each thing it needs held against the stock."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.bread_meant import bread_of_formula
from assistant.answers.dough_change import resized
from assistant.answers.dough_said import cup_system, defaults_of, givens_of, piece_name
from assistant.answers.row_judged import row_judged
from assistant.answers.stock import told_stock
from assistant.answers.stock_check import TOLERANCE, kept_stock, short_lines
from assistant.engine.bowl import STARTER, Bowl, bowl_of
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.context import Context
from grammar.frames import Bound
from grammar.requests.enough import EnoughRequest
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_merge import went_on

FREE = frozenset({"water", STARTER})
"""What a tap gives, and what grows by feeding: never short of."""
_NOTHING = Bound((), (), Context(), "")


@answers(EnoughRequest)
def answer(request: EnoughRequest, room: Room) -> Outcome:
    """Enough or not, what is left over or short, and what was never told of."""
    stock = {**kept_stock(room.bench), **told_stock(request.held, room)}
    judged = _judged(request, room) if request.of and not set(request.of) & set(stock) else None
    if judged is not None:
        return judged
    if not stock:
        raise Refused(
            "Nothing was told of what is in the house.", "say it with its weight: only 1.2 kg bread flour left"
        )
    said = _meant(request, room)
    formula = _solved(said, room)
    bowl = bowl_of(formula, room.kb.ingredients)
    stock = _of_the_flour(stock, bowl, room)
    needs = {row.item: row.g for row in bowl.portions if row.item not in FREE}
    known = {item: g for item, g in needs.items() if item in stock}
    if not known:
        names = ", ".join(short_name(room.kb.ingredients[item]) for item in needs)
        raise Refused(f"Of what this dough needs nothing was told: {names}.", "only 1.2 kg bread flour left")
    short = {item: g for item, g in known.items() if g > stock[item] * TOLERANCE}
    lines = [
        Line(f"{short_name(room.kb.ingredients[item])}: {grams(g)} g of {grams(stock[item])} g, "
             f"{grams(stock[item] - g)} g left over.")
        for item, g in known.items()
        if item not in short
    ]  # fmt: skip
    lines += short_lines(bowl, {item: stock[item] for item in short}, room)
    untold = [short_name(room.kb.ingredients[item]) for item in needs if item not in stock]
    if untold:
        lines.append(Line(f"Not told of: {', '.join(untold)}.", role="note"))
    name = _name(said, formula, room)
    head = f"Not enough for {name}." if short else f"Enough for {name}."
    fields: dict[str, Any] = {
        "topic": "stock", "text": "\n".join([head, *(line.text for line in lines)]), "enough": not short,
        "needs": [{"item": item, "g": g, "there_g": stock.get(item)} for item, g in needs.items()],
    }  # fmt: skip
    page = Page((Line(head, role="head"), *lines))
    return Outcome("explanation", fields, f"whether there is enough for {name}", page, formula.assumed)


def _judged(request: EnoughRequest, room: Room) -> Outcome | None:
    """Whether so much of a thing is usual in the dough, where no stock of it was told."""
    said = _meant(request, room)
    return row_judged(request.of, _solved(said, room), bread_of_formula(room, said), room.kb)


def _solved(said: FormulaRequest, room: Room) -> Formula:
    givens = givens_of(said, room.kb, cup_system(room.bench.settings))
    return solve(givens, defaults_of(room.bench.settings), room.kb)


def _meant(request: EnoughRequest, room: Room) -> FormulaRequest:
    """The dough asked about: its own, the one in hand, or that one changed; nothing on the bench is."""
    held = room.formula_said
    if not isinstance(held, FormulaRequest):
        if request.dough is None:
            raise Refused("No dough is in hand to hold it against.", "is it enough for 24 rolls of 80 g")
        return request.dough
    return resized(went_on(request.dough, held, _NOTHING), request.dough, room) if request.dough is not None else held


def _of_the_flour(stock: dict[str, float], bowl: Bowl, room: Room) -> dict[str, float]:
    """The one flour in the house serves as the dough's where that was not named otherwise."""
    groups = room.kb.ingredients
    flours = [item for item in stock if groups[item].group == "flour"]
    wanted = [row.item for row in bowl.portions if groups[row.item].group == "flour"]
    if len(flours) == 1 and wanted == ["flour_bread"] and flours != wanted:
        return {**{item: g for item, g in stock.items() if item not in flours}, "flour_bread": stock[flours[0]]}
    return stock


def _name(said: FormulaRequest, formula: Formula, room: Room) -> str:
    if formula.pieces is None or formula.piece_g is None:
        return f"{grams(formula.dough_g)} g of dough"
    return f"{figure(formula.pieces)} {piece_name(said, formula.pieces, room.kb)} of {figure(formula.piece_g)} g"
