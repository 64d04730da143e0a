"""The dough in hand in other measures: the whole of it in cups and spoons or ounces, or one thing of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.dough_said import solved
from assistant.answers.measure_words import split_unit, unit_word
from assistant.engine.cups_and_spoons import in_cups_and_spoons, volume_of
from assistant.engine.dough import Row
from assistant.engine.measures import SYSTEM_NAMES, MeasureBook
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page, Table
from grammar.requests.conversion import ConversionRequest
from grammar.requests.formula import FormulaRequest
from grammar.requests.measure_said import Measure

_SPOONED = ("cup", "tbsp", "tsp", "dsp")


def row_of_dough(request: ConversionRequest, room: Room) -> ConversionRequest | None:
    """The question with the grams of the thing in the dough in hand; None where the dough has none of it."""
    said = room.formula_said
    if not isinstance(said, FormulaRequest) or not request.item:
        return None
    dough = solved(said, room)
    generic = request.name.lower() in ("flour", "flours")
    starter = any(item.startswith("starter") for item in request.item)
    rows = [
        row for row in dough.rows
        if row.item in request.item or (generic and row.role == "flour") or (starter and row.item == "starter")
    ]  # fmt: skip
    if not rows:
        return None
    row = max(rows, key=lambda one: one.g)
    name = short_name(room.kb.ingredients[row.item]) if row.item in room.kb.ingredients else row.name
    item = row.item if row.item in room.kb.ingredients else request.item[0]
    g = round(row.g, 1 if row.g < 100 else 0)
    return replace(request, of_dough=False, amounts=(Measure(g, "g"),), item=(item,), name=name)


def dough_in_measures(request: ConversionRequest, room: Room, book: MeasureBook, system: str) -> Outcome:
    """Every row of the dough in hand in the measure asked for."""
    said = room.formula_said
    if not isinstance(said, FormulaRequest) or request.to is None:
        raise Refused("there is no dough in hand to measure", "say the dough first: 24 rolls of 80 g at 66 %")
    unit, named = split_unit(request.to)
    dough = solved(said, room)
    system = named or system
    lines = [_line(row, unit, system, room, book) for row in dough.rows]
    wide = any(line["high"] > 1.12 * line["low"] for line in lines if line.get("low"))
    answer: dict[str, Any] = {
        "from": {"amount": dough.dough_g, "unit": "g"}, "to": {"amount": None, "unit": unit}, "item": None,
        "g": dough.dough_g, "lines": lines, "basis": "each row by its own weight by volume",
    }  # fmt: skip
    many = unit_word(unit, book, 2)
    table = Table(
        tuple((line["name"], grams(line["g"]), line["measure"]) for line in lines), "lrl",
        heads=(f"the dough in hand in {many}", "g", ""),
    )  # fmt: skip
    blocks: list[Block] = [table]
    assumed: tuple[str, ...] = ()
    if unit in book.measures and len(set(book.measures[unit].ml.values())) > 1 and not named and not request.system:
        assumed = (f"{SYSTEM_NAMES[system]} {book.measures[unit].name}s of {book.ml(unit, system):.4g} ml",)
        blocks.append(Line("Assumed: " + "; ".join(assumed) + "."))
    if wide:
        blocks.append(Line("How a cup is filled makes up to a fifth of a difference in flour: weigh where you can."))
    foods = room.kb.ingredients
    sources = tuple(dict.fromkeys(foods[row.item].source for row in dough.rows if row.item in foods))
    return Outcome("conversion", answer, f"the dough in hand in {many}", Page(tuple(blocks)), assumed, sources=sources)


def _line(row: Row, unit: str, system: str, room: Room, book: MeasureBook) -> dict[str, Any]:
    """One row in the measure; a starter, a preferment and what is only weighed stay in grams."""
    line: dict[str, Any] = {"text": "", "item": row.item, "name": row.name, "g": row.g, "read": True}
    weight = book.measures[unit].g if unit in book.measures else 113.4 if unit == "stick" else None
    thing = room.kb.ingredients.get(row.item)
    if weight is not None:
        amount = row.g / weight
        line |= {"amount": amount, "measure": f"{figure(amount)} {unit_word(unit, book, amount)}"}
    elif thing is None or thing.mass_only:
        line["measure"] = "by weight only"
    else:
        try:
            found = volume_of(row.g, thing, unit, system, "", book)
        except Refused:
            line["measure"] = "by weight only"
        else:
            words = in_cups_and_spoons(found.ml, system, book) if unit in _SPOONED else ""
            words = words or f"{figure(found.amount)} {unit_word(unit, book, found.amount)}"
            line |= {"amount": found.amount, "low": found.low, "high": found.high, "measure": words}
    name = short_name(thing) if thing is not None else row.name
    line["text"] = f"{name} {grams(row.g)} g: {line['measure']}"
    return line
