"""The turns of speech of complaints, made ready to be found whatever small words stand between."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grammar.lexicon import Lexicon, Term


@dataclass(frozen=True)
class Index:
    exact: Mapping[str, tuple[Term, ...]]
    loose: Mapping[str, tuple[Term, ...]]
    words: frozenset[str]
    pairs: Mapping[frozenset[str], tuple[Term, ...]]
    faults: frozenset[str]  # words that are a symptom by themselves: what a slip most likely meant
    alike: Mapping[str, str]  # word to the word it is alike to


_INDEX: dict[int, Index] = {}


def index_of(lexicon: Lexicon) -> Index:
    found = _INDEX.get(id(lexicon))
    if found is None:
        alike = alike_words(lexicon)
        said = {phrase: phrase.split(" ") for phrase in lexicon.complaints}
        exact: dict[str, tuple[Term, ...]] = dict(lexicon.complaints)
        for phrase, words in tuple(said.items()):
            if len(words) > 1 and not alike.keys().isdisjoint(words):
                other = [alike.get(word, word) for word in words]
                key = " ".join(other)
                if key not in exact:
                    exact[key], said[key] = lexicon.complaints[phrase], other
        loose: dict[str, tuple[Term, ...]] = {}
        pairs: dict[frozenset[str], tuple[Term, ...]] = {}
        passed, empty = lexicon.small("passed_over"), lexicon.small("empty")
        apart = lexicon.small("denies", "loose_ends")
        for phrase, words in said.items():
            bare = [word for word in words if word not in empty]
            spare = [word for word in words if word not in passed]
            for short, least in ((bare, 2), (spare, 3)):
                if least <= len(short) < len(words):
                    key = " ".join(short)
                    if key not in exact:
                        known = loose.get(key)
                        terms = exact[phrase]
                        loose[key] = terms if known is None else tuple(dict.fromkeys((*known, *terms)))
            if len(spare) == 2 and min(len(spare[0]), len(spare[1])) >= 4 and apart.isdisjoint(spare):
                pairs.setdefault(frozenset(spare), exact[phrase])
        known_words = frozenset(word for words in said.values() for word in words if word.isalpha())
        faults = frozenset(
            phrase for phrase, terms in lexicon.complaints.items() if phrase.isalpha() and terms[0][0] == "symptom"
        )
        found = Index(exact, loose, known_words, pairs, faults, alike)
        _INDEX.clear()
        _INDEX[id(lexicon)] = found
    return found


def alike_words(lexicon: Lexicon) -> dict[str, str]:
    """Single words to the word they are alike to in a turn of speech."""
    return {word: name for word, terms in lexicon.cues.items() for kind, name in terms if kind == "alike"}
