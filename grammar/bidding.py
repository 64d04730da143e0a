"""The verb that bids a change of the dough in hand: whatever verb it is, and whatever else the word may mean.

"put", "stick", "chuck", "call it" tell what was done, name a piece or keep a name in other lines. At the head of a
clause, with nobody named who did it and a row or a figure behind, they all mean one thing: use so much of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.lexicon import Term
from grammar.row_beside import with_figures_told_apart
from grammar.tokens import Token

_VERB: Term = ("act", "bid")
_BIDS: tuple[Term, ...] = (("act", "use"),)
_NEAR = 3
"""So many words behind the verb stands what is to be changed: "chuck another 2 % honey in"."""
_DOERS = frozenset({"i", "ive", "i've", "we", "weve", "we've", "he", "she", "they", "you", "id", "i'd"})
_MAY = frozenset({"can", "could", "would", "will"})
"""Before "you": politely bidden."""
_ROWS = frozenset({"ingredient", "preferment", "diet"})
_OF_THE_DOUGH = frozenset(("cue", row) for row in ("salt", "water", "hydration", "starter", "flour"))
_OF_THE_BENCH = frozenset({"state", "heat", "mark", "stage", "place", "pack", "kit", "clock", "so_far"})
"""Kinds of words for where a dough stands: with one of these and no row, a figure is none of the formula."""
_TELLS = ("mistake", "step_left", "put_in")
"""Kinds of words that tell a slip, so that the verb tells it too."""


def bidden(tokens: Sequence[Token], text: str, in_hand: bool) -> tuple[Token, ...]:
    """The tokens with each bidding verb read as "use", the word that is none as what else it means, and each figure
    beside the row it is of."""
    return with_figures_told_apart(_verbs_read(tokens, in_hand), text, in_hand)


def _verbs_read(tokens: Sequence[Token], in_hand: bool) -> tuple[Token, ...]:
    if not any(_VERB in token.terms for token in tokens):
        return tuple(tokens)
    terms = [term for token in tokens for term in token.terms]
    may = in_hand and not any((kind in _TELLS and id != "poured") or id == "instead_of" for kind, id in terms)
    return tuple(_read(tokens, i, may) if _VERB in tokens[i].terms else tokens[i] for i in range(len(tokens)))


def _read(tokens: Sequence[Token], i: int, may: bool) -> Token:
    rest = tuple(term for term in tokens[i].terms if term != _VERB)
    more = any(("cue", "greater") in token.terms for token in tokens[i:])
    if more and ("mistake", "poured") in rest:
        may = False  # "put more water in, 70 g" tells what was done as well as not
    if may and _heads(tokens[:i]) and _changes(tokens[i + 1 :]):
        return replace(tokens[i], terms=_BIDS, units=())
    return replace(tokens[i], terms=rest, kind=tokens[i].kind if rest or tokens[i].kind != "TERM" else "JUNK")


def _heads(before: Sequence[Token]) -> bool:
    """Whether a word begins its clause, with nobody before it who did it."""
    polite = len(before) > 1 and before[-1].text.lower() == "you" and before[-2].text.lower() in _MAY
    for token in reversed(before[:-2] if polite else before):
        if token.kind == "MARK":
            return True
        if token.text.lower() in _DOERS or not (_small(token) or token.idle):
            return False
    return True


def _small(token: Token) -> bool:
    return token.kind in ("FILL", "LINK") or ("act", "correct") in token.terms


def _changes(behind: Sequence[Token]) -> bool:
    """Whether a row of a dough, or a figure, stands right behind."""
    near = [token for token in behind if token.kind not in ("FILL", "LINK", "MARK")][:_NEAR]
    if any(_is_row(token) for token in near):
        return True
    bench = any(kind in _OF_THE_BENCH for token in behind for kind, _ in token.terms)
    return not bench and any(token.quantity is not None for token in near)


def _is_row(token: Token) -> bool:
    return any(kind in _ROWS or (kind, id) in _OF_THE_DOUGH for kind, id in token.terms)
