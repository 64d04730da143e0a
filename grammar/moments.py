"""Clock times, days and windows as said, and the date and hour they mean once the present is known."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, time, timedelta

from grammar.days import date_of, is_weekday

PARTS = {
    "breakfast": (8, 0),
    "brunch": (11, 0),
    "elevenses": (11, 0),
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
_ALIASES = {
    "brekkie": "breakfast", "brekky": "breakfast", "brekker": "breakfast", "brekkers": "breakfast", "brek": "breakfast",
    "arvo": "afternoon", "mornin": "morning", "dinnertime": "dinner", "suppertime": "supper", "tea": "teatime",
    "breakfasttime": "breakfast", "nite": "night", "tonite": "tonight", "evenings": "evening", "mornings": "morning",
    "nights": "night", "afternoons": "afternoon",
}  # fmt: skip
PART_WORDS = {**{part: part for part in PARTS}, **_ALIASES}
"""Every word for a part of the day, and the part it says."""
EXACT = frozenset({"noon", "midday", "midnight"})
_NIGHT = frozenset({"night", "tonight", "midnight"})
_EVENINGS = frozenset({"supper", "dinner", "teatime", "evening"})
"""Parts of a day that a night is said beside as the day they are of."""
_REACH = {
    "morning": (0, 12), "breakfast": (3, 12), "brunch": (9, 16), "elevenses": (9, 13), "lunch": (10, 16),
    "lunchtime": (10, 16), "afternoon": (12, 20), "teatime": (14, 21), "evening": (15, 24), "dinner": (12, 24),
    "supper": (15, 24), "night": (17, 29), "tonight": (17, 29), "noon": (6, 18), "midday": (6, 18),
    "midnight": (18, 30),
}  # fmt: skip
"""The hours an hour said beside a part of the day may fall in; past 24 they are of the next morning."""
_DAY_MIN, _HALF_MIN, _HOUR_MIN = 1440, 720, 60
_JUST_NOW = timedelta(minutes=5)
"""An hour said a little before it strikes still counts as one that has been."""


@dataclass(frozen=True, slots=True)
class Moment:
    """A point in time as said.

    minute: minutes after midnight as said, None if no hour was given; half: "am", "pm" or None if not said (a 24-hour
    time such as 19:00 needs none, `sure`); day: "today", "tomorrow", "yesterday", "+2" (days from now), a weekday
    "0".."6", an ISO date, "--MM-DD" of any year, "---DD" of any month, or None; weeks: 1 for "next"; part: a part of
    the day ("morning", "breakfast"); in_min: "in 2 hours" as minutes from now; past_min: "twenty past" of whichever
    hour comes. lead: the small word that gives it its role ("by", "since", "not_before"; `grammar/leads.py`); it makes
    no other time of it.
    """

    minute: int | None = None
    half: str | None = None
    day: str | None = None
    weeks: int = 0
    part: str | None = None
    in_min: float | None = None
    past_min: int | None = None
    lead: str | None = field(default=None, compare=False)

    @property
    def sure(self) -> bool:
        """Whether am and pm cannot be confused."""
        return self.minute is None or self.half is not None or self.minute >= 13 * 60 or self.minute < 60

    @property
    def has_hour(self) -> bool:
        """Whether more than a day or a part of one was said."""
        return self.minute is not None or self.in_min is not None or self.past_min is not None


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
        past_min=a.past_min if a.past_min is not None else b.past_min,
        lead=a.lead or b.lead,
    )


def completes(a: Moment, b: Moment) -> bool:
    """Whether b brings what a lacks, so that both are one time: "at 9" and "sunday"."""
    hours = (a.has_hour and b.has_hour) or (a.in_min is not None) or (b.in_min is not None)
    days = a.day is not None and b.day is not None and not closer(a.day, b.day) and a.day != b.day
    night = {a.part, b.part} & (EXACT | _EVENINGS) and {a.part, b.part} & _NIGHT  # "supper tonight"
    parts = a.part is not None and b.part is not None and not night
    return not (hours or days or parts)


def closer(day: str | None, other: str | None) -> bool:
    """Whether the other day says the same more closely: a date after its weekday ("sat 21st")."""
    return day is not None and other is not None and other.startswith("-") and not day.startswith("-")


def hour_said(value: float) -> Moment | None:
    """A bare number as an hour of the clock, where the words around it make it one: 9, 9.45; None if it is none."""
    hours, minutes = int(value), round(100 * (value - int(value)))
    return Moment(minute=hours % 24 * 60 + minutes) if 0 <= hours <= 24 and 0 <= minutes < 60 else None


def readings(moment: Moment) -> tuple[int, ...]:
    """Minutes after midnight a moment may mean: two where am and pm are both open, none without an hour or part.

    Past 1440 they are of the next morning ("at 1 tonight").
    """
    if moment.minute is None:
        if moment.part is None:
            return ()
        hour, minute = PARTS[moment.part]
        return (_DAY_MIN if moment.part == "midnight" else hour * 60 + minute,)
    low, high = (60 * one for one in _REACH.get(moment.part or "", (0, 24)))
    if moment.half is not None or moment.sure:
        said = moment.minute
        if moment.half == "pm" and said < _HALF_MIN:
            said += _HALF_MIN
        elif moment.half == "am" and _HALF_MIN <= said < _HALF_MIN + _HOUR_MIN:
            said -= _HALF_MIN
        return (said + _DAY_MIN if moment.part in _NIGHT and said + _DAY_MIN < high else said,)
    both = (moment.minute % _HALF_MIN, moment.minute % _HALF_MIN + _HALF_MIN)
    if moment.part is None:
        return both
    fitting = [one for one in (*both, both[0] + _DAY_MIN) if low <= one < high]
    return tuple(fitting[:1]) or both


def minute_of_day(moment: Moment, near_min: int | None = None) -> int | None:
    """Minutes after midnight, am or pm settled by what was said, by the part of the day, else the next one after
    `near_min`; without that, as the hour stands on a 24-hour clock."""
    found = readings(moment)
    if not found:
        return None
    if len(found) == 1:
        return found[0] % _DAY_MIN
    if near_min is None:
        return (moment.minute or 0) % _DAY_MIN
    return next((one for one in found if one > near_min), found[0])


def resolve(moment: Moment, now: datetime, after: datetime | None = None) -> datetime:
    """The local date and time a moment means: the first one after `after` (default `now`) that fits what was said.

    Raises NoSuchDay.
    """
    if moment.in_min is not None:
        return now + timedelta(minutes=moment.in_min)
    floor = after or now
    if moment.past_min is not None:
        stamp = floor.replace(minute=moment.past_min, second=0, microsecond=0)
        return stamp if stamp > floor else stamp + timedelta(hours=1)
    midnight = datetime.combine(floor.date(), time(), tzinfo=now.tzinfo)
    if moment.day is None and moment.part != "tonight":
        minute = minute_of_day(moment, floor.hour * 60 + floor.minute)
        if minute is None:
            minute = floor.hour * 60 + floor.minute
        stamp = midnight + timedelta(minutes=minute)
        return stamp if stamp > floor else stamp + timedelta(days=1)
    day = date_of(moment.day or "today", moment.weeks, now, floor.date())
    found = readings(moment) or (0,)
    minute = found[0]
    if len(found) > 1:
        near = floor.hour * 60 + floor.minute if day == floor.date() else None
        minute = minute_of_day(moment, near) or 0
    stamp = datetime.combine(day, time(), tzinfo=now.tzinfo) + timedelta(minutes=minute)
    return stamp + timedelta(days=7) if stamp <= floor and is_weekday(moment.day) else stamp


def latest(moment: Moment, now: datetime) -> datetime:
    """The last such time that has been, as a past tense means it ("mixed at 6:30"); of a day that is named and still
    to come, that day. Raises NoSuchDay."""
    if moment.in_min is not None:
        return now - timedelta(minutes=abs(moment.in_min))
    if moment.past_min is not None:
        stamp = now.replace(minute=moment.past_min, second=0, microsecond=0)
        return stamp if stamp <= now + _JUST_NOW else stamp - timedelta(hours=1)
    back = 27 if (moment.day or "").startswith("---") else 364  # of a date said without its year or month: the last
    day = date_of(moment.day or "today", 0, now, now.date() - timedelta(days=back))
    if is_weekday(moment.day) and day > now.date():
        day -= timedelta(days=7)
    start = datetime.combine(day, time(), tzinfo=now.tzinfo)
    found = [start + timedelta(minutes=one) for one in readings(moment) or (now.hour * 60 + now.minute,)]
    if moment.day is None:
        found += [one - timedelta(days=1) for one in found]
    elif is_weekday(moment.day):
        found += [one - timedelta(days=7) for one in found]
    return max((one for one in found if one <= now + _JUST_NOW), default=min(found))
