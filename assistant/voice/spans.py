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


def roughly_said(minutes: float) -> str:
    """A forecast no finer than it can be: half hours from ten hours on, half days from a day and a half."""
    if not math.isfinite(minutes) or minutes < 10 * 60:
        return hours_said(minutes)
    if minutes < 36 * 60:
        return f"{_halves(round(minutes / 30) / 2)} h"
    days = round(minutes / 720) / 2
    return f"{_halves(days)} day{'s' if days > 1 else ''}"


def range_said(low_min: float, high_min: float) -> str:
    """A range of time no finer than it is sure: "20 to 35 min", "5 to 7 h", "2 to 3 days", "hours to days"."""
    if math.isinf(high_min) or math.isinf(low_min):
        return f"{hours_said(low_min)} or more"
    if high_min < 100:
        step = 5 if high_min >= 15 else 1
        return _span(low_min, high_min, step, "min")
    if high_min <= 36 * 60:
        return _span(low_min / 60, high_min / 60, 0.5 if high_min < 8 * 60 else 1, "h")
    if low_min < 16 * 60:
        return f"{low_min / 60:.0f} h to {_plural(high_min / 1440, 'day')}"
    return _span(low_min / 1440, high_min / 1440, 1 if low_min >= 1440 else 0.5, "days")


def _span(low: float, high: float, step: float, unit: str) -> str:
    first, last = (max(step, step * math.floor(end / step + 0.5)) for end in (low, high))
    return f"{_halves(first)} to {_halves(last)} {unit}" if last > first else f"about {_halves(first)} {unit}"


def _halves(value: float) -> str:
    whole, half = divmod(value, 1)
    return f"{whole:.0f}½" if half and whole else "½" if half else f"{whole:.0f}"


def _plural(value: float, unit: str) -> str:
    return f"{value:.0f} {unit}{'s' if round(value) != 1 else ''}"


def clock_said(at: datetime, now: datetime) -> str:
    """A clock time, with the day where it is not today's: "21:40", "Sun 06:15"."""
    if at.date() == now.date():
        return f"{at:%H:%M}"
    return f"{_DAYS[at.weekday()]} {at:%H:%M}"


def degrees_said(temp_c: float) -> str:
    """A temperature as it is shown: whole degrees where it is one, else a tenth."""
    return f"{round(temp_c, 1):g} °C"
