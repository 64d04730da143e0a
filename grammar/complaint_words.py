"""The words of a complaint and the turns of speech found in them, longest first.

Words that only fill are passed over ("the crust is really thick" is "crust thick"), two words may stand in either order
("vertical razor"), and a slip of the finger is repaired to a word of a complaint.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from grammar.complaint_index import Index, index_of
from grammar.complaint_terms import Word
from grammar.lexicon import Lexicon, fold
from grammar.slips import distance, repair
from grammar.tokens import Token

_WORD = re.compile(r"\d+(?::\d+)+|[^\W_]+(?:['’][^\W_]+)*|[;.!?,:()]|%", re.UNICODE)
_BREAKS = frozenset(";.!?,:()")

_LEAST_REPAIRED, _LONG = 5, 9
"""A shorter word is too near to others of its length for a slip to be taken for it ("slab", "scab")."""


def words_of(
    text: str, lexicon: Lexicon, tokens: Sequence[Token]
) -> tuple[tuple[Word, ...], tuple[tuple[str, str], ...]]:
    """The words of a line, slips repaired, and the repairs made."""
    index = index_of(lexicon)
    amounts = [(t.start, t.end) for t in tokens if t.quantity is not None]
    mended = {(t.start, t.end): t.repaired for t in tokens if t.repaired}
    told_of_dough = _told_of_dough(text, tokens, index, lexicon)
    out: list[Word] = []
    repairs: list[tuple[str, str]] = []
    mark = False
    for match in _WORD.finditer(text):
        typed = match.group()
        if typed in _BREAKS:
            mark = True
            continue
        word = _one_of_many(fold(typed), index, lexicon)
        within = next((n for n, (start, end) in enumerate(amounts) if start <= match.start() < end), -1)
        known = (
            word in index.words
            or word in lexicon.words
            or word in lexicon.common
            or (bool(lexicon.letter(word)) and (match.start(), match.end()) not in mended)
            or word in lexicon.units
            or word in lexicon.small("passed_over")
            or word in _cue_words(lexicon)
            or word in _look_words(lexicon)
        )
        if not known and within < 0 and word.isalpha() and told_of_dough:
            by_reader = mended.get((match.start(), match.end()))
            better = _of_a_fault(word, index.faults) or by_reader or _of_a_fault(word, index.words)
            if better and max(len(better), len(word)) >= _LEAST_REPAIRED:
                if by_reader != better:  # else it is told already
                    repairs.append((typed, better))
                word = better
        out.append(Word(word, match.start(), match.end(), mark, typed, within, index.alike.get(word, word)))
        mark = False
    return tuple(out), tuple(repairs)


def _of_a_fault(word: str, faults: frozenset[str]) -> str | None:
    """The fault's word that `word` is a slip of: nearer than other slips, for no repair makes a fault."""
    better = repair(word, faults)
    near = better is not None and distance(word, better, 2) <= (1 if len(word) < _LONG else 2)
    return better if near else None


def _told_of_dough(text: str, tokens: Sequence[Token], index: Index, lexicon: Lexicon) -> bool:
    """Whether a word stands there as it is that is the trade's or a fault's: repairs alone never make up a fault."""
    if any(t.kind == "TERM" and not t.repaired for t in tokens):
        return True
    said = (fold(word) for word in text.split())
    return any(word in index.words and word not in lexicon.small("passed_over", "empty") for word in said)


def means_something(word: str, lexicon: Lexicon) -> bool:
    """Whether a word is one that faults or properties are told by."""
    return word in _look_words(lexicon) or word in index_of(lexicon).words


def _one_of_many(word: str, index: Index, lexicon: Lexicon) -> str:
    """The singular where only that is a word of complaints ("bricks", "doorstops")."""
    known = word in index.words or word in _cue_words(lexicon) or word in lexicon.small("passed_over")
    if len(word) < 5 or not word.endswith("s") or known:
        return word
    return word[:-1] if word[:-1] in index.words else word


@lru_cache(maxsize=4)
def _look_words(lexicon: Lexicon) -> frozenset[str]:
    return frozenset(word for phrase in (*lexicon.looks, *lexicon.parts) for word in phrase.split(" "))


@lru_cache(maxsize=4)
def _cue_words(lexicon: Lexicon) -> frozenset[str]:
    return frozenset(word for phrase in lexicon.cues for word in phrase.split(" "))


def trade_names(words: Sequence[Word], tokens: Sequence[Token]) -> tuple[frozenset[int], ...]:
    """Places of the words of each bread or ingredient with a name of several words ("sticky buns", "dry yeast")."""
    spans = [
        (t.start, t.end)
        for t in tokens
        if t.kind == "TERM" and " " in t.text.strip() and any(kind in ("bread", "ingredient") for kind, _ in t.terms)
    ]
    return tuple(frozenset(n for n, w in enumerate(words) if start <= w.start < end) for start, end in spans)
