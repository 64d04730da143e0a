"""Days gone by as they are said of a bake: "last Sunday", "13 March", "two weeks ago", "last time"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from grammar.days import MONTHS, WEEKDAYS

_ROUGHLY = {"a couple of": 2, "couple of": 2, "a few": 3, "some": 3}
_COUNTS = {
    **_ROUGHLY, "a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10,
}  # fmt: skip
_FEASTS = {"christmas": (12, 25), "xmas": (12, 25), "new year": (1, 1), "halloween": (10, 31)}
"""Feasts of the calendar that bakes are dated by, as month and day."""
_DAYS = {"day": 1, "week": 7, "fortnight": 14, "month": 30, "year": 365}
_WEEKDAY = "|".join(sorted(WEEKDAYS, key=len, reverse=True))
_MONTH = "|".join(sorted(MONTHS, key=len, reverse=True))
DAY = (
    rf"(?:(?P<ago>\d+|{'|'.join(_COUNTS)}) (?P<unit>day|week|fortnight|month|year)s? (?:ago|back|since|earlier)"
    rf"|(?:just |right )?before (?P<feast>{'|'.join(_FEASTS)})"
    rf"|(?:back )?in (?P<month3>{_MONTH})(?! \d)"
    rf"|(?P<iso>\d{{4}} \d{{2}} \d{{2}})"
    rf"|(?:(?:the|{_WEEKDAY}) )?(?P<dom>\d{{1,2}})(?:st|nd|rd|th)?(?: of)? (?P<month>{_MONTH})(?: (?P<year>\d{{4}}))?"
    r"|the (?P<dom3>\d{1,2})(?:st|nd|rd|th)(?! of)"
    rf"|(?P<month2>{_MONTH}) (?:the )?(?P<dom2>\d{{1,2}})(?:st|nd|rd|th)?"
    rf"|(?:(?P<lead>last|this past|past|the past|previous|on last) )?(?P<weekday>{_WEEKDAY})s?"
    rf"(?: (?P<gone>last|gone|just gone))?"
    r"|(?P<stretch>(?:last|this|the past|the other|past) (?:weekend|week|month|year|fortnight|day)"
    r"|the weekend|weekend)s?"
    rf"|(?P<before>the day before yesterday)s?"
    rf"|(?P<yesterday>yesterday(?: morning| evening| afternoon)?|last night)s?"
    rf"|(?P<today>today|this morning)s?"
    rf"|(?P<time>(?:the )?(?:last|previous) (?:time|bake|go|round)|the time before)s?)"
)  # fmt: skip
"""A day or stretch of days gone by, on a folded line. One such pattern to a template: its groups have names."""


@dataclass(frozen=True, slots=True)
class Span:
    """Days as said. back: so many days ago; weekday: the last such day before today; iso, month and day: a date;
    stretch: "weekend", "week", "month", "year", "fortnight", "other" (three weeks); last_time: the bake before; day: of
    the last month that has had it; about: days on either side that a count said roughly takes in; feast: the month
    before that date; month: the last one of that number that has begun.
    """

    back: int | None = None
    weekday: int | None = None
    iso: str | None = None
    month_day: tuple[int, int] | None = None
    stretch: str | None = None
    this: bool = False
    last_time: bool = False
    day: int | None = None
    about: int = 0
    feast: tuple[int, int] | None = None
    month: int | None = None

    def days(self, today: date) -> tuple[date, date]:
        """First and last day meant, looking back from today."""
        if self.back is not None:
            day = today - timedelta(days=self.back)
            return day - timedelta(days=self.about), min(today, day + timedelta(days=self.about))
        if self.weekday is not None:
            day = today - timedelta(days=(today.weekday() - self.weekday - 1) % 7 + 1)
            return day, day
        if self.day is not None:
            back = (today - timedelta(days=n) for n in range(62))
            day = next(one for one in back if one.day == self.day)
            return day, day
        if self.iso is not None:
            day = date.fromisoformat(self.iso)
            return day, day
        if self.month_day is not None:
            day = _date(today.year, *self.month_day)
            if day > today:
                day = _date(today.year - 1, *self.month_day)
            return day, day
        if self.feast is not None:
            eve = _date(today.year, *self.feast)
            eve = eve if eve <= today else _date(today.year - 1, *self.feast)
            return eve - timedelta(days=31), eve - timedelta(days=1)
        if self.month is not None:
            first = date(today.year - (self.month > today.month), self.month, 1)
            return first, (first + timedelta(days=31)).replace(day=1) - timedelta(days=1)
        return self._stretch(today)

    def _stretch(self, today: date) -> tuple[date, date]:
        monday = today - timedelta(days=today.weekday())
        if self.stretch == "weekend":
            saturday = monday + timedelta(days=5)
            if not self.this or saturday > today:
                saturday -= timedelta(days=7)
            return saturday, saturday + timedelta(days=1)
        if self.this:
            first = {"week": monday, "month": today.replace(day=1), "year": today.replace(month=1, day=1)}
            return first.get(self.stretch or "", today), today
        if self.stretch == "week":
            return monday - timedelta(days=7), monday - timedelta(days=1)
        lengths = {"day": 10, "fortnight": 14, "month": 31, "year": 366, "other": 21}
        return today - timedelta(days=lengths.get(self.stretch or "", 36_500)), today - timedelta(days=1)


def prefixed(prefix: str) -> str:
    """`DAY` with its groups' names prefixed, to stand a second time in one pattern."""
    return re.sub(r"\?P<(\w+)>", rf"?P<{prefix}\1>", DAY)


