"""An amount of an ingredient as a volume or in eggs, and the reply for any amount that was converted."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.answers.measure_words import amount_fields, said_amount, unit_word
from assistant.answers.measures_asked import item_asked, parts_of, system_in_force
from assistant.engine.cautions import Scene, cautions
from assistant.engine.cups_and_spoons import in_cups_and_spoons, volume_of
from assistant.engine.measures import MeasureBook
from assistant.engine.naming import figure, short_name
from assistant.engine.refusal import Refused
from assistant.engine.weighing import Weighed, weigh
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.conversion import ConversionRequest
from knowledge.records.cautions import Caution
from knowledge.records.ingredients import Ingredient


def in_eggs(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """How many eggs a mass or volume of egg is."""
    item, assumed = item_asked(request, False, room, book)
    thing = room.kb.ingredients[item]
    weighed = weigh(parts_of(request), item, system_in_force(request, room), "", book)
    each_g = thing.each_g
    if each_g is None:
        raise Refused(f"what one {short_name(thing)} weighs is not known here", "a weight in grams")
    count = weighed.g / each_g
    answer = {
        "from": amount_fields(request.amounts), "to": {"amount": round(count, 6), "unit": "each"}, "item": item,
        "g": weighed.g, "low_g": None, "high_g": None,
        "basis": f"one {thing.each_unit} = {each_g:g} g without the shell",
    }  # fmt: skip
    said = f"{said_amount(request.amounts, book)} {short_name(thing)}"
    blocks: list[Block] = [Line(f"{said}: {figure(count)} eggs.", role="head"), Line(str(answer["basis"]) + ".")]
    return converted(request, room, answer, f"{said} in eggs", blocks, tuple(assumed), item, thing.source)


def into_volume(
    request: ConversionRequest, room: Room, book: MeasureBook, thing: Ingredient, weighed: Weighed, unit: str,
    system: str, states: str, said: str, assumed: tuple[str, ...],
) -> Outcome:  # fmt: skip
    found = volume_of(weighed.g, thing, unit, system, states, book)
    words = in_cups_and_spoons(found.ml, system, book)
    answer = {
        "from": amount_fields(request.amounts),
        "to": {"amount": round(found.amount, 6), "unit": unit},
        "item": thing.id,
        "g": weighed.g,
        "low_g": None,
        "high_g": None,
        "ml": found.ml,
        "low": found.low,
        "high": found.high,
        "measure": words,
        "basis": found.basis,
    }
    many = unit_word(unit, book, found.amount)
    kitchen = unit in ("cup", "tbsp", "tsp", "dsp")
    shown = f"{found.amount:.1f}".removesuffix(".0") if kitchen else figure(found.amount)
    head = f"{said}: {shown} {many}"
    if found.high > 1.05 * found.low:
        head += f" ({figure(found.low)} to {figure(found.high)} as it is filled)"
    blocks: list[Block] = [Line(head + ".", role="head")]
    if kitchen:
        blocks.append(Line(f"With the measures in the drawer: {words}."))
    blocks.append(Line(found.basis + "."))
    if found.high > 1.12 * found.low:
        blocks.append(Line(why_a_range(thing), role="note"))
    return converted(request, room, answer, f"{said} in {many}", blocks, assumed, thing.id, thing.source)


def why_a_range(thing: Ingredient) -> str:
    if thing.group == "flour" or thing.id in ("cocoa", "sugar_powdered"):
        return (
            "The air in the cup decides: spooned it is lightest, scooped heaviest. Weigh it once and the range is gone."
        )
    return "How it lies and how the measure is filled decide: weigh it once and the range is gone."


def converted(
    request: ConversionRequest, room: Room, answer: Mapping[str, Any], read_as: str, blocks: list[Block],
    assumed: tuple[str, ...], item: str, source: str,
) -> Outcome:  # fmt: skip
    scene = Scene(kind="conversion", line=room.text, ingredients=frozenset({item}))
    notes = tuple(note.text for note in cautions(scene, room.kb.all(Caution), room.kb.ingredients))
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + "."))
    blocks += [Line(note, role="warn") for note in notes]
    return Outcome(
        "conversion", answer, read_as, Page(tuple(blocks)), assumed, notes, (source,) if source else (), focus=request
    )
