"""The words a recipe is read with, handed in as plain values, and the search for ingredient names among them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from grammar.lexicon import Term, fold

_WORD = re.compile(r"\d+/\d+|[a-z0-9%]+(?:\.[0-9]+)?(?:&[a-z]+)?|[/,;:()]")


@dataclass(frozen=True)
class RecipeWords:
    """Vocabulary of recipes.

    phrases: folded phrase -> its terms (only ("ingredient", id) ones are used); groups: ingredient id -> group;
    units: name of a measure -> (measure id, "mass" | "volume" | "count"), capitals kept where they matter;
    states: folded single words that say how a thing is cut, kept or bought and do not change what it is;
    sections: folded heading -> "ingredients", "build" (a starter's or preferment's), "outside" (not in the dough),
    "method" or "other".

    About amounts, in small letters as written: about: "roughly"; manners: how full, to its id; sizes; systems: cup
    systems; alone: measures that are an amount without a number ("pinch of salt"); asides: what makes a number in front
    one that measures no ingredient (minutes, degrees, inches). verbs: folded words a step of the method begins with.
    """

    phrases: Mapping[str, tuple[Term, ...]]
    units: Mapping[str, tuple[str, str]]
    groups: Mapping[str, str] = field(default_factory=dict)
    states: frozenset[str] = frozenset()
    sections: Mapping[str, str] = field(default_factory=dict)
    about: frozenset[str] = frozenset()
    manners: Mapping[str, str] = field(default_factory=dict)
    sizes: Mapping[str, str] = field(default_factory=dict)
    systems: Mapping[str, str] = field(default_factory=dict)
    alone: frozenset[str] = frozenset()
    asides: frozenset[str] = frozenset()
    verbs: frozenset[str] = frozenset()

    @cached_property
    def items(self) -> Mapping[str, str]:
        """Folded ingredient phrase -> ingredient id; bare adjectives are left to `short`."""
        return {phrase: id for phrase, id in self._called() if phrase not in self.states}

    @cached_property
    def short(self) -> Mapping[str, str]:
        """Adjectives that name an ingredient when nothing else stands there: "500 g strong" is strong flour."""
        return {phrase: id for phrase, id in self._called() if phrase in self.states}

    def _called(self) -> Iterator[tuple[str, str]]:
        for phrase, terms in self.phrases.items():
            ids = [id for kind, id in terms if kind == "ingredient"]
            if ids:
                yield phrase, ids[0]

    @cached_property
    def longest(self) -> Mapping[str, int]:
        """First word of an ingredient phrase -> the most words a phrase that begins with it has."""
        longest: dict[str, int] = {}
        for phrase in self.items:
            first, count = phrase.split(" ", 1)[0], phrase.count(" ") + 1
            longest[first] = max(longest.get(first, 0), count)
        return longest

    def item(self, words: tuple[str, ...]) -> str | None:
        """The ingredient called by exactly these folded words, singular and plural alike; None if there is none."""
        found = self.items.get(" ".join(words))
        if found is None and words and not (len(words) == 1 and words[0] in self.states):
            for last in _other_number(words[-1]):
                found = self.items.get(" ".join((*words[:-1], last)))
                if found is not None:
                    break
        return found

    def unit(self, name: str) -> tuple[str, str] | None:
        """(measure id, dimension) of a unit's name; capitals decide only where both are units ("T", "t")."""
        return self.units.get(name) or self.units.get(name.lower())


@dataclass(frozen=True, slots=True)
class Match:
    """An ingredient named by words[start:end]."""

    item: str
    start: int
    end: int


def folded_words(text: str) -> tuple[str, ...]:
    """The words of a text in the form they are looked up by, with the punctuation that ends a name kept apart."""
    return tuple(_WORD.findall(fold(text)))


def matches(words: tuple[str, ...], known: RecipeWords) -> tuple[Match, ...]:
    """Every ingredient named, longest first from the left, none overlapping."""
    found: list[Match] = []
    at = 0
    while at < len(words):
        reach = max((known.longest.get(w, 0) for w in (words[at], *_other_number(words[at]))), default=0)
        for end in range(min(len(words), at + reach), at, -1):
            item = known.item(words[at:end])
            if item is not None:
                found.append(Match(item, at, end))
                at = end
                break
        else:
            at += 1
    return tuple(found)


def _other_number(word: str) -> tuple[str, ...]:
    """Singular forms of a plural word, plural forms of a singular one; the likelier first."""
    if len(word) < 3 or not word.isalpha():
        return ()
    if word.endswith("ies"):
        return (word[:-3] + "y", word[:-1])
    if word.endswith(("oes", "shes", "ches")):
        return (word[:-2],)
    if word.endswith("ves"):
        return (word[:-1], word[:-3] + "f")
    if word.endswith("s") and not word.endswith("ss"):
        return (word[:-1],)
    return (word + "s", word + "es")
