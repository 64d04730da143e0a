"""What is said right after a complaint and yet goes to another topic: a bidding, a step done at an hour, what is next.

An answer to the question asked is told ("it was 24", "4 h at 22"). Who bids, tells an hour or asks after the bake has
turned from the complaint, where that topic takes every word of the line.
"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.frames import Line

_BIDS = frozenset({"add", "change", "scale", "use", "same", "drop", "remove"})
_HOURS = frozenset({"plan", "timing", "progress", "loads", "timer", "feed"})
_ASKS_HOURS = frozenset({"when", "how_long", "what_time"})
_ASKS = frozenset({"what", "how", "how_much", "how_many", "what_if", "plan", "show"})
_STANDS_ALONE = frozenset(
    {"water", "conversion", "cost", "formula", "loads", "feed", "card", "recall", "plan", "timing"}
)
"""The topics of a line that asks for a figure, or counts out pieces: it stands alone."""


def passed_on(line: Line) -> frozenset[str]:
    """The topics that take the line over, none where it can only go on with the complaint."""
    told = [phrase for phrase in line.phrases if phrase.kind not in ("sep", "link")]
    found: set[str] = set()
    if told and _BIDS & set(told[0].ids("act")):
        found.add("formula")
    clocked = any(token.kind == "CLOCK" or ("state", "gone") in token.terms for token in line.tokens)
    if clocked and line.context.of != "starter" and (told[0].ids("mark") or told[0].ids("feeding")):
        found |= {"progress", "feed", "mend"}
    asking = told if "?" in line.text else told[:1]  # "it was bubbly when it went in" asks nothing
    if any(_ASKS_HOURS & set(phrase.ids("ask")) for phrase in asking):
        found |= _HOURS
    if _counts_out(line) or any(_ASKS & set(phrase.ids("ask")) for phrase in told):
        found |= _STANDS_ALONE
    return frozenset(found)


def _counts_out(line: Line) -> bool:
    """Whether pieces are counted out for a size or a share: a dough of its own, told of no bread that went wrong."""
    counted = any(line.tokens[i].kind == "NUM" and token.ids("piece") for i, token in enumerate(line.tokens[1:]))
    return counted and not line.context.raw and not any(token.ids("mistake") for token in line.tokens)


def told_of_the_bake(line: Line, figures: Sequence[tuple[str, float]], symptoms: Sequence[str]) -> frozenset[str]:
    """The topic a line is for that only measures a dough under way, or tells of its folds: it is told of the bake."""
    under_way = "told" in line.context.standing and line.context.raw
    named = {name for name, _ in figures}
    told = under_way and bool(named) and named <= _MEASURED and set(symptoms) <= _SLOW
    return frozenset({"progress"}) if told else frozenset()


_MEASURED = {"bulk_rise_pct", "folds"}
_SLOW = {"not_rising"}
