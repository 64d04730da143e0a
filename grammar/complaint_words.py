"""The words of a complaint and the turns of speech found in them, longest first.

Words that only fill are passed over ("the crust is really thick" is "crust thick"), two words may stand in either order
("vertical razor"), and a slip of the finger is repaired to a word of a complaint.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from grammar.lexicon import Lexicon, Term, fold
from grammar.slips import repair
from grammar.tokens import Token


def word_set(words: str) -> frozenset[str]:
    """The words of a line of them."""
    return frozenset(words.split())


_WORD = re.compile(r"\d+(?::\d+)+|[^\W_]+(?:['’][^\W_]+)*|[;.!?,:()]|%", re.UNICODE)
_BREAKS = frozenset(";.!?,:()")
FILL = word_set(
    "a absolutely again all also always an and are be been being bit both came come comes coming completely did "
    "do does fairly feels felt get gets getting going gone got had has have he i im is it its itself ive just "
    "kind little look looked looking looks my now of our out pretty quite rather really seem seems she so some "
    "sort still that thats the their them there these they theyre this those totally turned very was we were "
    "weve your bloody blooming damn damned darn darned flipping blasted stupid ruddy sodding freaking utterly"
)
"""Words passed over inside a turn of speech."""
NOT = word_set(
    "aint arent cant didnt doesnt dont hadnt hasnt havent isnt neither never no nor not wasnt werent without wont"
)
"""Words that deny what follows."""
_ASKING = word_set("arent cant didnt doesnt dont hasnt havent isnt wasnt werent wont wouldnt")
"""Words a question begins with: their noun stands inside the turn of speech ("isn't my dough rising")."""
_NOUNS = word_set(
    "baguette baguettes boule bread brioche buns crumb crust culture cut cuts dent dough ear flatbreads focaccia "
    "it jar levain loaf loaves pita pitas pockets pretzels rings rolls rounds score slashes starter they"
)
"""Nouns that may stand there."""
_LOOSE_ENDS = word_set(
    "after before during from into long more much over short still than that then this under went when while with"
)
"""Words too loose to be found in either order."""
BETWEEN = word_set("a all any at especially even getting is it particularly really so that the too very was")
"""Words that may stand between a denial and what it denies."""
STRESS = word_set("awfully dreadfully extremely far horribly incredibly so super terribly too very way")
"""Words that make a half word a plain one: "so soft", "way too heavy"."""
SIMILE = word_set("as like than")
"""Words behind which a picture only paints what was said before it: "chewy as old boots", "dry as dust"."""
_PARTED = NOT | {"or"}
"""Words across which two are no pair: "water more or less"."""
_APART = NOT | _LOOSE_ENDS
_EMPTY = word_set("a an the my is are was were be been it its they them of i has had have do did does and that this")
"""Words left out of a turn of speech where it is looked up without its small words."""
LONGEST = 9

_LEAST_REPAIRED = 5
"""A shorter word is too near to others of its length for a slip to be taken for it ("slab", "scab")."""
CueAt = tuple[int, int, str, str]
"""(first, last word, kind, name) of a steering word."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the line: folded (a slip repaired), its place, and whether a mark stands before it."""

    text: str
    start: int
    end: int
    after_mark: bool = False
    typed: str = ""
    amount: int = -1  # which amount of the line it is part of
    key: str = ""  # the word it is alike to in a turn of speech ("stinks": "smells")


@dataclass(frozen=True, slots=True)
class Mention:
    """A turn of speech found: its meanings, the words it covers (from, to), whether it is denied."""

    terms: tuple[Term, ...]
    first: int
    last: int
    denied: bool = False

    def ids(self, kind: str) -> tuple[str, ...]:
        return tuple(i for k, i in self.terms if k == kind)


@dataclass(frozen=True)
class _Index:
    exact: Mapping[str, tuple[Term, ...]]
    loose: Mapping[str, tuple[Term, ...]]
    words: frozenset[str]
    pairs: Mapping[frozenset[str], tuple[Term, ...]]
    faults: frozenset[str]  # words that are a symptom by themselves: what a slip most likely meant
    alike: Mapping[str, str]  # word to the word it is alike to


