"""An hour said after a plan: what it keeps of the hour it stands instead of."""

from __future__ import annotations

from dataclasses import replace

from grammar.moments import Moment, Window, minute_of_day
from grammar.requests.plan_hours import Taken


def of_that_day(new: Taken, earlier: tuple[Taken, ...]) -> Taken:
    """ "away til 9 actually": of the day said before."""
    if new.till is None or new.till.day is not None:
        return new
    spans = [one.window for one in earlier if one.why == new.why and one.window is not None]
    if spans:
        late = (minute_of_day(spans[0].end) or 0) >= 12 * 60
        half = new.till.half or (None if new.till.sure else "pm" if late else "am")
        return Taken(new.why, Window(spans[0].start, replace(spans[0].end, minute=new.till.minute, half=half)))
    days = [one.till for one in earlier if one.why == new.why and one.till is not None and one.till.day is not None]
    return replace(new, till=replace(new.till, day=days[0].day, weeks=days[0].weeks)) if days else new


def same_day(new: Moment, earlier: Moment | None) -> Moment:
    """A new hour alone keeps the day said before, a new day alone the hour."""
    if earlier is None or new.in_min is not None or new.part in ("tonight",):
        return new
    if new.day is None:
        return replace(new, day=earlier.day, weeks=earlier.weeks)
    if new.minute is None and new.part is None:
        return replace(new, minute=earlier.minute, half=earlier.half, part=earlier.part)
    return new
