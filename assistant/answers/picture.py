"""What was answered last, or what stands, as a drawing in characters."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.course_kept import course_if_any
from assistant.answers.plan_words import shown_steps
from assistant.answers.show import again, shown
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page, Picture
from assistant.voice.plan_page import day_picture
from grammar.requests.loads import LoadsRequest
from grammar.requests.picture import PictureRequest
from grammar.requests.plan_stands import PlanStands

_WHAT = "a plan, a rise, the loads of pot and oven, and the odds of a fault can be drawn"


@answers(PictureRequest)
def answer(request: PictureRequest, room: Room) -> Outcome:
    """The drawing alone; "more" is the answer it belongs to. Raises Refused where there is nothing to draw."""
    outcome = _drawable(request, room)
    pictures = [replace(one, more=False) for one in outcome.page.blocks if isinstance(one, Picture)]
    if not pictures:
        raise Refused("There is nothing here to draw.", _WHAT)
    rest = [replace(one, more=True) for one in outcome.page.blocks if not isinstance(one, Picture)]
    head = Line(f"{outcome.read_as}:", role="note")
    page = Page((head, *pictures, *rest))
    return replace(outcome, read_as=f"drawn: {outcome.read_as}", page=page)


def _drawable(request: PictureRequest, room: Room) -> Outcome:
    """The answer whose drawing is wanted: the one asked for by name, the last one, or else the bake as it runs."""
    if request.of == "loads":
        focus = recalled(room.bench.focus)
        return shown(focus if isinstance(focus, LoadsRequest) else LoadsRequest(), room)
    if request.of == "last":
        outcome = again(room)
        if any(isinstance(one, Picture) for one in outcome.page.blocks):
            return outcome
    return _running(room) or (shown(PlanStands(), room) if "plan" in room.bench.standing else again(room))


def _running(room: Room) -> Outcome | None:
    """The bake of the dough in hand, behind as told and ahead as it comes; None where nothing says when it runs."""
    found = course_if_any(room)
    if found is None:
        return None
    _, said, plan = found
    picture = day_picture(shown_steps(plan, said, room.kb, Clock(said.wish.now)))
    outcome = shown(PlanStands(), room) if "plan" in room.bench.standing else again(room)
    name = room.bake.label if room.bake is not None else "the bake"
    rest = tuple(one for one in outcome.page.blocks if not isinstance(one, Picture))
    return replace(outcome, read_as=f"{name} by the clock", page=Page((picture, *rest)))
