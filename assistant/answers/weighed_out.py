"""An amount of an ingredient in grams, or in another unit of weight."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.converted import converted, in_eggs, into_volume, why_a_range
from assistant.answers.measure_words import amount_fields, said_thing, split_unit, unit_word
from assistant.answers.measures_asked import cups_assumed, item_asked, parts_of, system_in_force
from assistant.engine.measures import MeasureBook, Said
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from assistant.engine.weighing import Weighed, weigh
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line
from grammar.requests.conversion import ConversionRequest
from knowledge.records.ingredients import Ingredient


def measured(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """An amount of an ingredient."""
    if request.to == "each":
        return in_eggs(request, room, book)
    system = system_in_force(request, room)
    parts = parts_of(request)
    kinds = {book.dimension(part.unit) for part in parts}
    target, target_system = split_unit(request.to) if request.to else (None, None)
    system = target_system or system
    to_volume = target is not None and target in book.measures and book.dimension(target) == "volume"
    if target is None and kinds == {"mass"} and all(part.unit in ("g", "kg") for part in parts):
        target, to_volume = "cup", True
    fluid_asked = (
        to_volume and len(parts) == 1 and parts[0].unit == "oz" and room.kb.ingredients[request.item[0]].poured
    )
    if fluid_asked:
        parts, kinds = (replace(parts[0], unit="fl_oz"),), {"volume"}
    item, assumed = item_asked(request, "volume" in kinds or to_volume, room, book)
    thing = room.kb.ingredients[item]
    filled = " ".join(fill.replace("_", " ") for fill in request.fills)
    states = f"{filled} {request.name.lower()} {room.text.lower()}"
    weighed = weigh(parts, item, system, states, book)
    assumed += weighed.assumed
    if fluid_asked:
        assumed.append("ounces of something poured, turned into a volume, are fluid ounces")
    if "volume" in kinds or to_volume:
        assumed += cups_assumed(request, parts, target if to_volume else None, system, room, book)
    said = said_thing(request, thing, book)
    if to_volume and target is not None:
        return into_volume(request, room, book, thing, weighed, target, system, states, said, tuple(assumed))
    unit = target or "g"
    if unit not in book.measures:
        raise Refused("a mass does not turn into degrees or lengths", "grams, ounces, cups or spoons of it")
    one_g = book.measures[unit].g or weigh((Said(1.0, 1.0, unit),), item, system, "", book).g
    ranged = weighed.by in ("volume", "count") or weighed.low_g < weighed.high_g - 1e-9
    fluid = _fluid(parts, thing, weighed, system, room, book)
    answer: dict[str, Any] = {
        "from": amount_fields(request.amounts),
        "to": {"amount": round(weighed.g / one_g, 6), "unit": unit},
        "item": item,
        "g": weighed.g,
        "low_g": weighed.low_g if ranged else None,
        "high_g": weighed.high_g if ranged else None,
        "basis": weighed.basis,
    }
    if weighed.ml is not None:
        answer["ml"] = weighed.ml
    head = f"{said}: {grams(weighed.g)} g"
    if unit != "g":
        head += f" = {figure(weighed.g / one_g)} {unit_word(unit, book, weighed.g / one_g)}"
    if ranged and fluid is None:
        head += f" ({grams(weighed.low_g)} to {grams(weighed.high_g)})"
    blocks: list[Block] = [Line(head + ".", role="head")]
    if fluid is not None:
        answer |= {
            "low_g": min(weighed.g, fluid.g),
            "high_g": max(weighed.g, fluid.g),
            "fluid": {"ml": fluid.ml, "g": fluid.g},
        }
        blocks.append(
            Line(
                "That is ounces by weight. If fluid ounces of it are meant: "
                f"{grams(fluid.ml or 0)} ml, {grams(fluid.g)} g."
            )
        )
    blocks.append(Line(weighed.basis + "."))
    if weighed.by == "volume" and weighed.high_g > 1.12 * weighed.low_g and parts[0].low == parts[0].high:
        blocks.append(Line(why_a_range(thing), role="note"))
    return converted(
        request, room, answer, f"{said} in {unit_word(unit, book, 2)}", blocks, tuple(assumed), item, weighed.source
    )


def _fluid(
    parts: tuple[Said, ...], thing: Ingredient, weighed: Weighed, system: str, room: Room, book: MeasureBook
) -> Weighed | None:
    """What ounces of something poured weigh if fluid ounces were meant."""
    if len(parts) != 1 or parts[0].unit != "oz" or not thing.poured or thing.cup_g is None:
        return None
    return weigh((Said(parts[0].low, parts[0].high, "fl_oz"),), thing.id, system, "", book)
