"""Days as said, and the date they mean: weekdays, dates, days of the month; a day no calendar has is told."""

from __future__ import annotations

from calendar import isleap, monthrange
from datetime import MAXYEAR, MINYEAR, date, datetime, timedelta

WEEKDAYS = {
    "monday": 0, "mon": 0, "tuesday": 1, "tue": 1, "tues": 1, "wednesday": 2, "wed": 2, "weds": 2, "thursday": 3,
    "thu": 3, "thur": 3, "thurs": 3, "friday": 4, "fri": 4, "saturday": 5, "sat": 5, "sunday": 6, "sun": 6,
}  # fmt: skip
MONTHS = {
    "january": 1, "jan": 1, "february": 2, "feb": 2, "march": 3, "mar": 3, "april": 4, "apr": 4, "may": 5, "june": 6,
    "jun": 6, "july": 7, "jul": 7, "august": 8, "aug": 8, "september": 9, "sept": 9, "sep": 9, "october": 10, "oct": 10,
    "november": 11, "nov": 11, "december": 12, "dec": 12,
}  # fmt: skip
RELATIVE = {"today": 0, "tomorrow": 1, "tomoz": 1, "tmrw": 1, "tmr": 1, "tomoro": 1, "yesterday": -1}
NAMES = {0: "today", 1: "tomorrow", -1: "yesterday"}
"""How a day so many from now is written in a moment; any other is "+N" ("+2", "+-2")."""


class NoSuchDay(Exception):
    """A day that no calendar has ("31 April"). said: the day in words; nearest: the last day of that month."""

    def __init__(self, said: str, nearest: date) -> None:
        super().__init__(said)
        self.said = said
        self.nearest = nearest


def is_weekday(day: str | None) -> bool:
    """Whether a moment's day is a day of the week."""
    return day is not None and len(day) == 1 and day.isdigit()


def days_ahead(day: str) -> int | None:
    """Days from today of a day said by its distance; None for any other."""
    ahead = next((n for n, name in NAMES.items() if name == day), None)
    return int(day[1:]) if ahead is None and day.startswith("+") else ahead


def date_of(day: str, weeks: int, now: datetime, floor: date) -> date:
    """The date a moment's `day` means: the next one from `floor` on where more than one would do.

    Raises NoSuchDay.
    """
    ahead = days_ahead(day)
    if ahead is not None:
        return now.date() + timedelta(days=ahead + 7 * weeks)
    if is_weekday(day):
        return now.date() + timedelta(days=(int(day) - now.weekday()) % 7 + 7 * weeks)
    if day.startswith("---"):
        return _of_month(int(day[3:]), floor)
    if day.startswith("--"):
        month, number = int(day[2:4]), int(day[5:7])
        gone = (month, number) < (floor.month, floor.day)
        return _dated(floor.year + gone, month, number)
    year, month, number = (int(part) for part in day.split("-"))
    return _dated(year, month, number)


def past_date_of(day: str, today: date) -> date:
    """The date of a day said as a date, without its year or month the last that has been. Raises NoSuchDay."""
    if day.startswith("---"):
        first = today.replace(day=1)
        while int(day[3:]) > (today.day if first == today.replace(day=1) else monthrange(first.year, first.month)[1]):
            first = (first - timedelta(days=1)).replace(day=1)
        return first.replace(day=int(day[3:]))
    if not day.startswith("--"):
        year, month, number = (int(part) for part in day.split("-"))
        return _dated(year, month, number)
    month, number = int(day[2:4]), int(day[5:7])
    year = today.year - ((month, number) > (today.month, today.day))
    while (month, number) == (2, 29) and not isleap(year):
        year -= 1
    return _dated(year, month, number)


def _dated(year: int, month: int, number: int) -> date:
    known_year, known_month = min(max(year, MINYEAR), MAXYEAR), min(max(month, 1), 12)
    last = monthrange(known_year, known_month)[1]
    nearest = date(known_year, known_month, min(max(number, 1), last))
    if (known_year, known_month) != (year, month):
        raise NoSuchDay(f"{year:04d}-{month:02d}-{number:02d}", nearest)
    if nearest.day != number:
        raise NoSuchDay(f"{number} {nearest:%B}" + (f" {year}" if month == 2 else ""), nearest)
    return nearest


def _of_month(number: int, floor: date) -> date:
    """The next day with that number: of this month, or of the next where it has gone by."""
    if number >= floor.day:
        return _dated(floor.year, floor.month, number)
    first = (floor.replace(day=1) + timedelta(days=32)).replace(day=1)
    return _dated(first.year, first.month, number)
