"""The hours of a build in minutes from now: when it is fed, when it is to be ripe, who is up to feed it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, timedelta

from assistant.talk.local_time import minutes_until
from assistant.talk.room import Room
from grammar.moments import Moment, resolve

UP_MIN, DOWN_MIN = 6 * 60 + 30, 23 * 60
"""Nobody feeds a starter outside these minutes of the day unless they say so."""
SOONEST_MIN = 120.0
"""No feed ripens sooner: a clock time nearer than this, no day said, is the next day's."""


def minutes_to(moment: Moment | None, room: Room, after: datetime | None = None) -> float | None:
    if moment is None:
        return None
    return minutes_until(room.now, resolve(moment, room.now, after))


def ripe_hour(moment: Moment, room: Room, fed: datetime | None = None) -> datetime:
    """The hour a starter is wanted: as said, the next of its kind after the feed, a day later where no feed could reach
    it."""
    at = resolve(moment, room.now, fed)
    near = (at - room.now).total_seconds() / 60 < SOONEST_MIN
    return at + timedelta(days=1) if near and moment.day is None else at


def fed_in_min(moment: Moment | None, room: Room) -> float | None:
    """Minutes from now of a feed that was said; one told of as gone by lies behind, "fed at 8" by twelve hours."""
    minutes = minutes_to(moment, room)
    told = re.search(r"(?<!if )(?<!if i )(?<!if it is )\b(fed|refreshed)\b", room.text, re.I) is not None
    if minutes is None or moment is None or not told or moment.day is not None or moment.in_min is not None:
        return minutes
    on_dial = moment.half is None and moment.part is None and moment.minute is not None and moment.minute < 13 * 60
    if on_dial and minutes > 0:
        return minutes - 12 * 60
    return minutes - 24 * 60 if minutes > 12 * 60 else minutes


def fed_ahead(fed_min: float | None, room: Room) -> datetime | None:
    """The hour of a feed that is still to come: what it ripens by comes after it."""
    return room.now + timedelta(minutes=fed_min) if fed_min is not None and fed_min > 0 else None


def awake_at(room: Room, first_min: float = 0.0) -> Callable[[float], bool]:
    """Whether somebody is up and free to feed so many minutes from now. first_min: not before then."""
    begins = room.now.hour * 60 + room.now.minute

    def awake(minutes: float) -> bool:
        return minutes >= first_min and (minutes < 30 or UP_MIN <= (begins + minutes) % 1440 <= DOWN_MIN)

    return awake
