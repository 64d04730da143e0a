"""A dough held against what is left in the house: what is short, and what would fit."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.engine.bowl import Bowl
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Shelf
from assistant.engine.swaps import swaps_for
from assistant.talk.bench import Bench
from assistant.talk.room import Room
from assistant.voice.page import Line
from knowledge.records.kin import Kin
from knowledge.records.swaps import Swap
from knowledge.records.traces import Trace

STOCK = "stock"
TOLERANCE = 1.005
"""A dough that needs this much more than there is, is not short: a kitchen scale does not tell."""


def kept_stock(bench: Bench) -> dict[str, float]:
    """What was told to be in the house, grams by id."""
    held = (bench.notes.get(STOCK) or {}).get("held") or {}
    return {str(item): float(g) for item, g in held.items()}


def short_lines(bowl: Bowl, stock: Mapping[str, float], room: Room) -> tuple[Line, ...]:
    """One line for each thing the dough needs more of than there is: fewer pieces, or the rest of something else."""
    kb = room.kb
    facts = Shelf(kb.all(Swap), kb.all(Kin), kb.all(Trace), kb.ingredients)
    out: list[Line] = []
    for item, there_g in stock.items():
        need_g = bowl.g(item)
        if need_g <= there_g * TOLERANCE or item == "water":
            continue
        missing_g = need_g - there_g
        name = short_name(kb.ingredients[item])
        text = f"{name.capitalize()}: {grams(need_g)} g needed, {grams(there_g)} g in the house."
        ways: list[str] = []
        if bowl.pieces is not None and bowl.piece_g is not None:
            many = int(bowl.pieces * there_g / need_g + 1e-6)
            if many >= 1:
                ways.append(f"{many} pieces of {figure(bowl.piece_g)} g")
        try:
            choices = swaps_for(item, missing_g, facts, bowl=bowl).choices
        except Refused:
            choices = ()
        known = [one for one in choices if all(stock.get(part.item, part.g) >= part.g for part in one.into)]
        if known:
            rows = (*known[0].into, *(part for part in known[0].also if part.item == "water"))
            parts = ", ".join(f"{grams(part.g)} g {short_name(kb.ingredients[part.item])}" for part in rows)
            ways.append(f"the missing {grams(missing_g)} g by {parts}")
        if ways:
            text += f" It fits {', or '.join(ways)}."
        out.append(Line(text, role="warn"))
    return tuple(out)
