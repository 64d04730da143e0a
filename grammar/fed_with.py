"""What a starter is fed with, and what it stands at: "20 % starter fed with rye" is so much rye starter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.lexicon import Lexicon, fold
from grammar.tokens import Token

_AMOUNTS = frozenset({"PCT", "MASS", "NUM"})
_FIGURES = frozenset({"PCT", "NUM"})
_OWN = ("link", "own_at")
_OPENS = frozenset({"with", "on"})


def with_starters_named(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with a starter, its feed and its flour made the one thing they name, where the lexicon knows it."""
    out = list(tokens)
    for i in range(1, len(out) - 2):
        fed, link, flour = out[i : i + 3]
        if out[i - 1].kind not in _AMOUNTS or not fed.ids("feeding") or not _OPENS & set(link.ids("link")):
            continue
        terms = lexicon.phrases.get(f"{fold(flour.text)} starter")
        if terms:
            out[i] = replace(fed, terms=terms)
            out[i + 1 : i + 3] = [replace(one, kind="FILL", terms=()) for one in (link, flour)]
    for i in range(len(out) - 2):
        starter, link, figure = out[i : i + 3]
        if "starter" in starter.ids("cue") and "at" in link.ids("link") and figure.kind in _FIGURES:
            out[i + 1] = replace(link, terms=(*link.terms, _OWN))  # "starter at 80 %": its own water
    return out
