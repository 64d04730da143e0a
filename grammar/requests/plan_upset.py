"""What upsets a plan that stands: another hour put in the place of its own, the oven taken, the fridge given up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.kit_items import Item, items
from grammar.moments import Moment, hour_said
from grammar.requests.hour_put import another_hour, nearest, of_the_occasion
from grammar.requests.plan_change import PlanChange
from grammar.requests.plan_guests import behind, shifted
from grammar.requests.plan_stands import has_hours

_SCORE = 12.0
_NAMED = 5.0
"""An hour of those who eat, or of their meal, is of nothing else that was talked of."""


def _upset(line: Line) -> Own | None:
    if not (has_hours(line.context) or (line.context.focus == "plan" and line.context.known.ready_min is not None)):
        return None
    supposed = any("what_if" in phrase.ids("ask") for phrase in line.phrases)
    if (line.text.rstrip().endswith("?") and not supposed) or "\n" in line.text.strip():
        return None
    row = items(line.text, line.tokens, line.lexicon)
    change = _of_the_kit(row, line.context.known.ready_min) or _of_the_hour(line) or shifted(line) or behind(line)
    return None if change is None else Own(change, _SCORE + _NAMED * of_the_occasion(line))


def _of_the_hour(line: Line) -> PlanChange | None:
    hour = another_hour(line) if line.context.focus != "feed" else None
    return None if hour is None else PlanChange(ready=hour)


def _of_the_kit(row: Sequence[Item], stood: int | None) -> PlanChange | None:
    kits = {one.id for one in row if one.what == "kit"}
    words = {one.id for one in row if one.what == "word"}
    hours = [_moment(one) for one in row if one.what in ("amount", "clock")]
    if "fridge" in kits and not hours and words & {"broken", "full"}:
        return PlanChange(cold="none")
    if "oven" in kits and len(hours) == 1 and hours[0] is not None and words & {"taken", "until"} and _until(row):
        return PlanChange(oven_from=_of_the_day(hours[0], stood))
    return None


def _of_the_day(hour: Moment, stood: int | None) -> Moment:
    """The hour in the half of the day in which the bread is to be ready, where only its place on the dial was said."""
    if stood is None or hour.minute is None or hour.sure:
        return hour
    minute = nearest(hour.minute / 60, stood)
    return hour if minute is None else replace(hour, minute=minute, half="pm" if minute >= 720 else "am")


def _until(row: Sequence[Item]) -> bool:
    """Whether the hour is one until which something holds: the oven is free from then on."""
    place = next(i for i, one in enumerate(row) if one.what in ("amount", "clock"))
    return any(one.id == "until" for one in row[:place]) or row[place - 1].text in ("from", "before", "free at")


def _moment(item: Item) -> Moment | None:
    if item.moment is not None:
        return item.moment
    amount = item.amount
    return hour_said(amount.value) if amount is not None and amount.dim == "num" else None


FRAME = Frame(PlanChange, "plan", never_by_slots, reads=_upset, settles=True)