def span_of(found: re.Match[str], prefix: str = "") -> Span | None:
    """The days a match of `DAY` means; None for a date that is none."""
    said = {
        name.removeprefix(prefix): value
        for name, value in found.groupdict().items()
        if value is not None and name.startswith(prefix)
    }
    try:
        return _span(said)
    except ValueError:
        return None


def _span(said: dict[str, str]) -> Span | None:
    if "ago" in said:
        count = int(said["ago"]) if said["ago"].isdigit() else _COUNTS[said["ago"]]
        back = count * _DAYS[said["unit"]]
        return Span(back=back, about=_about(back, said["ago"]))
    if "feast" in said:
        return Span(feast=_FEASTS[said["feast"]])
    if "month3" in said:
        return Span(month=MONTHS[said["month3"]])
    if "iso" in said:
        date.fromisoformat(said["iso"].replace(" ", "-"))
        return Span(iso=said["iso"].replace(" ", "-"))
    month, day = said.get("month") or said.get("month2"), said.get("dom") or said.get("dom2")
    if month is not None and day is not None:
        _date(2024, MONTHS[month], int(day))
        if "year" in said:
            return Span(iso=_date(int(said["year"]), MONTHS[month], int(day)).isoformat())
        return Span(month_day=(MONTHS[month], int(day)))
    if "dom3" in said and 1 <= int(said["dom3"]) <= 31:
        return Span(day=int(said["dom3"]))
    if "weekday" in said:
        return Span(weekday=WEEKDAYS[said["weekday"]])
    if "stretch" in said:
        word = said["stretch"].split()[-1]
        stretch = "other" if said["stretch"] == "the other week" else word
        return Span(stretch=stretch, this=said["stretch"].startswith(("this", "the weekend")))
    if "before" in said:
        return Span(back=2)
    if "yesterday" in said:
        return Span(back=1)
    if "today" in said:
        return Span(back=0)
    return Span(last_time=True)


def _about(back: int, count: str) -> int:
    """How many days on either side a count takes in: weeks and months are told by and large, two days are two days."""
    return back // 4 if back >= 7 else int(count in _ROUGHLY)


def _date(year: int, month: int, day: int) -> date:
    """The date; of a 29 February in a common year the 28th."""
    return date(year, month, 28) if (month, day) == (2, 29) and year % 4 else date(year, month, day)
