"""An hour as it is said: the clock alone, with its day, or with its date."""

from __future__ import annotations

from datetime import date, datetime

_WEEKDAYS_TELL = 6


def at(moment: datetime, day: date) -> str:
    """The clock, with its day where that is not `day`."""
    return moment.strftime("%H:%M") if moment.date() == day else day_and_hour(moment, day)


def day_and_hour(moment: datetime, day: date) -> str:
    """The clock with its day, and with its date where the day alone could be one nearer to `day`."""
    far = abs((moment.date() - day).days) > _WEEKDAYS_TELL
    return f"{moment:%a} {moment.day} {moment:%b %H:%M}" if far else moment.strftime("%a %H:%M")
