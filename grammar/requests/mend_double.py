"""One thing put in by two hands, or twice by one: told by two deeds, by "so did I", by "both of us", by "again"."""

from __future__ import annotations

import re
from collections import Counter

from grammar.frames import Bound, fits
from grammar.mishap_words import ids_of
from grammar.stance import is_thing

_WENT_IN = re.compile(r"\b(gone|went|been|going) (in|into)\b", re.I)
"""Verbs that tell that something is in, where the same words without them would bid it."""


def put_in_twice(bound: Bound) -> bool:
    """Whether the line tells that one thing went in more than once, whatever words count it."""
    salted = Counter(p.ids("put_in")[0] for p in bound.phrases if p.ids("put_in"))
    named = Counter(ids_of(p)[0] for p in bound.phrases if p.kind == "label" and is_thing(p) and ids_of(p))
    deeds = sum(fits(p, ("mistake:poured",)) and not p.negated for p in bound.phrases)
    if any(many > 1 for many in salted.values()) or (deeds > 1 and any(many > 1 for many in named.values())):
        return True
    told = bool(salted) or (len(named) == 1 and (deeds > 0 or went_in(bound)))
    return told and bound.said("mistake:by_both", "mistake:once_more") and not bound.said("ask:what_if")


def went_in(bound: Bound) -> bool:
    """Whether the line says of something that it has gone in."""
    return _WENT_IN.search(bound.text) is not None
