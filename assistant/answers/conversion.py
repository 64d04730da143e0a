"""Measures turned into others: amounts of an ingredient, plain units, oven settings, lengths and tins."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.dough_in_measures import dough_in_measures, row_of_dough
from assistant.answers.measures_asked import system_in_force
from assistant.answers.oven_and_tin import heat_answer, lengths_answer
from assistant.answers.plain_units import plain_units
from assistant.answers.weighed_out import measured
from assistant.engine.measures import measure_book
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from grammar.requests.conversion import ConversionRequest
from grammar.requests.measure_said import SAME


@answers(ConversionRequest)
def answer(request: ConversionRequest, room: Room) -> Outcome:
    """The measure in the unit asked for, or in grams (volumes without an ingredient: millilitres)."""
    if request.heat is not None:
        return heat_answer(request, request.heat, room)
    if request.length is not None or request.sizes_cm:
        return lengths_answer(request)
    book = measure_book(room.kb)
    if request.of_dough:
        if not request.item:
            return dough_in_measures(request, room, book, system_in_force(request, room))
        row = row_of_dough(request, room)
        if row is not None:
            return replace(answer(row, room), focus=request)
    named_tin = request.tin and not request.item and request.to is None
    if named_tin or (request.tin and request.to in ("l", "ml", "cl", "dl")):
        raise Refused(
            "a tin named by a weight is only called that: makers differ by a third in what it holds",
            "its length, width and depth in cm or inches; or fill it with water on the scale: 1 g is 1 ml",
        )
    if not request.amounts and not request.item:
        raise Unclear(
            "What shall be converted? A recipe is pasted as it is, its ingredients one a line.",
            ("3 cups of bread flour in grams", "350 F in C", "8 inch tin in cm"),
        )
    if any(one.value <= 0 for one in request.amounts[:1]):
        raise Refused("an amount must be more than nothing", "an amount above 0: 2 cups plain flour")
    if any(one.unit == SAME for one in request.amounts):
        raise Unclear("Of which measure?", ("2 cups plain flour in grams", "2 tbsp honey in grams"))
    if not request.amounts:
        raise Unclear("How much of it?", (f"1 cup {request.name or 'plain flour'} in grams",))
    if not request.item:
        return plain_units(request, room, book)
    return measured(request, room, book)
