"""Measures turned into others: amounts of an ingredient, plain units, oven settings, lengths and tins."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_in_measures import dough_in_measures, row_of_dough
from assistant.answers.measure_words import (
    MANNERS,
    amount_fields,
    said_amount,
    said_thing,
    split_unit,
    unit_word,
)
from assistant.answers.oven_and_tin import heat_answer, lengths_answer
from assistant.engine.cautions import Scene, cautions
from assistant.engine.cups_and_spoons import in_cups_and_spoons, volume_of
from assistant.engine.measures import SYSTEM_NAMES, MeasureBook, Said, item_meant, measure_book
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from assistant.engine.weighing import Weighed, weigh
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.conversion import ConversionRequest
from grammar.requests.measure_said import SAME
from knowledge.records.cautions import Caution
from knowledge.records.ingredients import Ingredient
from knowledge.vocabulary import fold

_KOSHER = {"salt_kosher_dense", "salt_kosher_light"}


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
        return _plain_units(request, room, book)
    return _measured(request, room, book)


def system_in_force(request: ConversionRequest, room: Room) -> str:
    """The cup system: said, else the kitchen's setting, else US."""
    return request.system or str(room.setting("cup") or "us")


def _parts(request: ConversionRequest) -> tuple[Said, ...]:
    manner = next((fill for fill in request.fills if fill in MANNERS), None)
    parts = []
    for one in request.amounts:
        unit, system = split_unit(one.unit)
        high = one.high if one.high is not None and one.high > one.value else one.value
        parts.append(Said(one.value, high, unit, request.size, manner, None, system))
    return tuple(parts)


def _item(request: ConversionRequest, by_volume: bool, room: Room, book: MeasureBook) -> tuple[str, list[str]]:
    """The ingredient meant, and what was assumed for it. Unclear where guessing would be off by a factor."""
    if by_volume and set(request.item) >= _KOSHER:
        kind = re.search(r"\b(light|flak\w*)\b|\b(dense|coarse|heavy)\b", room.text, re.I)
        if kind is not None:
            return ("salt_kosher_light" if kind.group(1) else "salt_kosher_dense"), []
        amount, into = said_amount(request.amounts, book), f" in {request.to}" if request.to else ""
        raise Unclear(
            "Which kosher salt? A spoon of the dense, coarse kind weighs 1.7 times one of the light flakes.",
            tuple(f"{amount} {salt}{into}" for salt in ("coarse dense kosher salt", "light kosher salt", "table salt")),
        )
    item, assumed = request.item[0], []
    if request.amounts:
        item = book.packed_as(request.amounts[0].unit, request.item)
    phrase = fold(request.name)
    flour = room.setting("flour")
    if phrase in ("flour", "flours") and flour in room.kb.ingredients:
        item = str(flour)
    else:
        country = request.system or next((s for one in request.amounts if (s := split_unit(one.unit)[1])), None)
        country = country or str(room.setting("cup") or "")
        item, because = item_meant(item, phrase, request.size, country, book)
        if because is not None:
            assumed.append(because.rstrip("."))
    if phrase in ("yeast", "yeasts") and item == request.item[0]:
        assumed.append("yeast taken as dried (instant); of fresh yeast it takes 2.4 times as much by weight")
    return item, assumed


def _measured(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """An amount of an ingredient."""
    if request.to == "each":
        return _in_eggs(request, room, book)
    system = system_in_force(request, room)
    parts = _parts(request)
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
    item, assumed = _item(request, "volume" in kinds or to_volume, room, book)
    thing = room.kb.ingredients[item]
    filled = " ".join(fill.replace("_", " ") for fill in request.fills)
    states = f"{filled} {request.name.lower()} {room.text.lower()}"
    weighed = weigh(parts, item, system, states, book)
    assumed += weighed.assumed
    if fluid_asked:
        assumed.append("ounces of something poured, turned into a volume, are fluid ounces")
    if "volume" in kinds or to_volume:
        assumed += _cups_assumed(request, parts, target if to_volume else None, system, room, book)
    said = said_thing(request, thing, book)
    if to_volume and target is not None:
        return _into_volume(request, room, book, thing, weighed, target, system, states, said, tuple(assumed))
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
        blocks.append(Line(_why_a_range(thing), role="note"))
    return _outcome(
        request, room, answer, f"{said} in {unit_word(unit, book, 2)}", blocks, tuple(assumed), item, weighed.source
    )


def _in_eggs(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """How many eggs a mass or volume of egg is."""
    item, assumed = _item(request, False, room, book)
    thing = room.kb.ingredients[item]
    weighed = weigh(_parts(request), item, system_in_force(request, room), "", book)
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
    return _outcome(request, room, answer, f"{said} in eggs", blocks, tuple(assumed), item, thing.source)


def _why_a_range(thing: Ingredient) -> str:
    if thing.group == "flour" or thing.id in ("cocoa", "sugar_powdered"):
        return (
            "The air in the cup decides: spooned it is lightest, scooped heaviest. Weigh it once and the range is gone."
        )
    return "How it lies and how the measure is filled decide: weigh it once and the range is gone."


def _into_volume(
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
        blocks.append(Line(_why_a_range(thing), role="note"))
    return _outcome(request, room, answer, f"{said} in {many}", blocks, assumed, thing.id, thing.source)


def _outcome(
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


def _fluid(
    parts: tuple[Said, ...], thing: Ingredient, weighed: Weighed, system: str, room: Room, book: MeasureBook
) -> Weighed | None:
    """What ounces of something poured weigh if fluid ounces were meant."""
    if len(parts) != 1 or parts[0].unit != "oz" or not thing.poured or thing.cup_g is None:
        return None
    return weigh((Said(parts[0].low, parts[0].high, "fl_oz"),), thing.id, system, "", book)


def _cups_assumed(
    request: ConversionRequest, parts: tuple[Said, ...], target: str | None, system: str, room: Room, book: MeasureBook
) -> list[str]:
    """The cup system, where it makes a difference and nobody said it."""
    if request.system or room.setting("cup"):
        return []
    units = [part.unit for part in parts if part.system is None] + ([target] if target else [])
    varying = [unit for unit in units if len(set(book.measures[unit].ml.values())) > 1]
    if not varying:
        return []
    return [f"{SYSTEM_NAMES[system]} {book.measures[varying[0]].name}s of {book.ml(varying[0], system):.4g} ml"]


def _plain_units(request: ConversionRequest, room: Room, book: MeasureBook) -> Outcome:
    """A unit into another of its kind, no ingredient said."""
    system = system_in_force(request, room)
    parts = _parts(request)
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
    assumed = tuple(_cups_assumed(request, parts, unit if kind == "volume" else None, system, room, book))
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
