"""What was answered last, the dough or the plan, shown again."""

from __future__ import annotations

from dataclasses import replace

from assistant import answers as registry
from assistant.answers import answers
from assistant.talk.bench import ASIDE
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.plan_stands import PlanStands
from grammar.requests.setting import SettingRequest
from grammar.requests.setting_asked import SettingForgotten, SettingsAsked
from grammar.requests.show import ShowRequest
from grammar.requests.talk import HelpRequest, MoreRequest

_NOT_AGAIN = (ShowRequest, MoreRequest, HelpRequest, SettingRequest, SettingsAsked, SettingForgotten)


@answers(ShowRequest)
def show(request: ShowRequest, room: Room) -> Outcome:
    """The dough, the plan, or what was last asked."""
    if request.missing is not None and len(room.bench.bakes) > 1:
        return _none_such(request.missing, room)
    if request.what == "dough":
        return shown(room.formula_said, room)
    if request.what == "plan" and "plan" in room.bench.standing:
        return shown(PlanStands(), room)
    if request.what == "plan":
        return _no_plan(room)
    return again(room)


def _none_such(name: str, room: Room) -> Outcome:
    """A bread asked for that is none of several on the bench; where there is but one dough, that is meant."""
    there = " and ".join(bake.label for bake in room.bench.bakes)
    text = f"No {name} on the bench: there is {there}. “make them {name}” changes that; with a size it is a new dough."
    return Outcome("explanation", {"topic": "show", "text": text}, f"show the {name}", Page((Line(text),)))


def _no_plan(room: Room) -> Outcome:
    """The dough in hand has no plan; which other dough has one."""
    planned = [bake.label for bake in room.bench.bakes if "plan" in (bake.facts.get(ASIDE) or {})]
    own = room.bake.label if room.bake is not None else "what is in hand"
    text = f"No plan is made for {own}; there is one for {' and '.join(planned)}: “back to …” takes that in hand."
    return Outcome("explanation", {"topic": "plan", "text": text}, "the plan that stands", Page((Line(text),)))


def again(room: Room) -> Outcome:
    """What was asked last, or else the dough in hand."""
    focus = recalled(room.bench.focus)
    return shown(room.formula_said if focus is None or isinstance(focus, _NOT_AGAIN) else focus, room)


def shown(request: object | None, room: Room) -> Outcome:
    """A request answered once more; nothing changes by it."""
    if request is None:
        text = "Nothing is in hand yet. Say a dough, for example: 24 rolls of 80 g at 66 %, 2 % salt, 20 % starter"
        return Outcome("explanation", {"topic": "show", "text": text}, "show again", Page((Line(text),)))
    outcome = registry.answer(request, replace(room, bound=None))
    return replace(outcome, bench=None, change=None)
