"""Vocabulary in a line: the longest phrase some record has given, and what sort of token it makes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from grammar import number_words
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon, Term
from grammar.tokens import Token

_SMALL = {"link": "LINK", "filler": "FILL", "negation": "NEG"}


class _Without(Mapping[str, tuple[Term, ...]]):
    """The phrases of a lexicon less a few, without a copy."""

    def __init__(self, phrases: Mapping[str, tuple[Term, ...]], skip: frozenset[str]) -> None:
        self._phrases, self._skip = phrases, skip

    def __getitem__(self, phrase: str) -> tuple[Term, ...]:
        if phrase in self._skip:
            raise KeyError(phrase)
        return self._phrases[phrase]

    def __iter__(self) -> Iterator[str]:
        return (phrase for phrase in self._phrases if phrase not in self._skip)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def thinner(lexicon: Lexicon, skip: frozenset[str]) -> Lexicon:
    """The lexicon without some of its phrases; slips are still repaired to the words of the whole."""
    thin = replace(lexicon, phrases=_Without(lexicon.phrases, skip))
    # the same words and lengths hold: worked out once for the whole
    thin.__dict__["longest"], thin.__dict__["words"] = lexicon.longest, lexicon.words
    return thin


def phrases_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> Iterator[tuple[Token, int]]:
    """The vocabulary phrases that begin here, the longest first, each with the lexemes it takes; hyphens inside one
    are nothing."""
    words: list[str] = []
    spans: list[int] = []
    j = i
    first = lx[i].word or (lx[i].text if lx[i].kind in ("number", "mark") else "")
    most = lexicon.longest.get(first, 0)
    if lx[i].kind == "number" and i + 1 < len(lx) and lx[i + 1].text == "%":
        most = max(most, lexicon.longest.get(first + "%", 0))
    while j < len(lx) and len(words) < max(most, 1) + 1:
        lexeme = lx[j]
        if lexeme.kind == "mark" and lexeme.text == "-" and j + 1 < len(lx) and lexeme.glued and lx[j + 1].glued:
            j += 1
            continue
        if lexeme.kind == "word":
            words.append(lexeme.word)
        elif lexeme.kind == "number":
            words.append(lexeme.text)
        elif lexeme.kind == "mark" and lexeme.text == "%" and words and words[-1].isdigit():
            words[-1] += "%"
            spans[-1] = j - i + 1
            j += 1
            continue
        else:
            break
        spans.append(j - i + 1)
        j += 1
    for count in range(len(words), 0, -1):
        key = " ".join(words[:count])
        terms = lexicon.phrases.get(key)
        if terms is None and count > 1 and lx[i + 1].glued:
            terms = lexicon.phrases.get("".join(words[:count]))
        if terms is None and count == 2 and lx[i].kind == "word" and lx[i + 1].kind == "number":
            terms = lexicon.phrases.get("".join(words[:count]))
        last = i + spans[count - 1]
        follows = lx[last].word if last < len(lx) else ""
        if terms and count > 1 and lx[last - 1].word in number_words.PARTS and follows in ("a", "an"):
            continue  # "in half an hour"
        if terms:
            units = lexicon.units.get(key, ())
            yield Token(small_kind(terms), "", 0, 0, terms=terms, units=units, phrase=key), spans[count - 1]


_STEM, _HEAD = 3, 3
"""Letters that a word has at least before and in the piece it ends in."""


def piece_ended(word: str, lexicon: Lexicon) -> tuple[Term, ...]:
    """What a word that nobody knows, right behind a number, counts by its end: "16 breadcakes" are cakes of dough."""
    if word in lexicon.common:
        return ()
    ends = (lexicon.phrases.get(word[at:], ()) for at in range(_STEM, len(word) - _HEAD + 1))
    pieces = (tuple(term for term in terms if term[0] == "piece") for terms in ends)
    return next((found for found in pieces if found), ())


_FEW = 3
"""A name turned round has no more words before its noun."""


def turned_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """A name said the other way round, as many tongues build it: "flour of rye", "oil of olive", "flour strong".

    Without "of" the word behind must mean nothing by itself, or the same: "milk butter" are two things.
    """
    noun = lx[i].word
    if not noun or not _names(lexicon.phrases.get(noun, ())):
        return None
    at = i + 1
    linked = at < len(lx) and lx[at].word == "of"
    at += linked
    at += linked and at < len(lx) and lx[at].word == "the"
    words: list[str] = []
    for lexeme in lx[at : at + _FEW]:
        if lexeme.kind not in ("word", "number"):
            break
        words.append(lexeme.word or lexeme.text)
    for count in range(len(words), 0, -1):
        before = " ".join(words[:count])
        key = f"{before} {noun}"
        if key not in lexicon.phrases and before.endswith("s"):
            key = f"{before[:-1]} {noun}"  # "flour of oats"
        terms = tuple(term for term in lexicon.phrases.get(key, ()) if term[0] == "ingredient")
        alone = _names(lexicon.phrases.get(before, ()))
        if terms and (linked or not alone or alone[0] == terms[0]):
            return Token(small_kind(terms), "", 0, 0, terms=terms, phrase=key), at - i + count
    return None


def _names(terms: Sequence[Term]) -> tuple[Term, ...]:
    """What a word means as an ingredient; "flour" and "salt" are that too."""
    general = any(kind == "cue" and name in ("flour", "salt", "water", "starter") for kind, name in terms)
    return tuple(term for term in terms if term[0] == "ingredient") or ((("cue", "general"),) if general else ())


def small_kind(terms: Sequence[Term]) -> str:
    """The kind of token a word makes: small words have kinds of their own, all else is a TERM."""
    kinds = {kind for kind, _ in terms}
    if len(kinds) == 1:
        return _SMALL.get(kinds.pop(), "TERM")
    if kinds == {"link", "filler"}:
        return "LINK"
    return "TERM"
