"""The hours of a class: from when they come until the bread is to be out."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound
from grammar.moments import Moment
from grammar.requests.plan_hours import Hours

_NOON_MIN = 720
_FIRST_MIN = 7 * 60
"""A class does not begin before."""


def of_the_class(hours: Hours, bound: Bound) -> Hours:
    """The stretch said of a class is no time away: it begins with the first step and ends with the bread."""
    if not bound.said("class:of"):
        return hours
    said = next((p for p in bound.phrases if p.window is not None and p.text in hours.lost), None)
    if said is None or said.window is None:
        return hours
    begin, end = said.window.start, said.window.end
    day = begin.day or end.day or (None if hours.ready is None else hours.ready.day)
    first = _by_day(begin)
    last = _by_day(end)
    lost = tuple(one for one in hours.lost if one != said.text)
    return replace(hours, start=replace(first, day=day), ready=replace(last, day=day), lost=lost)


def _by_day(moment: Moment) -> Moment:
    """An hour of unsaid half, by day."""
    if moment.sure or moment.minute is None:
        return moment
    return replace(moment, half="am" if _FIRST_MIN <= moment.minute < _NOON_MIN else "pm")