_INDEX: dict[int, _Index] = {}


def _index(lexicon: Lexicon) -> _Index:
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
        for phrase, words in said.items():
            bare = [word for word in words if word not in _EMPTY]
            spare = [word for word in words if word not in FILL]
            for short, least in ((bare, 2), (spare, 3)):
                if least <= len(short) < len(words):
                    key = " ".join(short)
                    if key not in exact:
                        known = loose.get(key)
                        terms = exact[phrase]
                        loose[key] = terms if known is None else tuple(dict.fromkeys((*known, *terms)))
            if len(spare) == 2 and min(len(spare[0]), len(spare[1])) >= 4 and _APART.isdisjoint(spare):
                pairs.setdefault(frozenset(spare), exact[phrase])
        known_words = frozenset(word for words in said.values() for word in words if word.isalpha())
        faults = frozenset(
            phrase for phrase, terms in lexicon.complaints.items() if phrase.isalpha() and terms[0][0] == "symptom"
        )
        found = _Index(exact, loose, known_words, pairs, faults, alike)
        _INDEX.clear()
        _INDEX[id(lexicon)] = found
    return found


def alike_words(lexicon: Lexicon) -> dict[str, str]:
    """Single words to the word they are alike to in a turn of speech."""
    return {word: name for word, terms in lexicon.cues.items() for kind, name in terms if kind == "alike"}


def words_of(
    text: str, lexicon: Lexicon, tokens: Sequence[Token]
) -> tuple[tuple[Word, ...], tuple[tuple[str, str], ...]]:
    """The words of a line, slips repaired, and the repairs made."""
    index = _index(lexicon)
    amounts = [(t.start, t.end) for t in tokens if t.quantity is not None]
    mended = {(t.start, t.end): t.repaired for t in tokens if t.repaired}
    told_of_dough = _told_of_dough(text, tokens, index)
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
            or word in FILL
            or word in _cue_words(lexicon)
            or word in _look_words(lexicon)
        )
        if not known and within < 0 and word.isalpha() and told_of_dough:
            better = repair(word, index.faults) or mended.get((match.start(), match.end())) or repair(word, index.words)
            if better and max(len(better), len(word)) >= _LEAST_REPAIRED:
                if mended.get((match.start(), match.end())) != better:  # else it is told already
                    repairs.append((typed, better))
                word = better
        out.append(Word(word, match.start(), match.end(), mark, typed, within, index.alike.get(word, word)))
        mark = False
    return tuple(out), tuple(repairs)


def _told_of_dough(text: str, tokens: Sequence[Token], index: _Index) -> bool:
    """Whether a word stands there as it is that is the trade's or a fault's: repairs alone never make up a fault."""
    if any(t.kind == "TERM" and not t.repaired for t in tokens):
        return True
    said = (fold(word) for word in text.split())
    return any(word in index.words and word not in FILL and word not in _EMPTY for word in said)


def means_something(word: str, lexicon: Lexicon) -> bool:
    """Whether a word is one that faults or properties are told by."""
    return word in _look_words(lexicon) or word in _index(lexicon).words


def _one_of_many(word: str, index: _Index, lexicon: Lexicon) -> str:
    """The singular where only that is a word of complaints ("bricks", "doorstops")."""
    if len(word) < 5 or not word.endswith("s") or word in index.words or word in _cue_words(lexicon) or word in FILL:
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


def found(words: Sequence[Word], lexicon: Lexicon, names: Sequence[frozenset[int]]) -> Iterator[Mention]:
    """Turns of speech that do not overlap: the ones of most words first, a symptom before a report, then by place."""
    index = _index(lexicon)
    wanted: list[tuple[tuple[int, int, int, int], tuple[Term, ...], int, int]] = []
    for i in range(len(words)):
        for terms, last, size, exact in _all_at(words, i, index):
            covered = range(i, last + 1)
            if any(set(covered) < name for name in names):
                terms = tuple(t for t in terms if t[0] != "symptom")
            if not terms or _cuts_an_amount(words, i, last):
                continue
            kind = 0 if any(t[0] == "symptom" for t in terms) else 1 if terms[0][0] == "finding" else 2
            wanted.append(((-size, 0 if exact else 1, kind, i), terms, i, last))
    taken: set[int] = set()
    chosen: list[tuple[int, int, tuple[Term, ...]]] = []
    for _, terms, first, last in sorted(wanted, key=lambda w: w[0]):
        if not taken & set(range(first, last + 1)):
            taken |= set(range(first, last + 1))
            chosen.append((first, last, terms))
    for first, last, terms in sorted(chosen):
        yield Mention(terms, first, last, _denied(words, first))


