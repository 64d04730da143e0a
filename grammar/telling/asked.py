"""A question about a bake under way: what is left, what is next, where it stands, when it is ready."""

from __future__ import annotations

from typing import Literal

from grammar.frames import Line
from grammar.lexicon import fold
from grammar.telling.words import Cut, items_of

Asked = Literal["left", "next", "where", "ready"]
_LIKELIEST: tuple[Asked, ...] = ("left", "next", "where")
_MOST_WORDS = 12


def asked(line: Line) -> Asked | None:
    """What the line asks of the bake, where every word of it belongs to such a question; else None."""
    cut = Cut(items_of(line))
    words = cut.items
    if not words or len(words) > _MOST_WORDS or any(item.amount is not None for item in words):
        return None
    if any(not item.terms and not item.thing for item in words):
        return None
    if any(item.ids("denies") or (item.ids("bids") and not item.ids("q") and not item.ids("asks")) for item in words):
        return None
    kinds = [name for item in words for name in item.ids("q")]
    asks_when = "when" in kinds or any(fold(item.text) in ("when", "whens") for item in words)
    step = any(item.ids("stage") or item.ids("did") or item.ids("place") for item in words)
    if asks_when:
        return "ready" if "ready" in kinds and not step else None
    return next((one for one in _LIKELIEST if one in kinds), None)
