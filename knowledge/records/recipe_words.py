"""Words of pasted recipes that are no vocabulary of conversation: how things are cut and kept, and section headings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record
from knowledge.records.manners import Manner

if TYPE_CHECKING:
    from knowledge import Knowledge

SECTIONS = frozenset({"ingredients", "build", "outside", "method", "other"})
"""The kinds that are headings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeWord(Record):
    """A group of words with one job in a recipe.

    state: says how an ingredient is cut, kept, bought or measured and does not change what it is.
    ingredients, build, outside, method, other: headings that open a list of ingredients, of those of a starter or
    preferment, of what does not go into the dough (toppings, glazes, fillings), the method, or anything else.
    name: names of the ingredient with this id that mean something else in talk.
    manner, size, system: how full a measure is, how large a piece, whose cups: the id is what is meant.
    about: says that an amount is no exact one. alone: measures that are an amount without a number (a pinch of salt).
    aside: makes the number in front one that measures no ingredient (minutes, degrees, inches).
    verb: what a step of the method begins with.
    """

    kind: Literal[
        "state", "ingredients", "build", "outside", "method", "other", "name", "manner", "size", "system", "about",
        "alone", "aside", "verb",
    ]  # fmt: skip
    said_as: tuple[str, ...]

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if self.kind == "name" and self.id not in kb.ingredients:
            yield f"id: {self.id} is no ingredient"
        if self.kind == "manner" and self.id not in kb.all(Manner):
            yield f"id: {self.id} is no way of filling a measure"


FAMILY = Family(folder="recipe_words", record=RecipeWord)
