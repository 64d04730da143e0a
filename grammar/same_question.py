"""Which of several readings of a line answers what is asked, where more than one would do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.moods import bids_rows, names_rows

if TYPE_CHECKING:
    from grammar.reader import Reading

_HOW_LONG = frozenset({"how_long"})
_RIPENS = ("feed", "timing")
"""Topics that both tell when a starter fed so is ripe: the one with its weights and hours, the other how long."""


def settled(readings: list[Reading]) -> list[Reading]:
    """The readings, best first, without those that another one answers for."""
    return _one_ripening(_of_the_dough(readings)) if readings else readings


def _one_ripening(readings: list[Reading]) -> list[Reading]:
    """Readings where two would tell when a starter is ripe: asked how long, without a weight or an hour, that alone
    is told; else the build with its weights."""
    both = {r.frame.topic: r for r in readings if r.frame.topic in _RIPENS and not r.unread}
    if len(both) < len(_RIPENS) or readings[0].frame.topic not in _RIPENS:
        return readings
    feed, timing = both["feed"], both["timing"]
    if getattr(timing.request, "ratio", None) is None:
        return readings
    asked = any(_HOW_LONG & set(phrase.ids("ask")) for phrase in timing.bound.phrases)
    built = any(hit.amount is not None and hit.slot in _WEIGHED for hit in feed.bound.hits)
    left = feed if asked and not built else timing
    return [r for r in readings if r is not left]


_WEIGHED = frozenset({"needed_g", "have_g", "seed_g", "keep_g", "flour_g", "water_g", "moments", "now_at"})


def _of_the_dough(readings: list[Reading]) -> list[Reading]:
    """The readings; where a line bids rows of the dough in hand, without those that would only ask the last question
    over again with them; where it asks that question again, without a change."""
    asked = any(r.bound.asks() and r.frame.topic == r.bound.context.focus and not r.unread for r in readings)
    if asked and readings[0].bound.context.focus in _LEANS_ON_ROWS:
        return [r for r in readings if r.frame.topic != "formula" or getattr(r.request, "whole", True)]
    if any(r.frame.topic == "formula" and not r.unread and names_rows(r.request, r.bound) for r in readings):
        readings = [r for r in readings if not _leaves_a_figure(r)]
    if not any(r.frame.settles and not r.unread and bids_rows(r.request, r.bound) for r in readings):
        return readings
    return [r for r in readings if r.frame.topic not in _LEANS_ON_ROWS]


def _leaves_a_figure(reading: Reading) -> bool:
    return any(phrase.kind == "amount" and phrase.text in reading.unread for phrase in reading.bound.phrases)


_LEANS_ON_ROWS = frozenset({"timing", "plan", "loads", "progress", "diagnosis"})
"""Topics that take figures of a dough to work something else out with them, or tell how it goes."""
