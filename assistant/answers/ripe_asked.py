"""When the starter is ripe: of the feed that was told, else by when the plan that stands wants it."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.account_kept import account_of
from assistant.answers.course_kept import course_now
from assistant.answers.progress import standing
from assistant.engine.course.asked import CourseOfTime
from assistant.engine.course.told import Account
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said
from grammar.requests.ripe_asked import RipeAskedRequest

_UNPLANNED = "Ripe when you mix: no hour is planned for that. Say when the bread is wanted."
_WITH_STARTER = ("autolyse", "mix")


@answers(RipeAskedRequest)
def answer(request: RipeAskedRequest, room: Room) -> Outcome:
    """The hour the starter is ripe or has to be, before where the bake stands."""
    account = account_of(room)
    outcome = standing(room)
    if account.main and account.main[-1].step == "feed_starter":
        return replace(outcome, read_as="when the starter is ripe")
    try:
        said = _wanted_by(course_now(room), account, room)
    except Refused:
        said = _UNPLANNED
    line = Line(said, role="head")
    return replace(outcome, read_as="when the starter has to be ripe", page=Page((line, *outcome.page.blocks)))


def _wanted_by(course: CourseOfTime, account: Account, room: Room) -> str:
    """By when the plan wants the starter, with the feed before it; where the dough is mixed, that it is in it."""
    now = room.now.replace(tzinfo=None)
    if any(one.step == "mix" for one in account.main):
        return "The starter is in the dough: it is mixed."
    mixing = next((task for task in course.tasks if task.step in _WITH_STARTER), None)
    if mixing is None:
        return _UNPLANNED
    said = f"Ripe by {clock_said(course.clock.local(mixing.at), now)}, when you mix."
    fed = next((task for task in course.tasks if task.step == "feed_starter" and not task.item), None)
    return said if fed is None else f"{said} Fed {clock_said(course.clock.local(fed.at), now)}."
