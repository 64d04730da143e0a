"""A plan for a dough whose starter is told to be fed: it is mixed when that starter is ripe, no sooner."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.account_kept import account_of
from assistant.answers.course_kept import course_now
from assistant.answers.plan_said import Settled
from assistant.engine.refusal import Refused
from assistant.talk.local_time import later
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour


def with_fed_starter(said: Settled, room: Room) -> Settled:
    """The wish with the hour at which the starter told as fed is ripe; as it is for another dough, where the wish says
    itself when the starter is ripe, and where more of the bake is done."""
    account = account_of(room)
    fed = bool(account.main) and account.main[-1].step == "feed_starter"
    if said.fresh or not fed or not said.batch.sourdough or said.wish.starter != "either":
        return said
    try:
        left_min = course_now(room).stands.left_min
    except Refused:
        return said
    if left_min is None:
        return said
    now = room.now.replace(tzinfo=None, second=0, microsecond=0)
    ripe = later(now, left_min)
    told = f"the starter you fed is ripe at {day_and_hour(ripe, now.date())}"
    return replace(said, wish=replace(said.wish, starter="ripe", ripe_at=ripe), assumed=(*said.assumed, told))
