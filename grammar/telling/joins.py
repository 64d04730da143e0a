"""Clauses of a report joined to what they say the hour or the warmth of: "it was 7:20 when we finished mixing"."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.telling.told import Item

_WHEN = frozenset({"when", "once", "as soon as", "by the time"})
_TELLS_SO = frozenset({"was", "it was", "read", "showed", "were", "and it was"})
_LIGHT = (("small", "small"),)


def joined(items: list[Item]) -> list[Item]:
    """The items with "when" as a joining word where it asks nothing: behind the figure it is said of, or ahead of a
    clause that goes on to say what it was."""
    for place, item in enumerate(items):
        if item.amount is not None or fold(item.text) not in _WHEN:
            continue
        before = [one for one in items[:place] if one.amount is not None and one.clause == item.clause]
        after = [one for one in items[place + 1 :] if one.amount is not None]
        told = any(fold(one.text) in _TELLS_SO for one in items[place + 1 :] if one.amount is None)
        if before or (place == 0 and after and told):
            item.terms = _LIGHT
    return items


def only_measured(items: list[Item], place: int) -> bool:
    """Whether a deed behind a joining word tells when something was measured: "24 when shaped"."""
    ahead = [at for at in range(place) if fold(items[at].text) in _WHEN and items[at].clause == items[place].clause]
    if not ahead:
        return False
    before = [one for one in items[: ahead[-1]] if one.amount is not None and one.clause == items[place].clause]
    return bool(before) and all(one.amount is not None and one.amount.moment is None for one in before)


def step_measured_at(items: list[Item], place: int) -> str | None:
    """The step at which a figure was measured: "25 when mixed", "24 after mixing"; None where none is said."""
    behind = [one for one in items[place + 1 :] if one.clause == items[place].clause]
    if not behind or fold(behind[0].text) not in _WHEN | _AFTER:
        return None
    return next((step for one in behind[1:] for kind in ("did", "stage") for step in one.ids(kind)), None)


_AFTER = frozenset({"after", "following", "at", "at the end of", "right after"})
