"""Words of pasted recipes that are no vocabulary of conversation: how things are cut and kept, and section headings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from knowledge.record import Family, Record


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeWord(Record):
    """A group of words with one job in a recipe.

    state: says how an ingredient is cut, kept, bought or measured and does not change what it is.
    ingredients, method, other: headings that open a list of ingredients, the method, or anything else.
    """

    kind: Literal["state", "ingredients", "method", "other"]
    said_as: tuple[str, ...]


FAMILY = Family(folder="recipe_words", record=RecipeWord)
