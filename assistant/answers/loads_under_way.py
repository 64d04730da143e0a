"""When the loads of a bake under way go in: what is in the oven already, what is planned, else from the present."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from assistant.answers.course_kept import asked_of, course_now
from assistant.engine.loads import Loads, OvenLoad
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.moments import latest, resolve
from grammar.requests.loads import LoadsRequest

_JUST_BEGUN, _FAR_AHEAD = timedelta(hours=1), timedelta(hours=6)
"""An hour that has just been is the one meant where its next coming is so far ahead."""


@dataclass(frozen=True, slots=True)
class UnderWay:
    """A bake whose own course says when its loads go in. next_at: when the next one does, None where nothing says.

    since, out, here: of the load that is in the oven, None and 0 without one; rest: pieces still to go in.
    """

    rest: int
    next_at: datetime | None
    since: datetime | None = None
    out: datetime | None = None
    here: int = 0


def under_way_of(request: LoadsRequest, room: Room) -> UnderWay | None:
    """The bake in hand as it stands, where the loads asked about are its own; None where they are of something else."""
    if request.pieces is not None or room.bake is None:
        return None
    try:
        asked, course = asked_of(room), course_now(room)
    except Refused:
        return None
    now = room.now.replace(tzinfo=None)
    coming = [task for task in course.ahead_of(now) if task.step in ("boil", "bake")]
    next_at = course.clock.local(min(task.at for task in coming)).replace(tzinfo=None) if coming else None
    stands = course.stands
    if stands.stage != "bake" or stands.since is None or not asked.account.main:
        return UnderWay(asked.batch.pieces, next_at)
    planned = tuple(task.pieces or 0 for task in course.tasks if task.step == "bake") or (asked.batch.pieces,)
    here, rest = asked.account.loads_of("bake", asked.batch.pieces, planned)
    out = now + timedelta(minutes=stands.left_min or 0.0)
    return UnderWay(rest, next_at, stands.since, out.replace(second=0, microsecond=0), here)


def timed(
    request: LoadsRequest, done: Loads, stands: UnderWay | None, room: Room, assumed: list[str]
) -> tuple[Loads, datetime]:
    """The loads with the one that is in the oven before them, and when minute 0 of them is."""
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    if stands is not None and stands.since is not None and stands.out is not None and request.start is None:
        begin = stands.since.replace(second=0, microsecond=0)
        first = OvenLoad(pieces=stands.here, boil_start_min=None, bake_start_min=0.0,
                         bake_end_min=_minutes(begin, stands.out), waits_cold=stands.rest)  # fmt: skip
        if not stands.rest:
            return replace(done, loads=(first,), potfuls=(), total_min=first.bake_end_min, bottleneck="neither",
                           boiled_wait_min=0.0), begin  # fmt: skip
        return _after(first, done, _minutes(begin, stands.next_at or stands.out)), begin
    if request.start is None:
        planned = stands.next_at if stands is not None else None
        assumed.append("starting now" if planned is None else f"starting at {planned:%H:%M}, as the bake stands")
        return done, planned or now
    begin = resolve(request.start, now)
    gone = latest(request.start, now)
    if now - gone <= _JUST_BEGUN and begin - now >= _FAR_AHEAD:
        begin = gone
    if request.start_in_oven:
        begin -= timedelta(minutes=done.loads[0].bake_start_min)
    return done, begin


def _minutes(start: datetime, end: datetime) -> float:
    return (end - start).total_seconds() / 60


def _after(first: OvenLoad, done: Loads, shift_min: float) -> Loads:
    """Loads that begin so many minutes after the one that is in the oven."""
    later = tuple(
        replace(
            one, boil_start_min=None if one.boil_start_min is None else one.boil_start_min + shift_min,
            bake_start_min=one.bake_start_min + shift_min, bake_end_min=one.bake_end_min + shift_min,
        )
        for one in done.loads
    )  # fmt: skip
    potfuls = tuple(
        replace(one, start_min=one.start_min + shift_min, end_min=one.end_min + shift_min) for one in done.potfuls
    )
    return replace(done, loads=(first, *later), potfuls=potfuls, total_min=later[-1].bake_end_min)
