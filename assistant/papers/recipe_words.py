"""The reader's words for recipes, taken from the trade facts."""

from __future__ import annotations

from grammar.recipe.words import RecipeWords
from knowledge import Knowledge
from knowledge.records.measures import Measure
from knowledge.records.recipe_words import SECTIONS, RecipeWord
from knowledge.vocabulary import fold, vocabulary


def recipe_words(kb: Knowledge) -> RecipeWords:
    """Ingredient names, measures, words of state and section headings as the recipe reader wants them."""
    words = kb.all(RecipeWord).values()
    meant: dict[str, dict[str, str]] = {}
    for word in words:
        meant.setdefault(word.kind, {}).update({form.lower(): word.id for form in word.said_as})
    phrases = dict(vocabulary(kb))
    for word in words:
        if word.kind == "name":
            phrases.update({fold(form): (("ingredient", word.id),) for form in word.said_as})
    return RecipeWords(
        phrases=phrases,
        units={form: (unit.id, unit.dimension) for unit in kb.all(Measure).values() for form in unit.said_as},
        groups={id: item.group for id, item in kb.ingredients.items()},
        states=frozenset(part for w in words if w.kind == "state" for form in w.said_as for part in fold(form).split()),
        sections={fold(form): w.kind for w in words if w.kind in SECTIONS for form in w.said_as},
        about=frozenset(meant["about"]),
        manners=meant["manner"],
        sizes=meant["size"],
        systems=meant["system"],
        alone=frozenset(meant["alone"]),
        asides=frozenset(meant["aside"]),
        verbs=frozenset(meant["verb"]),
    )
