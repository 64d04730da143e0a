"""The plan that stands, shown again: the whole of it, or the hours of one of its steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time, timedelta

from assistant.answers import answers
from assistant.answers.account_kept import pieces_there
from assistant.answers.course_kept import course_as_plan, course_if_any, marked
from assistant.answers.in_the_bowl import bowl_in_hand
from assistant.answers.plan_reply import outcome_of
from assistant.answers.plan_said import Settled
from assistant.answers.plan_together import whole_standing
from assistant.answers.plan_together_reply import Named, reply_together, shown_together
from assistant.answers.plan_words import shown_steps
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.together import Together
from assistant.engine.refusal import Refused
from assistant.talk.doughs import short_label, under_way
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.clock_said import at, day_and_hour
from assistant.voice.page import Block, Line, Page, Table
from assistant.voice.plan_stretches import Shown
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
_TURNS = frozenset({"feed_starter", "mix", "divide", "shape", "retard", "boil", "bake", "refresh"})
"""What a plan comes down to."""
_BY_HAND = frozenset({"mix", "knead", "fold", "divide", "preshape", "shape", "boil", "score", "bake", "refresh"})


@answers(PlanStands)
def answer(request: PlanStands, room: Room) -> Outcome:
    """The plan as it was made, whatever was talked of since; with a step, its hours and its sign first.

    What is to be done by hand, or when a step is, is told of every dough that has hours. Raises Refused where none has.
    """
    planned = _planned(room)
    if not planned:
        raise Refused("no plan stands", "ask for one: 24 rings ready by 9 on Sunday")
    there, (wish, said, found) = planned[0]
    other = _another_size(found, there)
    whole = whole_standing(there)
    outcome = reply_together(*whole, there) if whole is not None else outcome_of(wish, said, found, there, said.assumed)
    outcome = replace(outcome, bench=room.bench, change=None)
    if request.step is None and request.within is None and not request.short:
        return replace(outcome, page=Page((*other, *outcome.page.blocks)))
    steps = _of_all(planned, whole, room)
    if request.within is not None:
        return _to_do(request.within, outcome, steps, room, other)
    if request.short:
        return _in_short(outcome, steps, room, other)
    return _of_one_step(request.step or START, outcome, steps, room, other)


Standing = tuple[PlanRequest, Settled, Plan]


def _planned(room: Room) -> list[tuple[Room, Standing]]:
    """Every dough with hours of its own, each in hand in its room; the one in hand first."""
    others = [one.id for one in under_way(room.bench, room.now) if one.id != room.bench.in_hand]
    rooms = [room, *(replace(room, bench=room.bench.taking(number)) for number in others)]
    found = [(there, course_as_plan(there) if there is room else course_if_any(there)) for there in rooms]
    return [(there, stood) for there, stood in found if stood is not None]


def _of_all(
    planned: Sequence[tuple[Room, Standing]], whole: tuple[Together, tuple[Named, ...], PlanRequest] | None, room: Room
) -> tuple[Shown, ...]:
    """The steps of all the doughs by the clock, each with its name where there are several."""
    rows: list[Shown] = []
    bakes: set[int | None] = set()
    if whole is not None:
        found, named, _ = whole
        bakes = {one.bake for one in named}
        for dough, steps in zip(named, shown_together(found, named, room), strict=True):
            rows += [replace(step, label=f"{dough.name}: {step.label}") for step in steps]
    alone = len(planned) < 2
    for there, (_, said, plan) in planned:
        if there.bench.in_hand in bakes:
            continue
        lead = "" if alone or there.bake is None else f"{short_label(there.bake)}: "
        own = shown_steps(plan, said, room.kb, Clock(said.wish.now))
        rows += [replace(step, label=f"{lead}{step.label}") for step in own]
    return tuple(sorted(rows, key=lambda step: step.start))


def _of_one_step(
    step: str, outcome: Outcome, steps: Sequence[Shown], room: Room, other: tuple[Block, ...]
) -> Outcome:
    """The hours of one step, of every dough that has it: those still to come, else those gone by."""
    now = room.now.replace(tzinfo=None)
    named = steps[:1] if step == START else [one for one in steps if one.step == step]
    coming = [one for one in named if one.end > now] or named
    rows = tuple((f"{at(one.start, now.date())} to {at(one.end, one.start.date())}", one.label) for one in coming)
    name = "to start" if step == START else room.kb.all(Step)[step].said_as[0]
    first: tuple[Block, ...] = (Line(_without(step, name, room)),)
    if coming:
        gone = f" The last was {at(coming[-1].start, now.date())}." if coming[-1].end <= now else ""
        first = (Table(rows, "ll"), Line(f"{coming[0].look_for}; {coming[0].fallback}{gone}", role="note"))
    fed = _also_fed(outcome, room) if step == "feed_starter" else ()
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*other, *first, *fed, *rest)), read_as=f"when: {name}")


def _without(step: str, name: str, room: Room) -> str:
    """Why a step is not there."""
    if step == "fold" and marked(room):
        return "No fold is due any more: the rest of the bulk is left alone, or it was kneaded."
    return f"No {name} in this plan."


def _also_fed(outcome: Outcome, room: Room) -> tuple[Line, ...]:
    """The starter of the doughs that have no hours yet, which a feed has to be made for as well."""
    planned = {there.bench.in_hand for there, _ in _planned(room)}
    lines = []
    for bake in under_way(room.bench, room.now):
        bowl = None if bake.id in planned else bowl_in_hand(replace(room, bench=room.bench.taking(bake.id)))
        if bowl is not None and bowl.starter_g:
            told = f"{short_label(bake)}: {bowl.starter_g:.0f} g of starter more, not planned yet (“both ready by 8”)."
            lines.append(Line(told, role="warn"))
    return tuple(lines)


def _in_short(outcome: Outcome, steps: Sequence[Shown], room: Room, other: tuple[Block, ...]) -> Outcome:
    """The few turns of the plan that are still ahead, each with its hour."""
    now = room.now.replace(tzinfo=None)
    seen: set[tuple[str, str]] = set()
    rows = []
    for one in steps:
        key = (one.step, one.label.partition(": ")[0] if len(one.label.partition(": ")) > 1 else "")
        if one.step in _TURNS and one.start >= now and key not in seen:
            seen.add(key)
            rows.append((at(one.start, now.date()), one.label))
    ready = max((one.end for one in steps), default=now)
    done = Line(f"ready {at(ready, now.date())}; “the whole plan” shows every step.", role="note")
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*other, Table(tuple(rows), "rl"), done, *rest)), read_as="the plan in short")


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
    later = next((one for one in steps if one.start >= end and one.step not in _OF_ITSELF), None)
    then = f" Next: {at(later.start, now.date())} {later.label}." if later is not None else ""
    done: tuple[Block, ...] = (Line(f"Nothing to do then: the plan has no step in those hours.{then}"),)
    if due:
        last = max(one.end if one.step in _BY_HAND else one.start for one in due)
        done = (Table(rows, "rl"), Line(f"done by {at(last, now.date())}.", role="note"))
    rest = tuple(replace(block, more=True) for block in outcome.page.blocks)
    return replace(outcome, page=Page((*other, *done, *rest)), read_as=f"what is to be done, {called}")