def _cuts_an_amount(words: Sequence[Word], first: int, last: int) -> bool:
    """Whether only a part of an amount lies inside: "5 days in the fridge" is five days, not "days in the fridge"."""
    inside = {words[n].amount for n in range(first, last + 1)} - {-1}
    return any(w.amount in inside and not first <= n <= last for n, w in enumerate(words))


def _all_at(words: Sequence[Word], i: int, index: _Index) -> Iterator[tuple[tuple[Term, ...], int, int, bool]]:
    """(meanings, last word, words that carry meaning, whether word for word) of every phrase that begins here."""
    run = [i]
    for j in range(i + 1, min(len(words), i + 2 * LONGEST)):
        if words[j].after_mark:
            break
        run.append(j)
    for count in range(min(len(run), LONGEST), 0, -1):
        said = " ".join(words[n].text for n in run[:count])
        terms = index.exact.get(said) or index.exact.get(" ".join(words[n].key for n in run[:count]))
        if terms:
            size = sum(words[n].text not in FILL for n in run[:count])
            yield terms, run[count - 1], max(size, 1), said in index.exact
    if words[i].text in FILL:
        return
    content = [n for n in run if words[n].text not in FILL]
    if words[i].text in _ASKING and len(content) > 2 and words[content[1]].text in _NOUNS:
        del content[1]  # "why isn't my dough rising"
    for count in range(min(len(content), LONGEST), 1, -1):
        said = " ".join(words[n].text for n in content[:count])
        alike = " ".join(words[n].key for n in content[:count])
        terms = next((t for one in (said, alike) if (t := index.loose.get(one) or index.exact.get(one))), None)
        last = content[count - 1]
        if terms and last - i < 2 * count + 2:
            yield terms, last, count, False
    for n in content[1:4]:  # "vertical razor" for "razor vertical", with at most two words between
        pair = index.pairs.get(frozenset((words[i].text, words[n].text)))
        if pair and not any(words[k].text in _PARTED for k in range(i, n)):
            yield pair, n, 1, False


_ANSWERED = word_set("he i it its ive she that the there they theyre this those we")
"""Words behind a "no" that answers and denies nothing: "no the dent stayed"."""


def _denied(words: Sequence[Word], first: int) -> bool:
    """Whether a "not", "no" or "isn't" stands before it, with at most small words between."""
    for n in range(first - 1, max(-1, first - 4), -1):
        if words[n].text in NOT:
            return not (words[n].text in ("no", "never") and words[n + 1].text in _ANSWERED)
        if words[n].text not in BETWEEN or words[n + 1].after_mark:
            return False
    return False


def _begun_within(cues: Sequence[CueAt], place: int) -> Iterator[CueAt]:
    """Those that begin at a place or behind it, from the end: what begins before reaches no further."""
    for cue in reversed(cues):
        if cue[0] < place:
            return
        yield cue


def cues_of(words: Sequence[Word], lexicon: Lexicon) -> tuple[CueAt, ...]:
    """(first, last, kind, name) of every steering word; of one kind the longest wins."""
    out: list[CueAt] = []
    for i in range(len(words)):
        seen: set[tuple[str, str]] = set()
        for count in range(min(5, len(words) - i), 0, -1):
            if any(words[n].after_mark for n in range(i + 1, i + count)):
                continue
            for kind, name in lexicon.cues.get(" ".join(w.text for w in words[i : i + count]), ()):
                near = _begun_within(out, i - 4)
                inside = any(k == kind and i + count - 1 <= b and b - a > count - 1 for a, b, k, _ in near)
                if (kind, name) not in seen and not inside:
                    seen.add((kind, name))
                    out.append((i, i + count - 1, kind, name))
    return tuple(out)
