"""From a recipe as read to a recipe as weighed: the reader's values handed to the engine."""

from __future__ import annotations

from assistant.engine.measures import Said
from assistant.engine.recipe import Stated
from grammar.recipe.counted import Amount
from grammar.recipe.line import IngredientLine


def said(amount: Amount) -> Said:
    """One amount as the engine takes it."""
    pack = said(amount.pack) if amount.pack is not None else None
    return Said(amount.low, amount.high, amount.unit, amount.size, amount.manner, pack, amount.system)


def stated(line: IngredientLine) -> Stated:
    """One ingredient line as the engine takes it."""
    return Stated(
        text=line.text,
        item=line.item,
        name=line.name,
        phrase=line.phrase,
        measures=tuple(tuple(said(part) for part in measure.parts) for measure in line.measures),
        others=line.others,
        states=line.states,
        passed_over=line.passed_over,
        wanted=not (line.to_taste or line.more or line.optional or line.part == "outside"),
        lost=line.lost,
        part=line.part,
    )
