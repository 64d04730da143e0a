"""A plan as a reply: the machine form, the page, the cautions, and what it leaves on the bench."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from assistant.answers.dough_said import piece_name, solved
from assistant.answers.oven_dial import on_the_dial
from assistant.answers.plan_cautions import cautions_of, shown_cautions
from assistant.answers.plan_finish import finish_fields
from assistant.answers.plan_kept import TOPIC, memory_of
from assistant.answers.plan_made import made_fields, makes_something
from assistant.answers.plan_read_as import read_as
from assistant.answers.plan_said import Settled
from assistant.answers.plan_words import assumed_by, fed_again, instant_pct, levers, reasons, shown_steps, told, watch
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Plan
from assistant.talk.bench import Bench
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.plan_page import plan_page
from assistant.voice.plan_stretches import Shown
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.plan import PlanRequest


def outcome_of(
    request: PlanRequest,
    said: Settled,
    found: Plan,
    room: Room,
    assumed: Sequence[str],
    notes: Sequence[str] = (),
    risk: str | None = None,
) -> Outcome:
    """The reply to a plan. `notes`: what went otherwise than wished, always shown; `risk` stands for the biggest risk
    where it is known better than `watch` can guess."""
    clock = Clock(said.wish.now)
    said = as_planned(found, said, room)
    shown = shown_steps(found, said, room.kb, clock)
    ready = clock.local(found.ready_min)
    extra = (*assumed, *assumed_by(found, said), *on_the_dial(said.batch.oven_c, room))
    again = fed_again(found, said, clock)
    risks = watch(found, said) if risk is None else [risk]
    moved = levers(found, said)
    # Work in the night is told before what was moved for it.
    night, others = (tuple(risks), ()) if found.night_min else ((), tuple(risks))
    always = (*notes, *night, *told(extra, request, room))
    warnings = shown_cautions(said, found, room)
    others = (*again, *moved, *others)
    page = plan_page(shown, ready, always, warnings, others, reasons(found, said, extra), said.wish.now.date())
    stands = replace(request, late_min=None, bedtime=False, risen_pct=None, way=None, side_by_side=False, lost=())
    bench, change = _benched(found, said, room, kept(stands))
    return Outcome(
        kind="plan",
        answer=fields_of(found, said, shown, clock),
        read_as=read_as(request, said),
        page=page,
        assumed=tuple(dict.fromkeys(extra)),
        cautions=cautions_of(said, found, room),
        sources=("fermentation model (knowledge/kinetics)", said.batch.process.source),
        bench=bench,
        unread=request.lost,
        change=change,
        focus=stands,
    )


def fields_of(found: Plan, said: Settled, shown: Sequence[Shown], clock: Clock) -> dict[str, Any]:
    steps = [
        {
            "step": task.step,
            "label": one.label,
            "start": iso(clock.local(task.at)),
            "end": iso(clock.local(task.end)),
            "hands_on": task.hands_on,
            "temp_c": task.temp_c,
            **({} if task.pieces is None else {"pieces": task.pieces}),
            **(made_fields(task, (said,)) if makes_something(task) else finish_fields(task, said.finishing)),
        }
        for task, one in zip(found.tasks, shown, strict=True)
    ]
    return {
        "start_at": steps[0]["start"],
        "ready_at": iso(clock.local(found.ready_min)),
        "kitchen_c": said.kitchen.room_c,
        "steps": steps,
        "bread": said.bread.id,
        "pieces": said.batch.pieces,
        "starter_pct": found.leaven_pct if said.batch.sourdough and not said.preferment_raises else 0.0,
        "dough_c": found.dough_c,
        "water_c": found.water_c if said.pours_water else None,
        "cold": found.cold,
        "cold_min": found.cold_min,
        "night_hands_min": found.night_min,
        "moved": [{"lever": m.lever, "usual": m.usual, "chosen": m.chosen} for m in found.moves],
    }


def iso(moment: datetime) -> str:
    return moment.isoformat(timespec="minutes")


def _benched(
    found: Plan, said: Settled, room: Room, stands: Mapping[str, Any]
) -> tuple[Bench, Mapping[str, Any] | None]:
    """A dough named in the line becomes the bake in hand, with the leaven the plan settled on."""
    title, memory = remembered(found, said, room, stands)
    if not said.fresh:
        return room.bench.with_notes(TOPIC, memory), {"what": "plan"}
    dough = kept(planned_dough(found, said))
    if room.bake is not None and room.bake.name == title and dict(room.bake.said) == kept(said.dough):
        # in hand since its first hour was refused
        return room.bench.with_changed_bake(said=dough).with_notes(TOPIC, memory), {"what": "plan"}
    bench = room.bench.with_bake(dough, room.stamp(), title)  # the plan of the dough before goes aside with it
    return bench.with_notes(TOPIC, memory), {"what": "plan", "new": True, "dough": title}


def remembered(found: Plan, said: Settled, room: Room, stands: Mapping[str, Any]) -> tuple[str, dict[str, Any]]:
    """The title of the dough, and what the bench keeps of its plan."""
    clock = Clock(said.wish.now)
    title = f"{said.batch.pieces} {piece_name(said.dough, said.batch.pieces, room.kb) or said.bread.said_as[0]}"
    if not said.fresh and room.bake is not None:
        title = room.bake.name
    steps = [{"label": t.step.replace("_", " "), "start": iso(clock.local(t.at))} for t in found.tasks]
    return title, memory_of(found, iso(said.wish.now.replace(tzinfo=None)), title, stands, steps)


def as_planned(found: Plan, said: Settled, room: Room) -> Settled:
    """With the dough as the plan settled its leaven: a feed makes what that dough takes."""
    moved = said.formula.starter is not None and any(move.lever == "leaven" for move in found.moves)
    return replace(said, formula=solved(planned_dough(found, said), room)) if moved else said


def planned_dough(found: Plan, said: Settled) -> FormulaRequest:
    """The dough with the leaven the plan settled on."""
    dough = said.dough
    if said.batch.sourdough and any(move.lever == "leaven" for move in found.moves):
        dough = replace(dough, starter_pct=found.leaven_pct)
    yeast = next((move for move in found.moves if move.lever == "yeast"), None)
    if yeast is not None:
        dough = replace(dough, starter_pct=found.leaven_pct)
        dough = replace(dough, parts=(*dough.parts, Part(("yeast_instant",), pct=round(instant_pct(yeast.chosen), 2))))
    return dough
