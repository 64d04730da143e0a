"""How far the dough under way would get in another place by an hour. A question: nothing is put there."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta

from assistant.answers import answers
from assistant.answers.course_kept import asked_of
from assistant.engine.course.asked import Asked, CourseOfTime, Stands
from assistant.engine.course.run import course_of
from assistant.engine.course.told import Account, Reading
from assistant.engine.refusal import Refused
from assistant.talk.kitchen import Place, place_named
from assistant.talk.local_time import later
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, degrees_said, hours_said
from grammar.moments import resolve
from grammar.requests.put_by import PutBy

_NIGHT_H, _DAY_H = 22, 7
"""When a place is as cold as by night, and when it is warm again: house practice."""
_READY, _OVER = 0.85, 1.4
"""Shares of the rise it is to reach: from the first on it can be worked, beyond the other it has gone too far."""
_RISING = frozenset({"bulk", "proof"})


@answers(PutBy)
def answer(request: PutBy, room: Room) -> Outcome:
    """How far risen it is by the hour, and what that asks for; when it gets to its mark there, where no hour was said.

    Raises Refused where nothing rises, or where nobody told how warm the place is.
    """
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    here = asked_of(replace(room, text=""))  # the place named is where it would lie, not where it is
    place = _place(request.place, here, room)
    until = None if request.until is None else resolve(request.until, now)
    there = replace(here, account=_laid(here.account, place, now, until))
    course = course_of(there, now)
    if course.stands.stage not in _RISING:
        raise Refused(f"nothing is rising: it is at {course.stands.stage or 'its beginning'}", "ask what is next")
    lines = _by_then(here, there, until, now) or _at_its_mark(course, now)
    named = f"{request.place}, {_warmth(place, now, until)}"
    stands, end = course.stands, "" if until is None else f", until {clock_said(until, now)}"
    fields = {
        "stage": stands.stage, "minutes": stands.left_min, "low_min": stands.low_left_min,
        "high_min": stands.high_left_min, "temp_c": stands.air_c, "rise_pct": stands.target_rise_pct,
        "rise_then_pct": None if until is None else course_of(there, until).stands.rise_pct,
    }  # fmt: skip
    head = Line(f"In the {named}{end}:")
    return Outcome("timing", fields, f"the dough in the {named}{end}", Page((head, *lines)))


def _place(words: str, here: Asked, room: Room) -> Place:
    """The place with its warmth."""
    if "fridge" in words.lower():
        return Place(words, here.kitchen.fridge_c, here.kitchen.fridge_c)
    known = place_named(words, room.bench.settings)
    if known is None:
        raise Refused(f"how warm the {words} is was not told", f"say it: {words} 12 °C, 8 at night")
    day_c = known.day_c if known.day_c is not None else known.night_c
    return replace(known, day_c=day_c, night_c=known.night_c if known.night_c is not None else day_c)


def _laid(account: Account, place: Place, now: datetime, until: datetime | None) -> Account:
    """The account with the dough laid there: as warm as by day until the night begins, and again from the morning."""
    assert place.day_c is not None and place.night_c is not None
    by_night = now.hour >= _NIGHT_H or now.hour < _DAY_H
    account = account.with_reading(Reading("room_c", place.night_c if by_night else place.day_c, now))
    for day in (now.date(), now.date() + timedelta(days=1)):
        for hour, warm_c in ((_DAY_H, place.day_c), (_NIGHT_H, place.night_c)):
            at = datetime.combine(day, time(hour))
            if now < at and (until is None or at < until):
                account = account.with_reading(Reading("room_c", warm_c, at))
    return account


def _warmth(place: Place, now: datetime, until: datetime | None) -> str:
    if place.day_c == place.night_c or (until is not None and until.date() == now.date() and until.hour <= _NIGHT_H):
        return degrees_said(place.day_c or 0.0)
    return f"{degrees_said(place.day_c or 0.0)}, {degrees_said(place.night_c or 0.0)} at night"


def _by_then(here: Asked, there: Asked, until: datetime | None, now: datetime) -> list[Line]:
    """How far it is by the hour, and what is to be done about it."""
    if until is None:
        return []
    stands = course_of(there, until).stands
    risen, mark = stands.rise_pct, stands.target_rise_pct
    if risen is None or not mark:
        return []
    line = Line(f"By {clock_said(until, now)} risen about {risen:.0f} %, of {mark:.0f} %.", role="head")
    if risen > _OVER * mark:
        over = Line("Too far by then: work it when it is at its mark, or keep it colder.", role="warn")
        return [line, over, *_at_its_mark(course_of(there, now), now)]
    if risen >= _READY * mark:
        return [line, Line("That fits: go on with it then.")]
    back = replace(there, account=there.account.with_reading(Reading("room_c", here.kitchen.room_c, until)))
    more = course_of(back, until).stands.left_min
    warm = "" if more is None else (
        f" about {hours_said(more)} more in the kitchen ({degrees_said(here.kitchen.room_c)}), to "
        f"{clock_said(later(until, more), now)}"
    )  # fmt: skip
    return [line, Line(f"Not far enough to work it then: it wants{warm or ' longer than can be told'}.", role="warn")]


def _at_its_mark(course: CourseOfTime, now: datetime) -> list[Line]:
    stands: Stands = course.stands
    if stands.left_min is None:
        return [Line("It does not get to its mark there.", role="note")]
    ranged = f" ({hours_said(stands.low_left_min or 0)} to {hours_said(stands.high_left_min or 0)})"
    ends = clock_said(later(now, stands.left_min), now)
    return [Line(f"At its mark there in about {hours_said(stands.left_min)}{ranged}, {ends}.")]
