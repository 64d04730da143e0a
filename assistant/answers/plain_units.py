"""A unit turned into another of its kind, where no ingredient was said."""

from __future__ import annotations

from typing import Any

from assistant.answers.measure_words import amount_fields, said_amount, split_unit, unit_word
from assistant.answers.measures_asked import cups_assumed, parts_of, system_in_force
from assistant.engine.cups_and_spoons import in_cups_and_spoons
from assistant.engine.measures import MeasureBook, Said
from assistant.engine.naming import figure
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.conversion import ConversionRequest


def plain_units(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """A unit into another of its kind, no ingredient said."""
    system = system_in_force(request, room)
    parts = parts_of(request)
    kinds = {book.dimension(part.unit) for part in parts}
    target, target_system = split_unit(request.to) if request.to else (None, None)
    said = said_amount(request.amounts, book)
    if kinds == {"count"} or len(kinds) > 1:
        raise Unclear(f"{said} of what?", (f"{said} butter in grams", f"{said} plain flour in grams"))
    kind = kinds.pop()
    if target is not None and target not in book.measures:  # a degree of heat
        raise Unclear(f"{said} is no temperature. What is it to be in?", (f"{said} in grams", f"{said} in ounces"))
    if target is not None and book.dimension(target) != kind:
        raise Unclear(
            f"{said} of what? A cup of flour and a cup of honey differ by a factor of 2.7.",
            (f"{said} plain flour in {request.to}", f"{said} water in {request.to}", f"{said} sugar in {request.to}"),
        )
    if kind == "mass":
        total = sum(part.middle * (book.measures[part.unit].g or 0) for part in parts)
        metric = all(part.unit in ("g", "kg") for part in parts)
        unit = target or ("oz" if metric else "g")
        amount = total / (book.measures[unit].g or 1.0)
        answer: dict[str, Any] = {
            "from": amount_fields(request.amounts),
            "to": {"amount": amount, "unit": unit},
            "item": None,
            "g": total,
        }
    else:
        total = sum(part.middle * book.ml(part.unit, part.system or system) for part in parts)
        metric = all(part.unit in ("ml", "l", "cl", "dl") for part in parts)
        unit = target or ("cup" if metric else "ml")
        amount = total / book.ml(unit, target_system or system)
        answer = {
            "from": amount_fields(request.amounts),
            "to": {"amount": amount, "unit": unit},
            "item": None,
            "ml": total,
        }
    many = unit_word(unit, book, amount)
    shown = f"{amount:.2f}".rstrip("0").rstrip(".") if amount < 100 else figure(amount)
    blocks: list[Block] = [Line(f"{said} = {shown} {many}.", role="head")]
    if kind == "volume" and unit in ("cup", "tbsp", "tsp"):
        answer["measure"] = in_cups_and_spoons(total, target_system or system, book)
        blocks.append(Line(f"With the measures in the drawer: {answer['measure']}."))
    assumed = tuple(cups_assumed(request, parts, unit if kind == "volume" else None, system, room, book))
    answer["basis"] = "; ".join(dict.fromkeys(_basis_of(part, system, book) for part in parts))
    blocks.append(Line(answer["basis"] + "."))
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + "."))
    sources = tuple(dict.fromkeys(book.measures[part.unit].source for part in parts))
    return Outcome(
        "conversion", answer, f"{said} in {many}", Page(tuple(blocks)), assumed, sources=sources, focus=request
    )


def _basis_of(part: Said, system: str, book: MeasureBook) -> str:
    unit = book.measures[part.unit]
    if unit.g is not None:
        return f"1 {unit.name} = {unit.g:g} g"
    return f"1 {unit.name} = {book.ml(part.unit, part.system or system):g} ml"
