"""Hands the reader its words: the knowledge's vocabulary and units in the reader's plain form."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache, cached_property, lru_cache
from typing import TypeVar

from grammar.lexicon import Lexicon, Peril, Unit
from knowledge import Knowledge
from knowledge.complaints import complaints
from knowledge.perils import perilous, perils
from knowledge.units import units
from knowledge.vocabulary import aspects, common_words, slips, vocabulary

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
    names = units(kb).names
    faults = cache(lambda: complaints(kb))
    return Lexicon(
        phrases=vocabulary(kb),
        units={
            name: tuple(Unit(one.id, one.dimension, one.factor) for one in readings) for name, readings in names.items()
        },
        common=frozenset(kb.table("known_words", kb.digest(), lambda: _known_words(kb))),
        groups=kb.table(
            "groups", kb.digest("ingredients"), lambda: {i: one.group for i, one in kb.ingredients.items()}
        ),
        aspects=aspects(kb),
        slips=kb.table("slips", kb.digest("words"), lambda: dict(slips(kb))),
        complaints=_Later(lambda: faults().phrases),
        cues=_Later(lambda: faults().cues),
        trade_of=_Later(lambda: faults().trade_of),
        denied=_Later(lambda: faults().denied),
        shows=_Later(lambda: faults().shows),
        about=_Later(lambda: faults().about),
        answers=_Later(lambda: faults().answers),
        perilous=perilous(kb),
        perils=tuple(Peril(*one) for one in perils(kb)),
    )


def _groups(kb: Knowledge) -> dict[str, str]:
    return {key: one.group for key, one in kb.ingredients.items()}


def _known_words(kb: Knowledge) -> list[str]:
    """Words that are no slips: everyday English and the words of faults, names of units apart."""
    faults = complaints(kb)
    of_faults = {word for phrase in (*faults.phrases, *faults.cues) for word in phrase.split(" ")}
    return sorted(common_words() | (of_faults - units(kb).names.keys()))
