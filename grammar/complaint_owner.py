"""Whose a word of a fault is: a bread's, or that of somebody or something else in its clause.

A phone goes flat, a day is tough, a person is stuck: none of these is a bread. Where the clause names no bread, dough,
starter nor part of one, and no "it" or "they", its subject or the thing right behind the word owns it.
"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.complaint_part import Part
from grammar.complaint_terms import BETWEEN, FILL, STRESS, Word, word_set
from grammar.lexicon import Lexicon

_PEOPLE = word_set("i im ive we were weve you youre he hes she shes who")
_OF_BREAD = word_set("it its itd itll theyre they them thats these this mine ours everything lot batch")
_STAGES = word_set("raw unbaked uncooked baked")
_PASSED = FILL | BETWEEN | STRESS
_HELD_BY = word_set("at behind in on with")
"""Behind a word of being held up: by what."""
_THINGS, _PERSON = frozenset("np"), "p"


def owned_elsewhere(first: int, last: int, words: Sequence[Word], parts: Sequence[Part], lexicon: Lexicon) -> bool:
    """Whether the words from first to last are said of something else than a bread, dough or starter."""
    start = next((n for n in range(first, 0, -1) if words[n].after_mark), 0)
    end = next((n for n in range(last + 1, len(words)) if words[n].after_mark), len(words))
    said = {n for part in parts for n in range(part.first, part.last + 1)}
    if said & set(range(start, end)) or any(words[n].text in _OF_BREAD for n in range(start, end)):
        return False
    owner = next((n for n in range(first - 1, start - 1, -1) if words[n].text not in _PASSED), None)
    if owner is not None and _is_thing(words[owner], lexicon):
        return True
    if last + 1 < end and lexicon.letter(words[last + 1].text) == _PERSON:
        return True  # "a tough day", whatever day it is to others
    people = any(words[n].text in _PEOPLE for n in range(start, first))
    return (people and owner is None) or _held_up(first, last, end, words, lexicon)


def weighed_so(first: int, words: Sequence[Word]) -> bool:
    """Whether it only tells at what stage a weight is taken: "75 g raw"."""
    return first > 0 and words[first - 1].amount >= 0 and not words[first].after_mark and words[first].text in _STAGES


def _is_thing(word: Word, lexicon: Lexicon) -> bool:
    """Whether a word is, by the list of English, a thing or a person, and none of the trade."""
    return word.amount < 0 and word.text not in lexicon.weighty and lexicon.letter(word.text) in _THINGS


def _held_up(first: int, last: int, end: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether what follows says what somebody is held up by: "on the phone", "at work"."""
    behind = [words[n] for n in range(first, min(last + 5, end))]
    places = [n for n, word in enumerate(behind) if word.text in _HELD_BY]
    return bool(places) and any(_is_thing(word, lexicon) for word in behind[places[0] + 1 :])
