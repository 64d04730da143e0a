"""Whose a word of a fault is: a bread's, or that of somebody or something else in its clause.

A phone goes flat, a day is tough, a person is stuck: none of these is a bread. Where the clause names no bread, dough,
starter nor part of one, and no "it" or "they", its subject or the thing right behind the word owns it.
"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.complaint_part import Part
from grammar.complaint_terms import Word
from grammar.lexicon import Lexicon

_THINGS, _PERSON, _QUALITY = frozenset("np"), "p", "j"


def owned_elsewhere(first: int, last: int, words: Sequence[Word], parts: Sequence[Part], lexicon: Lexicon) -> bool:
    """Whether the words from first to last are said of something else than a bread, dough or starter."""
    if _stresses(first, last, words, lexicon):
        return True
    start = next((n for n in range(first, 0, -1) if words[n].after_mark), 0)
    end = next((n for n in range(last + 1, len(words)) if words[n].after_mark), len(words))
    said = {n for part in parts for n in range(part.first, part.last + 1)}
    article = not lexicon.small("article").isdisjoint(word.text for word in words[max(start, first - 2) : first])
    if article and _of_what_follows(last, end, words, lexicon):
        return True
    if said & set(range(start, end)) or any(words[n].text in lexicon.small("of_bread") for n in range(start, end)):
        return False
    passed = lexicon.small("passed_over", "denied_across", "stress", "stands", "appears", "past", "being")
    owner = next((n for n in range(first - 1, start - 1, -1) if words[n].text not in passed), None)
    if owner is not None and _is_thing(words[owner], lexicon):
        return True
    people = any(words[n].text in lexicon.small("people") for n in range(start, first))
    held_up = _held_up(first, last, end, words, lexicon)
    return held_up or (people and owner is None) or _of_what_follows(last, end, words, lexicon)


def _stresses(first: int, last: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a word of a fault only stresses the quality behind it ("dead lively")."""
    if first != last or words[first].text not in lexicon.small("stress") or last + 1 == len(words):
        return False
    return not words[last + 1].after_mark and lexicon.letter(words[last + 1].text) == _QUALITY


def _of_what_follows(last: int, end: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether it is the quality of a thing or person right behind it ("a tough day", whatever day it is to others)."""
    return last + 1 < end and lexicon.letter(words[last + 1].text) == _PERSON


def weighed_so(first: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether it only tells at what stage a weight is taken: "75 g raw"."""
    weighed = first > 0 and words[first - 1].amount >= 0 and not words[first].after_mark
    return weighed and words[first].text in lexicon.small("stage")


def _is_thing(word: Word, lexicon: Lexicon) -> bool:
    """Whether a word is, by the list of English, a thing or a person, and none of the trade."""
    letter = lexicon.letter(word.text) or lexicon.letter(word.text.removesuffix("s"))
    return word.amount < 0 and word.text not in lexicon.weighty and letter in _THINGS


def _held_up(first: int, last: int, end: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether what follows says what somebody is held up by: "on the phone", "at work"."""
    behind = [words[n] for n in range(first, min(last + 5, end))]
    places = [n for n, word in enumerate(behind) if word.text in lexicon.small("held_by")]
    return bool(places) and any(_is_thing(word, lexicon) for word in behind[places[0] + 1 :])
