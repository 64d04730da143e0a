"""The verb that bids a change of the dough in hand: whatever verb it is, and whatever else the word may mean.

"put", "stick", "chuck", "call it" tell what was done, name a piece or keep a name in other lines. At the head of a
clause, with nobody named who did it and a row or a figure behind, they all mean one thing: use so much of it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from grammar.clause_begins import begins
from grammar.lexicon import Lexicon, Term, fold
from grammar.row_beside import with_figures_told_apart
from grammar.tokens import Token

_VERB: Term = ("act", "bid")
_BIDS: tuple[Term, ...] = (("act", "use"),)
_NEAR = 3
"""So many words behind the verb stands what is to be changed: "chuck another 2 % honey in"."""
_ROWS = frozenset({"ingredient", "preferment", "diet"})
_OF_THE_DOUGH = frozenset(("cue", row) for row in ("salt", "water", "hydration", "starter", "flour"))
_OF_THE_BENCH = frozenset({"state", "heat", "mark", "stage", "place", "pack", "kit", "clock", "so_far"})
"""Kinds of words for where a dough stands: with one of these and no row, a figure is none of the formula."""
_TELLS = ("mistake", "step_left", "put_in")
"""Kinds of words that tell a slip, so that the verb tells it too."""


def bidden(tokens: Sequence[Token], text: str, lexicon: Lexicon, in_hand: bool) -> tuple[Token, ...]:
    """The tokens with each bidding verb read as "use", the word that is none as what else it means, and each figure
    beside the row it is of."""
    verbs_read = _verbs_read(_of_yeast(_cut_up(_sent_away(tokens, lexicon))), lexicon, in_hand)
    return with_figures_told_apart(verbs_read, text, lexicon, in_hand)


def _sent_away(tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Token, ...]:
    """The tokens with a row that a whole clause sends away as one left out: "the honey can go"."""
    out, start = list(tokens), 0
    for end in (*(n for n, token in enumerate(tokens) if token.kind == "MARK"), len(tokens)):
        at = next((n for n in range(start, end) if tokens[n].kind != "FILL"), end)
        sent = " ".join(fold(token.text) for token in tokens[at + 1 : end]) in lexicon.small("sent_away")
        asks = any(token.text == "?" for token in tokens[end:])
        if sent and not asks and tokens[at].ids("ingredient") and ("cue", "starter") not in tokens[at].terms:
            away = replace(tokens[at + 1], kind="NEG", terms=(), idle=False)
            out[at:end] = [away, tokens[at], *(replace(one, kind="FILL", terms=()) for one in tokens[at + 2 : end])]
        start = end + 1
    return tuple(out)


def _cut_up(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """The tokens with what a dough is cut up into as the weight of a piece ("into 650s"), and its cutting no slicing of
    bread."""
    out = list(tokens)
    for i in range(1, len(out)):
        figure, verb = out[i], out[i - 2] if i > 1 else None
        if not {"in", "into", "of", "as"} & set(out[i - 1].ids("link")) or figure.quantity is None:
            continue
        if _PLURAL.fullmatch(figure.text) and figure.quantity.value >= _LIGHTEST_G:
            weight = replace(figure.quantity, dim="mass", unit="g", base=figure.quantity.value)
            out[i] = replace(figure, kind="MASS", quantity=weight, units=())
        if verb is not None and _SPLIT in verb.terms and out[i].kind in ("MASS", "NUM"):
            out[i - 2] = replace(verb, terms=(_SPLIT,))
    return tuple(out)


def _of_yeast(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The tokens with the name of a kind as that yeast where another yeast stands beside it."""
    if not any(name.startswith("yeast") for token in tokens for name in token.ids("ingredient")):
        return tokens
    kinds = (tuple(("ingredient", kind) for kind in token.ids("yeast_kind")) for token in tokens)
    return tuple(
        replace(token, terms=tuple(dict.fromkeys((*token.terms, *own)))) if own else token
        for token, own in zip(tokens, kinds, strict=True)
    )


_PLURAL = re.compile(r"\d+s")
"""A figure in the plural: pieces of so many grams each."""
_SPLIT: Term = ("cue", "split")
_LIGHTEST_G = 40.0
"""No piece in the plural weighs less; fewer are seconds."""


def _verbs_read(tokens: Sequence[Token], lexicon: Lexicon, in_hand: bool) -> tuple[Token, ...]:
    if not any(_VERB in token.terms for token in tokens):
        return tuple(tokens)
    terms = [term for token in tokens for term in token.terms]
    may = in_hand and not any((kind in _TELLS and id != "poured") or id == "instead_of" for kind, id in terms)
    return tuple(_read(tokens, i, lexicon, may) if _VERB in tokens[i].terms else tokens[i] for i in range(len(tokens)))


def _read(tokens: Sequence[Token], i: int, lexicon: Lexicon, may: bool) -> Token:
    rest = tuple(term for term in tokens[i].terms if term != _VERB)
    more = any(("cue", "greater") in token.terms for token in tokens[i:])
    if more and ("mistake", "poured") in rest:
        may = False  # told what was done as well as bidden
    if may and _heads(tokens[:i], lexicon) and _changes(tokens[i + 1 :]):
        return replace(tokens[i], terms=_BIDS, units=())
    return replace(tokens[i], terms=rest, kind=tokens[i].kind if rest or tokens[i].kind != "TERM" else "JUNK")


def _heads(before: Sequence[Token], lexicon: Lexicon) -> bool:
    """Whether a word begins its clause, with nobody before it who did it."""
    small, words = lexicon.small, [fold(token.text) for token in before]
    polite = not small("you").isdisjoint(words[-1:]) and begins(words[-2:], lexicon, "may")
    for token in reversed(before[:-2] if polite else before):
        if token.kind == "MARK":
            return True
        if fold(token.text) in small("doer", "doer_done", "you") or not (_small(token) or token.idle):
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
