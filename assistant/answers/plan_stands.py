"""The plan that stands, shown again: the whole of it, or the hours of one of its steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time, timedelta

from assistant.answers import answers
from assistant.answers.account_kept import pieces_there
from assistant.answers.course_kept import course_as_plan
from assistant.answers.plan_reply import outcome_of
from assistant.answers.plan_together import whole_standing
from assistant.answers.plan_together_reply import Named, reply_together, shown_together
from assistant.answers.plan_words import shown_steps
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.together import Together
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page, Table
from assistant.voice.plan_page import Shown, at, day_and_hour
from grammar.moments import Moment, resolve
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_stands import START, PlanStands
from knowledge.records.steps import Step

_PARTS = {
    "morning": (5, 7), "afternoon": (12, 6), "evening": (17, 9), "night": (17, 11), "tonight": (17, 11),
}  # fmt: skip
"""Parts of a day: the hour they begin and how many they last; a night belongs to the evening before it."""
_OF_ITSELF = frozenset({"cool", "bench_rest"})
"""What comes about without anybody: it is no job."""
_BY_HAND = frozenset({"mix", "knead", "fold", "divide", "preshape", "shape", "boil", "score", "bake", "refresh"})


@answers(PlanStands)
def answer(request: PlanStands, room: Room) -> Outcome:
    """The plan as it was made, whatever was talked of since; with a step, its hours and its sign first.

    Raises Refused where no plan stands.
    """
    stood = course_as_plan(room)
    if stood is None:
        raise Refused("no plan stands", "ask for one: 24 rings ready by 9 on Sunday")
    wish, said, found = stood
    clock = Clock(said.wish.now)
    other = _another_size(found, room)
    whole = whole_standing(room)
    if whole is not None and request.step is None:
        outcome = replace(reply_together(*whole, room), bench=room.bench, change=None)
        if request.within is None:
            return replace(outcome, page=Page((*other, *outcome.page.blocks)))
        return _to_do(request.within, outcome, _of_all(whole, room), room, other)
    outcome = replace(outcome_of(wish, said, found, room, said.assumed), bench=room.bench, change=None)
    if request.within is not None:
        return _to_do(request.within, outcome, shown_steps(found, said, room.kb, clock), room, other)
    if request.step is None:
        return replace(outcome, page=Page((*other, *outcome.page.blocks)))
    shown = shown_steps(found, said, room.kb, clock)
    steps = shown[:1] if request.step == START else [one for one in shown if one.step == request.step]
    today = room.now.date()
    rows = tuple((f"{at(one.start, today)} to {at(one.end, one.start.date())}", one.label) for one in steps)
    name = "to start" if request.step == START else room.kb.all(Step)[request.step].said_as[0]
    first: tuple[Block, ...] = (Line(f"No {name} in this plan."),)
    if steps:
        first = (Table(rows, "ll"), Line(f"{steps[0].look_for}; {steps[0].fallback}", role="note"))
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*other, *first, *rest)), read_as=f"when: {name}")


def _of_all(whole: tuple[Together, tuple[Named, ...], PlanRequest], room: Room) -> tuple[Shown, ...]:
    """The steps of all the doughs by the clock, each with its name."""
    found, named, _ = whole
    rows = [
        replace(step, label=f"{dough.name}: {step.label}")
        for dough, steps in zip(named, shown_together(found, named, room), strict=True)
        for step in steps
    ]
    return tuple(sorted(rows, key=lambda step: step.start))


def _another_size(found: Plan, room: Room) -> tuple[Block, ...]:
    """Owned up to where the dough in hand has been made larger or smaller since it was planned."""
    planned = sum(task.pieces or 0 for task in found.tasks if task.step == "bake") or None
    now = getattr(room.formula_said, "pieces", None)
    if room.bake is None or now is None or planned is None or planned in (now, pieces_there(room, int(now))):
        return ()
    told = f"planned for {planned}; the dough in hand makes {now:g} now: say the hour again to plan that."
    return (Line(told, role="warn"),)


def _to_do(
    within: Moment, outcome: Outcome, steps: Sequence[Shown], room: Room, other: tuple[Block, ...]
) -> Outcome:
    """What somebody must be there for on a day, or in a part of it; a night runs on until the small hours."""
    now = room.now.replace(tzinfo=None)
    part = within.part or ""
    day = resolve(replace(within, minute=None, part=None, day=within.day or "today"), now).date()
    begin, hours = _PARTS.get(part, (0, 24))
    start = datetime.combine(day, time(begin))
    end = start + timedelta(hours=hours)
    due = [one for one in steps if start <= one.start < end and one.step not in _OF_ITSELF]
    called = f"{part or 'all day'} {day_and_hour(start, now.date()).rsplit(' ', 1)[0]}"
    # A later load comes out of the cold while the one before it bakes: its own row says so when it is boiled or baked.
    rows = tuple((at(one.start, now.date()), one.label) for one in due if one.load < 2 or one.step in _BY_HAND)
    done: tuple[Block, ...] = (Line("Nothing to do then: the plan has no step in those hours."),)
    if due:
        last = max(one.end if one.step in _BY_HAND else one.start for one in due)
        done = (Table(rows, "rl"), Line(f"done by {at(last, now.date())}.", role="note"))
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*other, *done, *rest)), read_as=f"what is to be done, {called}")
