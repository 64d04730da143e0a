"""Several doughs on one clock as a reply: one list, who is who on each step, what it takes in all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from assistant.answers.plan_cautions import cautions_of, shown_cautions
from assistant.answers.plan_kept import TOPIC
from assistant.answers.plan_made import made_fields, makes_something
from assistant.answers.plan_read_as import read_as
from assistant.answers.plan_refused import why_of
from assistant.answers.plan_reply import as_planned, fields_of, iso, planned_dough, remembered
from assistant.answers.plan_said import Settled
from assistant.answers.plan_words import assumed_by, leaven_name, levers, shown, told
from assistant.engine.naming import grams
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Plan, Task
from assistant.engine.plan.together import NotTogether, Together
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bench
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.clock_said import day_and_hour
from assistant.voice.plan_page import together_page
from assistant.voice.plan_stretches import Shown
from grammar.requests.plan import PlanRequest


@dataclass(frozen=True, slots=True)
class Named:
    """One of the doughs: its name in this plan, what is asked for it, what it is made from, its number on the bench."""

    name: str
    asked: PlanRequest
    said: Settled
    bake: int | None


def reply_together(found: Together, named: Sequence[Named], request: PlanRequest, room: Room) -> Outcome:
    """The reply to a plan of several doughs; each is a dough of the bench afterwards, the first one in hand."""
    clock = Clock(named[0].said.wish.now)
    today = named[0].said.wish.now.date()
    named = _as_planned(found, named, room)
    in_words = shown_together(found, named, room)
    extra = _assumed(found, named)
    bench, numbers = _benched(found, named, request, room)
    stands = standing_request(request, numbers)
    ends = [clock.local(plan.ready_min) for plan in found.plans]
    doughs = [(dough.name, rows, end) for dough, rows, end in zip(named, in_words, ends, strict=True)]
    cautions = [one for dough, plan in _pairs(found, named) for one in cautions_of(dough.said, plan, room)]
    notes = [f"{dough.name}: {one}" for dough, plan in _pairs(found, named) for one in levers(plan, dough.said)]
    head = _head(found, named, clock, today)
    grave = [one for dough, plan in _pairs(found, named) for one in shown_cautions(dough.said, plan, room)]
    first, warnings = [*_nightly(found), *told(extra, request, room)], list(dict.fromkeys(grave))
    page = together_page(doughs, head, first, warnings, notes, _reasons(found, named, extra), today)
    return Outcome(
        kind="plan",
        answer=fields_together(found, named, in_words, clock),
        read_as="; ".join(f"{one.name}: {read_as(one.asked, one.said)}" for one in named),
        page=page,
        assumed=extra,
        cautions=tuple(dict.fromkeys(cautions)),
        sources=("fermentation model (knowledge/kinetics)", *dict.fromkeys(n.said.batch.process.source for n in named)),
        bench=bench,
        unread=request.lost,
        change={"what": "plan", "new": True, "dough": ", ".join(one.name for one in named)},
        focus=stands,
    )


def standing_request(request: PlanRequest, numbers: Sequence[int]) -> PlanRequest:
    """The wish as it stands: its doughs are those of the bench now."""
    doughs = tuple(replace(dough, bake=number) for dough, number in zip(request.doughs, numbers, strict=True))
    return replace(request, doughs=doughs, lost=())


def _pairs(found: Together, named: Sequence[Named]) -> Iterator[tuple[Named, Plan]]:
    return zip(named, found.plans, strict=True)


def _assumed(found: Together, named: Sequence[Named]) -> tuple[str, ...]:
    """What was filled in: of all doughs in plain words, of some under their names."""
    of: dict[str, list[str]] = {}
    for dough, plan in _pairs(found, named):
        for one in dict.fromkeys((*dough.said.assumed, *assumed_by(plan, dough.said))):
            of.setdefault(one, []).append(dough.name)
    return tuple(one if len(names) == len(named) else f"{_listed(names)}: {one}" for one, names in of.items())


_Build = tuple[str, int, int]


def _build(task: Task) -> _Build:
    return task.item, task.at, task.end


def _builds(found: Together) -> dict[_Build, list[int]]:
    """Each thing made before a mix, with the doughs it is for, by their places."""
    out: dict[_Build, list[int]] = {}
    for place, plan in enumerate(found.plans):
        for task in plan.tasks:
            if makes_something(task):
                out.setdefault(_build(task), []).append(place)
    return out


def _stands_with(task: Task, place: int, builds: dict[_Build, list[int]]) -> bool:
    """A thing made for several doughs stands with the first of them."""
    return not makes_something(task) or builds[_build(task)][0] == place


def shown_together(found: Together, named: Sequence[Named], room: Room) -> list[list[Shown]]:
    """The steps of each dough in words; what is made for several stands once, with the grams of all."""
    clock, builds = Clock(named[0].said.wish.now), _builds(found)
    out: list[list[Shown]] = []
    for place, plan in enumerate(found.plans):
        rows = []
        for task in (one for one in plan.tasks if _stands_with(one, place, builds)):
            users = builds[_build(task)] if makes_something(task) else [place]
            step = shown(task, plan, [named[n].said for n in users], room.kb, clock)
            if len(users) > 1:
                step = replace(step, label=f"{step.label} for {_listed([named[n].name for n in users])}")
            rows.append(step)
        out.append(rows)
    return out


def fields_together(
    found: Together, named: Sequence[Named], in_words: Sequence[Sequence[Shown]], clock: Clock
) -> dict[str, Any]:
    """The machine form: one list of steps in order of start, each with its dough; totals."""
    steps: list[tuple[int, dict[str, Any]]] = []
    each = []
    builds = _builds(found)
    for place, (dough, plan) in enumerate(_pairs(found, named)):
        tasks = [task for task in plan.tasks if _stands_with(task, place, builds)]
        fields = fields_of(replace(plan, tasks=tuple(tasks)), dough.said, in_words[place], clock)
        for task, step in zip(tasks, fields.pop("steps"), strict=True):
            users = builds[_build(task)] if makes_something(task) else []
            if len(users) > 1:
                step |= made_fields(task, [named[n].said for n in users])
                step["also_for"] = [named[n].name for n in users[1:]]
            steps.append((task.at, {**step, "dough": dough.name}))
        last = plan.last("refresh") or plan.last("bake")
        starter = dough.said.formula.starter
        each.append({
            "name": dough.name, **{k: v for k, v in fields.items() if k != "kitchen_c"},
            "ready_at": iso(clock.local(plan.ready_min)),
            "out_at": iso(clock.local(plan.ready_min if last is None else last.end)),
            "flour_g": dough.said.formula.flour_g,
            "starter_g": 0.0 if starter is None else starter.g,
        })  # fmt: skip
    return {
        "start_at": iso(clock.local(found.start_min)),
        "ready_at": iso(clock.local(found.ready_min)),
        "kitchen_c": named[0].said.kitchen.room_c,
        "steps": [step for _, step in sorted(steps, key=lambda pair: pair[0])],
        "doughs": each,
        "pieces": sum(one.said.batch.pieces for one in named),
        "flour_g": sum(one["flour_g"] for one in each),
        "starter_g": sum(one["starter_g"] for one in each),
        "out_at": max(one["out_at"] for one in each),
        "night_hands_min": sum(plan.night_min for plan in found.plans),
    }


def _head(found: Together, named: Sequence[Named], clock: Clock, today: Any) -> list[str]:
    """When each is ready, and what it takes in all."""
    ends = [(dough.name, clock.local(plan.ready_min)) for dough, plan in _pairs(found, named)]
    last = max(end for _, end in ends)
    each = _listed([f"{name} {_hour(end, last)}" for name, end in ends])
    flour_g = sum(one.said.formula.flour_g for one in named)
    starters = [one.said.formula.starter for one in named]
    starter_g = sum(one.g for one in starters if one is not None)
    total = f"in all {grams(flour_g)} g of flour" + (f", {grams(starter_g)} g of ripe starter" if starter_g else "")
    return [f"all ready {day_and_hour(last, today)}: {each}; {total}"]


def _hour(end: datetime, last: datetime) -> str:
    return f"{end:%H:%M}" if end.date() == last.date() else f"{end:%a %H:%M}"


def _listed(names: Sequence[str]) -> str:
    return " and ".join(names) if len(names) < 3 else ", ".join(names[:-1]) + " and " + names[-1]


def _nightly(found: Together) -> list[str]:
    night_min = sum(plan.night_min for plan in found.plans)
    return [f"{night_min:.0f} min of work between 22:00 and 06:00: nothing else keeps the hour."] if night_min else []


def _reasons(found: Together, named: Sequence[Named], assumed: Sequence[str]) -> list[str]:
    out = []
    for dough, plan in _pairs(found, named):
        batch = dough.said.batch
        leaven = f"{plan.leaven_pct:g} % {leaven_name(dough.said)}"
        out.append(
            f"{dough.name}: bulk to +{batch.rise_bulk_pct:.0f} %, proof to +{batch.rise_proof_pct:.0f} %, {leaven}, "
            f"dough {plan.dough_c:.1f} °C"
        )
    return [*out, "assumed: " + ", ".join(assumed)] if assumed else out


def _benched(
    found: Together, named: Sequence[Named], request: PlanRequest, room: Room
) -> tuple[Bench, list[int]]:
    """Each dough on the bench with its plan, the first in hand; each plan remembers the wish of all."""
    bench, numbers, memories = room.bench, [], []
    for dough, plan in _pairs(found, named):
        if dough.bake is not None:
            bench = bench.taking(dough.bake)
        own = replace(room, bench=bench)
        title, memory = remembered(plan, dough.said, own, kept(dough.asked))
        if dough.bake is None:
            bench = bench.with_bake(kept(planned_dough(plan, dough.said)), room.stamp(), title)
        bench = bench.with_notes(TOPIC, memory)
        numbers.append(bench.in_hand or 0)
        memories.append(memory)
    whole = kept(standing_request(request, numbers))
    for number, memory in zip(reversed(numbers), reversed(memories), strict=True):
        bench = bench.taking(number).with_notes(TOPIC, {**memory, "whole": whole})
    return bench, numbers


def _as_planned(found: Together, named: Sequence[Named], room: Room) -> list[Named]:
    """The doughs with the leaven that the plan settled on."""
    return [replace(one, said=as_planned(plan, one.said, room)) for one, plan in _pairs(found, named)]


def refused_together(found: NotTogether, named: Sequence[Named], request: PlanRequest, room: Room) -> Refused:
    """Which dough cannot be had with the others, why, and the nearest plan for all."""
    dough = named[found.place]
    clock = Clock(dough.said.wish.now)
    why = why_of(found.miss, dough.said, room)
    if found.alone:
        why = f"beside the others {dough.name} find no place for hands and oven: {why}"
    nearest, fields = "plan them one by one, or give one of them another hour", None
    if found.nearest is not None:
        planned = _as_planned(found.nearest, named, room)
        in_words = shown_together(found.nearest, planned, room)
        fields = fields_together(found.nearest, planned, in_words, clock)
        pairs = _pairs(found.nearest, named)
        ends = [f"{one.name} {day_and_hour(clock.local(plan.ready_min), room.now.date())}" for one, plan in pairs]
        nearest = f"nearest: {_listed(ends)}"
    heard = "; ".join(read_as(one.asked, one.said) for one in named)
    return Refused(why, nearest, fields, request, heard)
