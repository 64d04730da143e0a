"""Whether a line asks for another dough beside the ones there are: "20 rings as well" with buns in hand."""

from __future__ import annotations

import re

from grammar.frames import Bound, fits
from grammar.lexicon import fold

_BESIDE = re.compile(r"\b(?:as well|also|too|on top|in addition|alongside|besides|beside (?:it|that|them)|meanwhile)\b")


def beside(bound: Bound) -> bool:
    """A number of pieces of a kind that no dough under way answers to, with a word that they are wanted as well."""
    if not bound.context.has_bake or bound.asks() or not _BESIDE.search(fold(bound.text)):
        return False
    counted = bound.first("pieces")
    names = {name for names in bound.context.known.doughs for name in names}
    kinds = [p for p in bound.phrases if p.kind == "label" and not p.negated and fits(p, ("piece:*", "bread:*"))]
    return counted is not None and bool(kinds) and all(fold(p.text) not in names for p in kinds)
