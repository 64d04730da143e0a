"""What a course of time is worked out from, and what it says: the steps, where the bake stands, when it is ready."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from assistant.engine.course.told import Account
from assistant.engine.plan.asked import Batch, Kitchen, Trade
from assistant.engine.plan.clock import Clock, Spans
from assistant.engine.plan.steps import Plan, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a course is worked out from.

    plan: the one that stands, None without; ready_by: the minute it should be ready, None where any is right; mixed_c:
    the warmth the dough is mixed to where nothing was measured; known: the bread is known, so that its bake is too;
    timed: the starter's pace was seen; busy: hours in which nobody is there; fridge: there is one to put it in.
    """

    batch: Batch
    kitchen: Kitchen
    trade: Trade
    clock: Clock
    account: Account
    plan: Plan | None = None
    ready_by: int | None = None
    mixed_c: float | None = None
    known: bool = True
    timed: bool = False
    fridge: bool = True
    busy: Spans = field(default_factory=lambda: Spans((), ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """Where the bake stands. Minutes; the three of what is left None where it cannot be told. air_c around it."""

    stage: str | None
    since: datetime | None
    elapsed_min: float
    left_min: float | None
    low_left_min: float | None
    high_left_min: float | None
    rise_pct: float | None
    target_rise_pct: float | None
    next: str | None
    air_c: float | None
    seen_pace: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseOfTime:
    """The whole of it. tasks: in order of start, minutes of the clock; ready_min: None where it cannot be told."""

    clock: Clock
    tasks: tuple[Task, ...]
    stands: Stands
    ready_min: int | None

    def ahead_of(self, now: datetime) -> tuple[Task, ...]:
        """The steps that begin from now on."""
        minute = self.clock.minutes(now)
        return tuple(task for task in self.tasks if task.at >= minute - 1e-6)


def stops_of(asked: Asked) -> tuple[float, float]:
    """The rises at which bulk and proof end: the plan's own where one stands, the proof making up for a short bulk."""
    batch, plan = asked.batch, asked.plan
    bulk, proof = batch.rise_bulk_pct, batch.rise_proof_pct
    planned = None if plan is None else plan.first("bulk")
    if plan is not None and planned is not None and planned.rise_pct is not None and plan.cold == "shaped":
        proof = max(0.5 * proof, proof + bulk - planned.rise_pct)
        bulk = planned.rise_pct
    return bulk, proof


def stage_c(asked: Asked, stage: str) -> float | None:
    """°C around a dough in the fridge, the pot or the oven; None where it stands in the room."""
    return {"retard": asked.kitchen.fridge_c, "bake": asked.batch.oven_c, "boil": 100.0}.get(stage)
