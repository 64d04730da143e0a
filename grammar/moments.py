"""Clock times, days and windows as said, and the date they mean once the present is known."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

WEEKDAYS = {
    "monday": 0,
    "mon": 0,
    "tuesday": 1,
    "tue": 1,
    "tues": 1,
    "wednesday": 2,
    "wed": 2,
    "weds": 2,
    "thursday": 3,
    "thu": 3,
    "thur": 3,
    "thurs": 3,
    "friday": 4,
    "fri": 4,
    "saturday": 5,
    "sat": 5,
    "sunday": 6,
    "sun": 6,
}
MONTHS = {
    "january": 1,
    "jan": 1,
    "february": 2,
    "feb": 2,
    "march": 3,
    "april": 4,
    "apr": 4,
    "may": 5,
    "june": 6,
    "jun": 6,
    "july": 7,
    "jul": 7,
    "august": 8,
    "aug": 8,
    "september": 9,
    "sept": 9,
    "sep": 9,
    "october": 10,
    "oct": 10,
    "november": 11,
    "nov": 11,
    "december": 12,
    "dec": 12,
}
PARTS = {
    "breakfast": (8, 0),
    "brunch": (11, 0),
    "lunch": (12, 30),
    "lunchtime": (12, 30),
    "dinner": (19, 0),
    "supper": (19, 0),
    "teatime": (17, 0),
    "morning": (8, 0),
    "afternoon": (15, 0),
    "evening": (19, 0),
    "night": (22, 0),
    "noon": (12, 0),
    "midday": (12, 0),
    "midnight": (0, 0),
    "tonight": (21, 0),
}
"""What a part of the day means where no hour is said (hour, minute); our choice, always said aloud."""
EXACT = frozenset({"noon", "midday", "midnight"})
LATE = frozenset({"afternoon", "evening", "night", "tonight", "dinner", "supper", "teatime"})


@dataclass(frozen=True, slots=True)
class Moment:
    """A point in time as said.

    minute: minutes after midnight as said, None if no hour was given; half: "am", "pm" or None if not said (a 24-hour
    time such as 19:00 needs none, `sure`); day: "today", "tomorrow", "yesterday", a weekday "0".."6", an ISO date,
    "--MM-DD" of any year, "---DD" of any month, or None; weeks: 1 for "next"; part: a part of the day ("morning",
    "breakfast"); in_min: "in 2 hours" as minutes from now.
    """

    minute: int | None = None
    half: str | None = None
    day: str | None = None
    weeks: int = 0
    part: str | None = None
    in_min: float | None = None

    @property
    def sure(self) -> bool:
        """Whether am and pm cannot be confused."""
        return self.minute is None or self.half is not None or self.minute >= 13 * 60 or self.minute < 60


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of time as said: "asleep 10pm to 6am"."""

    start: Moment
    end: Moment


def joined(a: Moment, b: Moment) -> Moment:
    """Two neighbouring pieces as one: "9am" + "sunday"; what a says wins."""
    return Moment(
        minute=a.minute if a.minute is not None else b.minute,
        half=a.half or b.half,
        day=b.day if closer(a.day, b.day) else a.day or b.day,
        weeks=a.weeks or b.weeks,
        part=a.part or b.part,
        in_min=a.in_min if a.in_min is not None else b.in_min,
    )


def closer(day: str | None, other: str | None) -> bool:
    """Whether the other day says the same more closely: a date after its weekday ("sat 21st")."""
    return day is not None and other is not None and other.startswith("-") and not day.startswith("-")


def hour_said(value: float) -> Moment | None:
    """A bare number as an hour of the clock, where the words around it make it one: 9, 9.45; None if it is none."""
    hours, minutes = int(value), round(100 * (value - int(value)))
    return Moment(minute=hours % 24 * 60 + minutes) if 0 <= hours <= 24 and 0 <= minutes < 60 else None


def minute_of_day(moment: Moment, near_min: int | None = None) -> int | None:
    """Minutes after midnight, am or pm settled by what was said, by the part of the day, else the next one after
    `near_min`."""
    if moment.minute is None:
        if moment.part is None:
            return None
        hour, minute = PARTS[moment.part]
        return hour * 60 + minute
    hours, minute = divmod(moment.minute, 60)
    half = moment.half
    if half is None and moment.part in LATE and 1 <= hours <= 11 and not (moment.part == "night" and hours < 5):
        half = "pm"
    if half is None and moment.part in ("morning", "breakfast"):
        half = "am"
    if half == "pm" and hours < 12:
        hours += 12
    elif half == "am" and hours == 12:
        hours = 0
    elif half is None and 1 <= hours <= 12 and near_min is not None:
        both = [(hours % 12) * 60 + minute, (hours % 12 + 12) * 60 + minute]
        later = [m for m in both if m > near_min]
        return min(later) if later else min(both)
    return (hours % 24) * 60 + minute


def resolve(moment: Moment, now: datetime, after: datetime | None = None) -> datetime:
    """The local date and time a moment means: the first one after `after` (default `now`) that fits what was said."""
    if moment.in_min is not None:
        return now + timedelta(minutes=moment.in_min)
    floor = after or now
    day = _day(moment, floor, now)
    if day is not None:
        near = floor.hour * 60 + floor.minute if day == floor.date() else None
        minute = minute_of_day(moment, near)
        if minute is None:
            minute = 0
        stamp = datetime.combine(day, time(minute // 60, minute % 60), tzinfo=now.tzinfo)
        if moment.part == "midnight" and moment.day is not None:
            stamp += timedelta(days=1)  # "midnight on Saturday" ends the Saturday
        if stamp <= floor and moment.day is not None and moment.day.isdigit() and len(moment.day) == 1:
            stamp += timedelta(days=7)
        return stamp
    minute = minute_of_day(moment, floor.hour * 60 + floor.minute)
    if minute is None:
        minute = floor.hour * 60 + floor.minute
    stamp = datetime.combine(floor.date(), time(minute // 60, minute % 60), tzinfo=now.tzinfo)
    return stamp if stamp > floor else stamp + timedelta(days=1)


def _next_of_month(day: int, floor: date) -> date | None:
    """The next date with that day of the month, `floor` itself included; None for a day no month has."""
    first = floor.replace(day=1)
    for _ in range(4):
        try:
            found = first.replace(day=day)
        except ValueError:
            found = None
        if found is not None and found >= floor:
            return found
        first = (first + timedelta(days=32)).replace(day=1)
    return None


def _day(moment: Moment, floor: datetime, now: datetime) -> date | None:
    if moment.day is None:
        return now.date() if moment.part == "tonight" else None
    if moment.day == "today":
        return now.date()
    if moment.day == "tomorrow":
        return now.date() + timedelta(days=1)
    if moment.day == "yesterday":
        return now.date() - timedelta(days=1)
    if len(moment.day) == 1 and moment.day.isdigit():
        ahead = (int(moment.day) - now.weekday()) % 7
        return now.date() + timedelta(days=ahead + 7 * moment.weeks)
    if moment.day.startswith("---"):
        return _next_of_month(int(moment.day[3:]), floor.date())
    stamp = date.fromisoformat(moment.day if not moment.day.startswith("--") else f"{now.year}-{moment.day[2:]}")
    if moment.day.startswith("--") and stamp < floor.date():
        stamp = stamp.replace(year=stamp.year + 1)
    return stamp
