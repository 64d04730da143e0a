"""What is left in the house: kept on the bench, and held against the dough that needs it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_said import cup_system
from assistant.answers.in_the_bowl import bowl_in_hand, name_of, weight
from assistant.answers.stock_check import STOCK, kept_stock, short_lines
from assistant.answers.stock_makes import what_it_makes
from assistant.engine.measures import Said, measure_book
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.weighing import weigh
from assistant.talk.doughs import short_label, under_way
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.stock import Held, StockRequest


@answers(StockRequest)
def answer(request: StockRequest, room: Room) -> Outcome:
    """The stock kept or listed; what it makes."""
    if request.listed:
        return _listed(request.item, room)
    told = told_stock(request.held, room)
    stock = {**kept_stock(room.bench), **told}
    bench = room.bench.with_notes(STOCK, {"held": stock})
    if request.makes:
        return replace(what_it_makes(stock, room), bench=bench if told else None)
    words = ", ".join(f"{weight(g)} {name_of(item, room)}" for item, g in told.items())
    lines = _short_of(told, stock, room)
    entry: dict[str, Any] = {
        "id": room.number, "at": room.stamp(), "kind": "stock", "text": f"{words} left",
        "stock": [{"item": item, "g": g} for item, g in told.items()],
        "bake": room.bake.name if room.bake is not None else None,
    }  # fmt: skip
    fields = {"entry": entry, "short": [line.text for line in lines]}
    change = {"what": "stock", "text": f"{words} left"}
    page = Page((Line(f"Kept: {words} left."), *lines))
    return Outcome("record", fields, f"in the house: {words}", page, bench=bench, change=change)


def _short_of(told: Mapping[str, float], stock: Mapping[str, float], room: Room) -> tuple[Line, ...]:
    """What a dough is short of: the one in hand; of the others only what was told now."""
    bowl = bowl_in_hand(room)
    lines = list(short_lines(bowl, stock, room)) if bowl is not None else []
    for bake in under_way(room.bench, room.now):
        there = replace(room, bench=room.bench.taking(bake.id))
        other = bowl_in_hand(there) if bake.id != room.bench.in_hand else None
        found = short_lines(other, told, there) if other is not None else ()
        lines += [replace(line, text=f"{short_label(bake)}: {line.text}") for line in found]
    return tuple(lines)


def told_stock(held: Sequence[Held], room: Room) -> dict[str, float]:
    """What was said to be there, grams by id."""
    return {_item(one, room): _grams(one, room) for one in held}


def _item(held: Held, room: Room) -> str:
    """The one thing meant: the one the dough in hand has, else the likeliest."""
    named = [item for item in held.ids if item in room.kb.ingredients]
    if "flour" in held.ids and not named:
        return "flour_bread"
    bowl = bowl_in_hand(room)
    inside = [item for item in named if bowl is not None and bowl.g(item) > 0]
    if not named:
        raise Refused("What is left was not said.", "Say it with its weight: only 1.2 kg bread flour left.")
    return (inside or named)[0]


def _grams(held: Held, room: Room) -> float:
    if held.g is not None:
        return held.g
    item = _item(held, room)
    if held.share is not None:
        name, part = name_of(item, room), "half" if held.share == 0.5 else f"{figure(held.share)}"
        near = tuple(f"{part} of a {kg} kg bag of {name} left" for kg in (1, 1.5))
        raise Unclear(f"How much {name} does a full bag hold?", near)
    if held.count is not None:
        each_g = room.kb.ingredients[item].each_g
        if not each_g:
            raise Refused(f"how much one {name_of(item, room)} weighs is not known here", "say it in grams")
        return held.count * each_g
    assert held.measure is not None
    value, unit = held.measure
    return weigh((Said(value, value, unit),), item, cup_system(room.bench.settings), "", measure_book(room.kb)).g


def _listed(item: tuple[str, ...], room: Room) -> Outcome:
    """All of the stock that was told, or that of one thing."""
    stock = {one: g for one, g in kept_stock(room.bench).items() if not item or one in item}
    entries = [
        {"kind": "stock", "item": one, "g": g, "text": f"{weight(g)} {name_of(one, room)}"} for one, g in stock.items()
    ]
    of = f"how much {name_of(item[0], room)} is in the house" if item else "what is in the house"
    lines = [Line(str(one["text"])) for one in entries] or [Line(f"Nothing was told of {of}.")]
    return Outcome("recall", {"entries": entries}, of, Page(tuple(lines)))
