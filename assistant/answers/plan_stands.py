"""The plan that stands, shown again: the whole of it, or the hours of one of its steps."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.plan_kept import standing
from assistant.answers.plan_reply import outcome_of
from assistant.answers.plan_words import shown_steps
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Block, Line, Page, Table
from assistant.voice.plan_page import at
from grammar.requests.plan import PlanStands
from knowledge.records.steps import Step


@answers(PlanStands)
def answer(request: PlanStands, room: Room) -> Outcome:
    """The plan as it was made, whatever was talked of since; with a step, its hours and its sign first.

    Raises Refused where no plan stands.
    """
    stood = standing(room)
    if stood is None:
        raise Refused("no plan stands", "ask for one: 24 rings ready by 9 on Sunday")
    wish, said, found = stood
    clock = Clock(said.wish.now)
    outcome = replace(outcome_of(wish, said, found, room, said.assumed), bench=room.bench, change=None)
    if request.step is None:
        return outcome
    steps = [one for one in shown_steps(found, said, room.kb, clock) if one.step == request.step]
    today = room.now.date()
    rows = tuple((f"{at(one.start, today)} to {at(one.end, one.start.date())}", one.label) for one in steps)
    name = room.kb.all(Step)[request.step].said_as[0]
    first: tuple[Block, ...] = (Line(f"No {name} in this plan."),)
    if steps:
        first = (Table(rows, "ll"), Line(f"{steps[0].look_for}; {steps[0].fallback}", role="note"))
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*first, *rest)), read_as=f"when: {name}")
