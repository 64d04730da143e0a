"""Whether a line asks for another dough beside the ones there are: "20 rings as well" with buns in hand."""

from __future__ import annotations

import re

from grammar.frames import Bound, fits
from grammar.lexicon import fold

_BESIDE = re.compile(r"\b(?:as well|also|too|on top|in addition|alongside|besides|beside (?:it|that|them)|meanwhile)\b")
_JOINS = re.compile(r"(?:(?:oh|ok|right|now) )?(?:and|plus|also)\b(?! (?:make|change|with|at|only|just)\b)")
"""Begins a line that goes on to the next thing: "and a tray of 12 soft rolls", "plus a rye loaf"."""


def beside(bound: Bound) -> bool:
    """A kind that no dough under way answers to, wanted as well, or with a size and a hydration of its own."""
    if not bound.context.has_bake or bound.asks() or bound.said("act:change", "act:correct", "act:same"):
        return False
    counted = bound.first("pieces") is not None
    sized = bound.first("piece_g") is not None
    said = fold(bound.text)
    as_well = (counted or sized) and _BESIDE.search(said) is not None
    as_well = as_well or (sized and _JOINS.match(said) is not None)
    full = (counted or bound.first("dough_g") is not None) and bound.first("hydration_pct") is not None
    names = {name for names in bound.context.known.doughs for name in names}
    kinds = [p for p in bound.phrases if p.kind == "label" and not p.negated and fits(p, ("piece:*", "bread:*"))]
    return (as_well or full) and bool(kinds) and all(fold(p.text) not in names for p in kinds)
