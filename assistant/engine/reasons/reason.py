"""A reason for one figure of a formula, and the words and sources that many reasons share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.naming import grams, short_name

if TYPE_CHECKING:
    from knowledge import Knowledge

LAYER_WORDS = {"said": "as you said", "set": "your setting", "assumed": "assumed", "solved": "worked out"}
COUNTED_BY = "baker's percentages: every share is of all flour, the flour inside starter and preferments included"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why one figure is what it is.

    figure: its field (`flour_g`, `hydration_pct` ...) or `row <item>`, `preferment <item>`, `reading <number of pour>`.
    name: what a baker calls it. sum: the algebra with the figures in it. sources: records it rests on, in words.
    """

    figure: str
    name: str
    value: float
    unit: str
    sum: str
    sources: tuple[str, ...] = ()


def layer_words(formula: Formula, field: str) -> str:
    """Said, set, assumed or worked out, in the baker's words; empty where it is not known."""
    layer = formula.layers.get(field)
    return LAYER_WORDS[layer] if layer is not None else ""


def with_layer(formula: Formula, field: str) -> str:
    """The same in brackets, to stand behind a figure."""
    words = layer_words(formula, field)
    return f" ({words})" if words else ""


def water_inside(formula: Formula) -> list[str]:
    """The water that is not poured, by what it is in, in words."""
    names = {row.item: row.name.split(",")[0] for row in formula.rows}
    inside = ((names.get(item, item), g) for item, g in formula.water_from.items() if item != "water" and g > 0.05)
    return [f"{grams(g)} in the {name}" for name, g in inside]


def flour_inside(formula: Formula) -> list[str]:
    """The flour that is no row, by the starter and the preferments it is in, in words."""
    starter = formula.starter
    inside = [f"{grams(starter.flour_g)} in the starter"] if starter is not None else []
    return inside + [f"{grams(part.flour_g)} in the {part.name}" for part in formula.preferments if part.flour_g > 0.05]


def water_sources(formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    """The records that say how much water a thing brings."""
    return tuple(
        f"water in {short_name(kb.ingredients[item])}: {kb.ingredients[item].source}"
        for item, g in formula.water_from.items() if item != "water" and g > 0.5 and item in kb.ingredients
    )  # fmt: skip
