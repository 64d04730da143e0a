"""Hours of every day in which nobody is there: "asleep quarter past ten to ten past six", "bed at ten, up at six"."""

from __future__ import annotations

from dataclasses import replace

from grammar.kit_clause import Clause, NotThis, Values
from grammar.kit_items import Item
from grammar.moments import Moment, minute_of_day


def as_hours(clause: Clause, before: Clause | None) -> None:
    """Bare figures on the dial beside sleep or work are hours: "on the water 6 to 8"."""
    things = clause.things or (before.things if before is not None else [])
    if not any(one.what == "kit" and one.id in ("asleep", "awake", "away") for one in things):
        return
    for at, one in enumerate(clause.row):
        if one.amount is not None and one.amount.dim == "num" and one.amount.value in range(25):
            clause.row[at] = Item("clock", "", one.text, moment=Moment(minute=int(one.amount.value) % 24 * 60))


_HALVES = {"morning": "am", "evening": "pm", "afternoon": "pm"}


def hours_of(clause: Clause, values: Values) -> None:
    """Hours nobody is there: two clocks and the reason; one clock alone waits for the other end."""
    nights = {"asleep", "awake"} & set(clause.kits)
    name = "asleep" if nights else "away" if "away" in clause.kits else None
    if name is None or clause.amounts or set(clause.kits) - {"asleep", "awake", "away", "kitchen"}:
        raise NotThis
    half = next((h for one in clause.row for word, h in _HALVES.items() if word in one.text), None)
    said_at = [one.moment for one in clause.clocks if one.moment is not None]
    clocks = [one if one.sure or half is None else replace(one, half=half) for one in said_at]
    if any(one.day is not None for one in clocks):
        raise NotThis  # an errand of one day is the plan's
    if len(clocks) == 2:
        begun = _clock(clocks[0], name)
        said = f"{_said(begun)}-{_said(_clock(clocks[1], name, begun))}"
        values[name] = f"{values[name]}, {said}" if name in values else said
    elif len(clocks) == 1 and name == "asleep":
        end = "asleep_till" if "asleep_from" in values or "awake" in clause.kits else "asleep_from"
        values[end] = _said(_clock(clocks[0], name, 0 if end == "asleep_till" else None))
    elif len(clocks) == 1 and "asleep" in values and clause.says("until"):
        up = str(values["asleep"]).partition("-")[2]  # gone from getting up on: the hour of leaving was not said
        begun = int(up[:2]) * 60 + int(up[3:])
        values[name] = f"{up}-{_said(_clock(clocks[0], name, begun))}"
    else:
        raise NotThis


def both_ends(values: Values) -> None:
    """Going to bed and getting up, said apart, as one night."""
    start, end = values.pop("asleep_from", None), values.pop("asleep_till", None)
    if start is not None and end is not None:
        values["asleep"] = f"{start}-{end}"
    elif start is not None or end is not None:
        raise NotThis


def _clock(moment: Moment, why: str, begun: int | None = None) -> int:
    """Minutes after midnight. Unsaid am and pm: sleep begins in the evening and ends in the morning; other hours are
    by day, the end after the beginning."""
    minute = moment.minute or 0
    if moment.sure or moment.part is not None:
        return minute_of_day(moment) or 0
    if why == "asleep":
        return minute % 720 + (720 if begun is None and minute % 720 >= 360 else 0)
    if begun is not None:
        return min((one for one in (minute % 720, minute % 720 + 720) if one > begun), default=minute % 720)
    return minute % 720 + (0 if minute % 720 >= 420 else 720)


def _said(minute: int) -> str:
    return f"{minute // 60:02d}:{minute % 60:02d}"
