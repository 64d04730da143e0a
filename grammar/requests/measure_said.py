"""Amounts as a conversion takes them: a number with its unit, said once or said again in brackets."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.frames import Bound
from grammar.phrases import Phrase

OZ = frozenset({"oz", "lb", "butter_stick", "stone"})
KITCHEN = frozenset({"cup", "tbsp", "tsp", "dsp", "fl_oz", "pint", "quart", "us_cup", "metric_cup"})
_PACKS = frozenset({"can", "packet", "jar", "bottle", "block", "cake"})
SAME = "same"
"""The unit of a bare number that follows a conversion: the unit it had."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One amount as said: value (and the high end of a range) in a unit's id; "each" where things are counted."""

    value: float
    unit: str
    high: float | None = None


def measure_of(phrase: Phrase) -> Measure | None:
    quantity = phrase.quantity
    if quantity is None:
        return None
    high = phrase.high.value if phrase.high is not None else None
    return Measure(quantity.value, quantity.unit or "each", high)


WEIGHED_OR_POURED = OZ | KITCHEN | {"g", "kg", "ml", "l", "cl", "dl", "us_tbsp", "us_tsp"}


def unit_of_one(bound: Bound, amounts: list[Measure]) -> str | None:
    """ "3 tsp in a tbsp": one of the measure that the other is to be told in."""
    for n, phrase in enumerate(bound.phrases):
        found = measure_of(phrase) if phrase.kind == "amount" else None
        one = found is not None and found.value == 1 and phrase.quantity is not None and phrase.quantity.spelled
        if found is None or not one or len(amounts) != 2 or found != amounts[1] or found.unit in ("each", SAME):
            continue
        if n and "in" in bound.phrases[n - 1].ids("link"):
            return found.unit
    return None


_POURED = frozenset({"ml", "l", "cl", "dl"})


def said_twice(bound: Bound, amounts: list[Measure]) -> list[Measure]:
    """What stands in brackets says the amount before it again: "1 cup (250 ml)", "125 g (1 cup)"; of a count it is what
    each holds: "2 (14 oz) cans". The weight is kept, else the metric volume."""
    inside: list[Measure] = []
    depth = 0
    for phrase in bound.phrases:
        sign = phrase.text.strip() if phrase.kind == "sep" else ""
        depth += (sign in ("(", "[")) - (sign in (")", "]"))
        found = measure_of(phrase) if phrase.kind == "amount" and depth > 0 else None
        if found is not None and found in amounts:
            inside.append(found)
    outside = [one for one in amounts if one not in inside]
    if not inside or not outside:
        return amounts
    weighed = [one for one in inside if one.unit in OZ or one.unit in ("g", "kg")]
    if all(one.unit in ("each", SAME) or one.unit in _PACKS for one in outside):
        count = outside[0].value
        return [replace(one, value=one.value * count) for one in (weighed or inside)]
    if weighed and not any(one.unit in OZ or one.unit in ("g", "kg") for one in outside):
        return weighed
    poured = [one for one in inside if one.unit in _POURED]
    return poured if poured and not any(one.unit in _POURED | {"g", "kg"} | OZ for one in outside) else outside


_AGAINST = re.compile(r"\b(?:vs|versus|compared|against)\b", re.I)
_MINUS = re.compile(r"\b(?:minus|less)\b", re.I)


@dataclass(frozen=True, slots=True)
class Figures:
    """The figures of a line as a conversion takes them.

    amounts: to be added up; heat: of an oven; length, sizes_cm: of a tin; asked_in: the unit that one of it was asked
    in; again: some of it was said twice; manner: how full the measure is.
    """

    amounts: list[Measure]
    heat: Measure | None
    length: Measure | None
    sizes_cm: tuple[float, ...]
    asked_in: str | None
    again: bool
    manner: tuple[str, ...]


def figures_of(bound: Bound) -> Figures:
    """The figures of the line, each once."""
    amounts: list[Measure] = []
    heat: Measure | None = None
    length: Measure | None = None
    sizes: tuple[float, ...] = ()
    for hit in bound.hits:
        if hit.amount is None:
            continue
        found = measure_of(hit.amount)
        if hit.slot == "sizes":
            sizes = hit.amount.sizes or (hit.amount.quantity.base if hit.amount.quantity else 0.0,)
        elif found is None:
            continue
        elif hit.slot in ("heat", "oven"):
            heat = found if heat is None else heat
        elif hit.slot == "gas":
            heat = replace(found, unit="gas")
        elif hit.slot == "length":
            length = found
        elif hit.slot in ("amounts", "masses"):
            amounts.append(found)
        elif hit.slot == "counts":
            amounts.append(replace(found, unit=hit.ids("pack")[0] if hit.ids("pack") else "each"))
        elif hit.slot == "again":
            amounts.append(replace(found, unit=SAME))
    asked_in = unit_of_one(bound, amounts)
    amounts = amounts[:1] if asked_in is not None else amounts
    once = said_twice(bound, amounts)
    again, amounts = len(once) < len(amounts), once
    measured = [one for one in amounts if one.unit not in ("each", SAME)]
    amounts = measured or amounts
    if len(amounts) > 1 and _AGAINST.search(bound.text):
        amounts = amounts[:1]  # two things are set against each other, not added
    if len(amounts) > 1 and _MINUS.search(bound.text):
        amounts = [amounts[0], *(replace(one, value=-one.value) for one in amounts[1:])]
    manner: tuple[str, ...] = ()
    packs = [p.ids("pack")[0] for p in bound.phrases if p.ids("pack")]
    if packs:
        said, _, unit = packs[0].rpartition("_")  # "heaped_tbsp": how full and how much in one word
        manner = (said,) if said else ()
        if not amounts:
            amounts = [Measure(1.0, unit)]
        amounts = [replace(one, unit=unit) if one.unit in ("each", SAME, packs[0]) else one for one in amounts]
    return Figures(amounts, heat, length, sizes, asked_in, again, manner)
