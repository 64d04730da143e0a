"""Hands the reader its words: the knowledge's vocabulary and units in the reader's plain form."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache, cached_property, lru_cache
from typing import Any, TypeVar

from grammar.lexicon import Derived, Lexicon, Look, Peril, Unit, derived_of, fold
from knowledge import Knowledge
from knowledge.columns import columns, from_columns
from knowledge.complaints import complaints
from knowledge.english import letter_of
from knowledge.perils import made_perilous, perilous, perilous_numbers, perils
from knowledge.retrieval import pairs_of, senses, topics_of, weights_of
from knowledge.subjects import besides, shapes, small_talk, small_talk_holds, subjects
from knowledge.tellings import tellings
from knowledge.units import units
from knowledge.vocabulary import asides, aspects, carrying_words, slips, speech, takebacks, vocabulary

V = TypeVar("V")


class _Later(Mapping[str, V]):
    """A table that is only fetched when first looked into: most lines never need the words of faults."""

    def __init__(self, fetch: Callable[[], Mapping[str, V]]) -> None:
        self._fetch = fetch

    @cached_property
    def _all(self) -> Mapping[str, V]:
        return self._fetch()

    def __getitem__(self, name: str) -> V:
        return self._all[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all)

    def __len__(self) -> int:
        return len(self._all)


@lru_cache(maxsize=2)
def lexicon(kb: Knowledge) -> Lexicon:
    """The reader's lexicon for these trade facts."""
    names, phrases = units(kb).names, vocabulary(kb)
    derived = kb.table("derived_words", kb.digest(), lambda: _derived(phrases))
    faults = cache(lambda: complaints(kb))
    return Lexicon(
        phrases=phrases,
        derived=Derived(from_columns(derived["longest"], int), frozenset(derived["words"].split())),
        units={
            name: tuple(Unit(one.id, one.dimension, one.factor) for one in readings) for name, readings in names.items()
        },
        common=frozenset(kb.table("known_words", kb.digest(), lambda: _known_words(kb))),
        letter=letter_of,
        weighty=frozenset(kb.table("weighty_words", kb.digest(), lambda: _weighty_words(kb))),
        groups=kb.table(
            "groups", kb.digest("ingredients"), lambda: {i: one.group for i, one in kb.ingredients.items()}
        ),
        aspects=aspects(kb),
        takebacks={words: frozenset(classes) for words, classes in takebacks(kb).items()},
        speech={does: frozenset(words) for does, words in speech(kb).items()},
        slips=kb.table("slips", kb.digest("words"), lambda: dict(slips(kb))),
        complaints=_Later(lambda: faults().phrases),
        cues=_Later(lambda: faults().cues),
        trade_of=_Later(lambda: faults().trade_of),
        denied=_Later(lambda: faults().denied),
        shows=_Later(lambda: faults().shows),
        about=_Later(lambda: faults().about),
        answers=_Later(lambda: faults().answers),
        perilous=perilous(kb),
        perilous_made=made_perilous(kb),
        perilous_numbers=perilous_numbers(kb),
        perils=tuple(Peril(*one) for one in perils(kb)),
        asides=_Later(lambda: asides(kb)),
        tellings=_Later(lambda: tellings(kb)),
        small_talk=_Later(lambda: small_talk(kb)),
        small_talk_holds=_Later(lambda: small_talk_holds(kb)),
        subjects=_Later(lambda: subjects(kb)),
        beside=_Later(lambda: besides(kb)),
        shapes=_Later(lambda: shapes(kb)),
        sense=senses(kb),
        topics_by_sense=_Later(lambda: topics_of(kb)),
        topics_by_pair=_Later(lambda: pairs_of(kb)),
        telling=_Later(lambda: weights_of(kb)),
        parts=_Later(lambda: faults().parts),
        looks=_Later(lambda: faults().looks),
        look_of=_Later(lambda: {name: Look(*one) for name, one in faults().look_of.items()}),
    )


def with_places(words: Lexicon, places: frozenset[str]) -> Lexicon:
    """The lexicon with the places a baker named: each is said like the kitchen."""
    own = {fold(name): (("cue", "kitchen"),) for name in places if fold(name) not in words.phrases}
    return replace(words, phrases={**words.phrases, **own}, derived=None) if own else words


def _derived(phrases: Iterable[str]) -> dict[str, Any]:
    found = derived_of(phrases)
    return {"longest": columns(found.longest), "words": " ".join(sorted(found.words))}


def _known_words(kb: Knowledge) -> list[str]:
    """Words that are no slips though no topic knows them: those that carry meaning, and those of faults."""
    faults = complaints(kb)
    said = (*faults.phrases, *faults.cues, *faults.looks, *faults.parts)
    of_faults = {word for phrase in said for word in phrase.split(" ")}
    return sorted(carrying_words(kb) | (of_faults - units(kb).names.keys()))


_THINGS = frozenset(
    {
        "ingredient", "bread", "piece", "stage", "symptom", "danger", "hazard", "topping", "flour_type", "mistake",
        "bath", "oven_word", "heat", "fill", "pack", "into", "unit", "job", "diet", "lapse",
    }
)  # fmt: skip
"""Kinds of vocabulary that name things of the bake: the words of their names are never passed over."""


def _weighty_words(kb: Knowledge) -> list[str]:
    """Words never passed over: those that carry meaning, faults told in one word, and words in names of things."""
    faults = complaints(kb)
    told = {phrase for phrase, terms in faults.phrases.items() if " " not in phrase}
    named = {
        word
        for phrase, terms in vocabulary(kb).items()
        if any(kind in _THINGS for kind, _ in terms)
        for word in phrase.split(" ")
    }
    return sorted(carrying_words(kb) | told | named)
