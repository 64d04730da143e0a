"""Amounts and measures as they are said: "2 heaped tbsp", "3 large eggs", "1 US cup"."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.engine.cups_and_spoons import fraction
from assistant.engine.measures import SYSTEM_NAMES, MeasureBook
from assistant.engine.naming import short_name
from grammar.requests.conversion import ConversionRequest
from grammar.requests.measure_said import Measure
from knowledge.records.ingredients import Ingredient

MANNERS = frozenset({"scant", "heaped", "generous", "level"})
_PREFIXES = ("us", "metric", "imperial", "australian", "japanese")


def split_unit(unit: str) -> tuple[str, str | None]:
    """A unit's id as (measure id, cup system it names)."""
    if unit == "butter_stick":
        return "stick", None
    for prefix in _PREFIXES:
        if unit.startswith(prefix + "_"):
            return unit.removeprefix(prefix + "_"), prefix
    return unit, None


def amount_fields(amounts: tuple[Measure, ...]) -> dict[str, Any]:
    first = amounts[0]
    found: dict[str, Any] = {"amount": first.value, "unit": split_unit(first.unit)[0]}
    if first.high is not None:
        found["high"] = first.high
    if len(amounts) > 1:
        found["and"] = [{"amount": one.value, "unit": split_unit(one.unit)[0]} for one in amounts[1:]]
    return found


def said_thing(request: ConversionRequest, thing: Ingredient, book: MeasureBook) -> str:
    """The amount and the thing in words: "2 cups packed brown sugar", "3 large eggs"."""
    amount = said_amount(request.amounts, book)
    if all(one.unit == "each" for one in request.amounts):
        return f"{amount} {request.name.lower()}"
    manner = [fill for fill in request.fills if fill in MANNERS and fill != "level"]
    filled = [fill.replace("_", " ") for fill in request.fills if fill not in MANNERS and fill != "cut"]
    if manner:
        number, _, unit = amount.partition(" ")
        amount = f"{number} {manner[0]} {unit}" if "/" not in unit else f"{amount} ({manner[0]})"
    return " ".join((amount, *filled, short_name(thing)))


def said_amount(amounts: tuple[Measure, ...], book: MeasureBook) -> str:
    said = _one_amount(amounts[0], book) if amounts else ""
    for one in amounts[1:]:
        said += f" {'+' if one.value > 0 else '-'} {_one_amount(replace(one, value=abs(one.value)), book)}"
    return said


def _one_amount(one: Measure, book: MeasureBook) -> str:
    unit, system = split_unit(one.unit)
    number = fraction(one.value) if one.high is None else f"{fraction(one.value)}-{fraction(one.high)}"
    if unit == "each":
        return number
    word = unit_word(unit, book, one.high or one.value)
    return f"{number} {SYSTEM_NAMES[system] + ' ' if system else ''}{word}"


def unit_word(unit: str, book: MeasureBook, count: float) -> str:
    """A unit as it is written beside a number."""
    if unit in ("g", "kg", "ml", "l", "cl", "dl", "oz", "lb", "mg", "tsp", "tbsp", "dsp"):
        return unit
    name = book.measures[unit].name if unit in book.measures else unit
    return name if count <= 1 or name.endswith("s") else name + ("es" if name.endswith(("ch", "sh")) else "s")
