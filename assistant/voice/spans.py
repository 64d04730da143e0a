"""Lengths of time, clock times and temperatures in words."""

from __future__ import annotations

import math
from datetime import datetime

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def hours_said(minutes: float) -> str:
    """A length of time as bakers say it: "45 min", "6 h 25", "2 days 5 h"; five minutes are the finest above 90."""
    if math.isinf(minutes):
        return "more than three weeks"
    whole = round(minutes) if minutes < 90 else round(minutes / 5) * 5
    if whole < 90:
        return f"{whole} min" if minutes >= 2 or minutes == round(minutes) else f"{minutes:.1f} min"
    hours, rest = divmod(whole, 60)
    if hours < 30:
        return f"{hours} h" + (f" {rest:02d}" if rest else "")
    days, hours = divmod(hours + (1 if rest >= 30 else 0), 24)
    return f"{days} day{'s' if days > 1 else ''}" + (f" {hours} h" if hours else "")


def clock_said(at: datetime, now: datetime) -> str:
    """A clock time, with the day where it is not today's: "21:40", "Sun 06:15"."""
    if at.date() == now.date():
        return f"{at:%H:%M}"
    return f"{_DAYS[at.weekday()]} {at:%H:%M}"


def degrees_said(temp_c: float) -> str:
    """A temperature as it is shown: whole degrees where it is one, else a tenth."""
    return f"{round(temp_c, 1):g} °C"
