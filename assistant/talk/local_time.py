"""Local hours and real minutes: what lies between two hours on the night the clocks change.

Everything said and shown is naive local time; only lengths are reckoned through the rules of the system's zone.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, tzinfo

_AHEAD_DAYS = 14
"""How far ahead a change of the clocks is looked for: longer than any plan or feed."""


class _SystemZone(tzinfo):
    """The zone the system runs in, with its rules for summer time."""

    def utcoffset(self, dt: datetime | None) -> timedelta:
        if dt is None:
            return timedelta()
        local = dt.replace(tzinfo=None)
        return local - datetime.fromtimestamp(local.timestamp(), UTC).replace(tzinfo=None)

    def dst(self, dt: datetime | None) -> timedelta:
        return timedelta()

    def tzname(self, dt: datetime | None) -> str:
        return "local"

    def fromutc(self, dt: datetime) -> datetime:
        return datetime.fromtimestamp(dt.replace(tzinfo=UTC).timestamp()).replace(tzinfo=self)


ZONE = _SystemZone()


def zoned(now: datetime) -> datetime:
    """The same hour, aware of the system's zone where its clocks change within `_AHEAD_DAYS`; else as it is."""
    if now.tzinfo is not None:
        return now
    try:
        offsets = {ZONE.utcoffset(now + timedelta(days=n)) for n in range(-1, _AHEAD_DAYS)}
    except (OverflowError, OSError, ValueError):
        return now  # years the system's clock cannot tell
    return now.replace(tzinfo=ZONE) if len(offsets) > 1 else now


def later(now: datetime, minutes: float) -> datetime:
    """The naive local time so many real minutes after `now`."""
    aware = zoned(now)
    if aware.tzinfo is None:
        return now + timedelta(minutes=minutes)
    after = aware.astimezone(UTC) + timedelta(minutes=minutes)
    return after.astimezone(aware.tzinfo).replace(tzinfo=None)


def minutes_until(now: datetime, local: datetime) -> float:
    """Real minutes from `now` to a local time; negative where it has been."""
    aware = zoned(now)
    if aware.tzinfo is None:
        return (local.replace(tzinfo=None) - now.replace(tzinfo=None)).total_seconds() / 60
    end = local if local.tzinfo is not None else local.replace(tzinfo=aware.tzinfo)
    return (end.astimezone(UTC) - aware.astimezone(UTC)).total_seconds() / 60
