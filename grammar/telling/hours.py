"""To which statement of a report each hour belongs."""

from __future__ import annotations

from dataclasses import replace

from grammar.lexicon import fold
from grammar.moments import Moment
from grammar.telling.told import Cut, Item
from grammar.telling.words import word_before


def hours(cut: Cut) -> None:
    """Each hour to the statement of its clause, else to the nearest before it without one, else to the next."""
    for place, item in enumerate(cut.items):
        phrase = item.amount
        if phrase is None or item.used:
            continue
        if phrase.moment is not None and phrase.moment.in_min is None:
            if _give(cut, place, at=_of_its_part(cut, item, phrase.moment)):
                item.used = True
        elif phrase.dim == "time" and phrase.quantity is not None and _gone_by(cut, place):
            minutes = phrase.quantity.base
            if _give(cut, place, ago_min=minutes):
                item.used = True


_JUST_NOW = frozenset({"now", "just now", "right now", "just", "this minute", "just this minute", "this second"})


def just_now(cut: Cut) -> None:
    """ "mixed just now": the hour is this one."""
    for one in cut.made:
        said = any("now" in item.ids("time") and fold(item.text) in _JUST_NOW for item in cut.clause(one.clause))
        if said and one.told.what == "mark" and one.told.at is None and one.told.ago_min is None:
            one.told = replace(one.told, ago_min=0.0)


def throughout(cut: Cut) -> None:
    """ "it sat in the cellar all night": where it was ever since what was told before."""
    for one in cut.made:
        if one.told.what in ("moved", "room_c") and any("throughout" in item.ids("time") for item in cut.items):
            one.told = replace(one.told, throughout=True)


def _of_its_part(cut: Cut, item: Item, moment: Moment) -> Moment:
    """ "this morning at 6:45": the part of the day said beside the hour."""
    part = next((name for one in cut.clause(item.clause) for name in one.ids("part")), None)
    if part == "yesterday":
        return replace(moment, day=moment.day or "yesterday")
    return replace(moment, half=moment.half or part) if part and not moment.sure else moment


def _gone_by(cut: Cut, place: int) -> bool:
    clause = cut.clause(cut.items[place].clause)
    going = any(one.ids("phase") or fold(one.text).split(" ")[0] == "been" for one in clause)
    if clause[0].ids("stage") and word_before(cut, place) == "for" and not going:
        return False  # "proof in the tin for 2 h" bids
    return any("ago" in one.ids("time") or "now" in one.ids("time") or fold(one.text) == "been" for one in clause)


def _give(cut: Cut, place: int, at: Moment | None = None, ago_min: float | None = None) -> bool:
    clause = cut.items[place].clause
    free = [one for one in cut.made if one.told.at is None and one.told.ago_min is None]
    marks = [one for one in free if one.told.what in ("mark", "in", "out")]
    here = [one for one in marks if one.clause == clause] or [one for one in free if one.clause == clause]
    before = [one for one in marks if one.place < place]
    chosen = (
        min(here, key=lambda one: (one.place > place, abs(one.place - place))) if here
        else before[-1] if before else marks[0] if marks else free[0] if free else None
    )  # fmt: skip
    if chosen is None:
        return False
    chosen.told = replace(chosen.told, at=at, ago_min=ago_min)
    return True
