"""The hours of a plan: when it is to be ready, when it starts, when nobody is there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, time, timedelta

from assistant.engine.plan.asked import Wish
from assistant.engine.plan.clock import Busy
from assistant.talk.kitchen import hours
from assistant.talk.local_time import zoned
from assistant.talk.room import Room
from grammar.moments import PARTS, Moment, Window, minute_of_day, resolve
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_taken import Taken

_SOON_MIN = 240
"""An hour of unsaid am or pm that is nearer than this is taken for the one after."""


def wish_of(request: PlanRequest, room: Room, assumed: list[str]) -> Wish:
    now = zoned(room.now.replace(second=0, microsecond=0))
    local = now.replace(tzinfo=None)
    ready = None
    if request.ready is not None:
        ready = ready_at(_after_rising(request.ready, request.taken), local, assumed)
        ready += timedelta(minutes=request.shift_min or 0)
    start = local if request.start_now else None
    if request.start is not None:
        start = resolve(request.start, local)
    if request.shift_min and start is not None and ready is None:
        start += timedelta(minutes=request.shift_min)
    ripe = resolve(request.ripe, local) if request.ripe is not None else None
    starter = request.starter
    if ripe is not None:
        starter = "ripe"
    elif starter == "ripe":
        ripe = start or local
    return Wish(
        now=now,
        ready_by=ready,
        start_at=start,
        start_exact=start is not None and (ready is None or not request.no_sooner),
        busy=(*(busy for taken in request.taken for busy in busy_of(taken, local)), *_kept(request, room)),
        starter="either" if starter is None else starter,  # type: ignore[arg-type]
        ripe_at=ripe,
        cold=request.cold,  # type: ignore[arg-type]
        cold_h=request.cold_h,
        dough_c=request.dough_c,
        soonest=request.asap and ready is None,
        autolyse_min=request.autolyse_min,
        ahead=request.ahead,
    )


def _after_rising(ready: Moment, taken: tuple[Taken, ...]) -> Moment:
    """ "I get up at 5:30, bread at 7": an hour of unsaid half, soon after getting up, is of that morning."""
    ups = [one.till for one in taken if one.why == "asleep" and one.till is not None and one.till.minute is not None]
    if ready.sure or ready.minute is None or ready.part is not None or not ups:
        return ready
    up = ups[0].minute or 0
    morning = replace(ready, half="am", day=ready.day or "tomorrow")
    return morning if up <= ready.minute < min(up + 6 * 60, 12 * 60) else ready


def ready_at(moment: Moment, now: datetime, assumed: list[str]) -> datetime:
    """When it is to be ready: an hour whose am or pm was not said is taken for the likelier one, and that is told."""
    if moment.minute is None and moment.part is not None:
        hour, minute = PARTS[moment.part]
        assumed.append(f"{moment.part} is {hour:02d}:{minute:02d}")
    elif moment.minute is None and moment.day is not None and moment.in_min is None:
        assumed.append("ready by 12:00, as no hour was said")
        moment = replace(moment, minute=720, half="pm")
    at = resolve(moment, now)
    if moment.sure or moment.in_min is not None or moment.minute is None or moment.part is not None:
        return at
    small_hours = moment.day is not None and 1 <= at.hour <= 5
    too_soon = moment.day is None and (at - now) < timedelta(minutes=_SOON_MIN)
    if small_hours or too_soon:
        at += timedelta(hours=12)
    assumed.append(f"ready by {at.strftime('%H:%M')} ({'am' if at.hour < 12 else 'pm'})")
    return at


def _kept(request: PlanRequest, room: Room) -> Iterator[Busy]:
    """The hours nobody is there by the kitchen's settings, of each reason that the line says nothing of."""
    said = {taken.why for taken in request.taken}
    return (Busy(start, end, None, why) for why, start, end in hours(room.bench.settings) if why not in said)


def busy_of(taken: Taken, now: datetime) -> tuple[Busy, ...]:
    """A stretch that was said as hours taken: nights come back every day, an errand only on its day or the next."""
    if taken.since is not None:
        return _from_then(taken.since, taken.why, now)
    if taken.window is None:
        return _until(taken, now)
    start, end = _window_minutes(taken.window, taken.why)
    day = taken.window.start.day or taken.window.end.day
    if day is None:
        return (Busy(_clock(start), _clock(end), None, taken.why),)
    weeks = taken.window.start.weeks or taken.window.end.weeks
    midnight = now.replace(hour=0, minute=0)
    on = resolve(Moment(minute=720, half="pm", day=day, weeks=weeks), midnight).date()
    return (Busy(_clock(start), _clock(end), on, taken.why),)


_MORNING = time(7)
"""Somebody who said only when they go to bed is taken to be up then."""


def _from_then(since: Moment, why: str, now: datetime) -> tuple[Busy, ...]:
    """Taken from an hour on, its end unsaid: a night until the morning, anything else for the rest of that day."""
    if why == "asleep":
        begin, _ = _window_minutes(Window(since, Moment(minute=7 * 60, half="am")), why)
        return (Busy(_clock(begin), _MORNING, None, why),)
    start = resolve(since, now)
    if not since.sure and since.part is None and start.hour < 7:
        start += timedelta(hours=12)
    return (Busy(start.time(), time(), start.date(), why),)


def _until(taken: Taken, now: datetime) -> tuple[Busy, ...]:
    """Taken from now until an hour; asleep: from ten at night."""
    assert taken.till is not None
    end = resolve(taken.till, now)
    if taken.why == "asleep":
        morning = minute_of_day(replace(taken.till, half=taken.till.half or "am")) or 360
        return (Busy(time(22), _clock(morning), None, taken.why),)
    if not taken.till.sure and end.hour < 7:
        end += timedelta(hours=12)
    return (Busy(now.time().replace(second=0, microsecond=0), end.time(), now.date(), taken.why),)


def _window_minutes(window: Window, why: str) -> tuple[int, int]:
    """Minutes after midnight of both ends. Unsaid am and pm: sleep begins in the evening and ends in the morning, other
    things begin by day; the end is the first such hour after the start."""
    start, end = window.start, window.end
    if why == "asleep":
        begin = _guess(start, "pm" if (start.minute or 0) >= 8 * 60 and (start.minute or 0) < 12 * 60 else "am")
        if not start.sure and (start.minute or 0) // 60 == 12:
            begin = (start.minute or 0) % 60
        return begin, _guess(end, "am")
    hour = (start.minute or 0) // 60
    begin = _guess(start, "am" if 7 <= hour < 12 else "pm")
    if end.sure or end.minute is None:
        return begin, _guess(end, "pm")
    both = [(end.minute % 720), (end.minute % 720) + 720]
    return begin, min((one for one in both if one > begin), default=both[0])


def _guess(moment: Moment, half: str) -> int:
    if moment.minute is not None and not moment.sure and moment.part is None:
        moment = replace(moment, half=half)
    return minute_of_day(moment) or 0


def _clock(minutes: int) -> time:
    return time(minutes // 60 % 24, minutes % 60)
