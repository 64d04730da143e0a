"""A plan as plain JSON on the bench, and back: what stands is shown as it was made, not worked out anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import astuple, fields, replace
from datetime import datetime
from typing import Any

from assistant.answers.plan_said import Settled, settled
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.steps import Move, Plan, Task
from assistant.talk.bench import PLAN, SAID
from assistant.talk.local_time import zoned
from assistant.talk.memory import recalled
from assistant.talk.room import Room
from grammar.requests.plan import PlanRequest

TOPIC = PLAN
"""The bench's memory of the last plan."""
WAYS = "ways"
"""The field of that memory with the ways on that were offered at bedtime."""


def plan_kept(found: Plan) -> dict[str, Any]:
    """A plan as plain JSON; `now` is kept beside it."""
    rows = {"tasks": [list(astuple(task)) for task in found.tasks], "moves": [list(astuple(m)) for m in found.moves]}
    plain = {one.name: getattr(found, one.name) for one in fields(found) if one.name not in ("now", *rows)}
    return {**plain, **rows}


def plan_again(saved: Mapping[str, Any], now: datetime) -> Plan:
    """The plan that was kept."""
    tasks, moves = saved["tasks"], saved["moves"]
    plan = {name: value for name, value in saved.items() if name not in ("tasks", "moves")}
    return Plan(now=now, tasks=tuple(Task(*row) for row in tasks), moves=tuple(Move(*row) for row in moves), **plan)


def memory_of(found: Plan, now: str, dough: str, said: Mapping[str, Any], steps: Sequence[Any]) -> dict[str, Any]:
    """All that the bench keeps of a plan."""
    return {"now": now, "dough": dough, "steps": list(steps), SAID: said, PLAN: plan_kept(found)}


def standing(room: Room) -> tuple[PlanRequest, Settled, Plan] | None:
    """The wish, what it was made from and the plan that stands; None where none does."""
    memory = room.bench.notes.get(TOPIC) or {}
    wish = recalled(room.bench.stood(TOPIC))
    if not isinstance(wish, PlanRequest) or PLAN not in memory:
        return None
    said = made_then(wish, memory, room)
    return wish, said, plan_again(memory[PLAN], said.wish.now)


def made_then(wish: PlanRequest, memory: Mapping[str, Any], room: Room) -> Settled:
    """What a wish is made from, by the clock of the plan that was kept."""
    said = settled(wish, room)
    clock = Clock(zoned(datetime.fromisoformat(memory["now"])))
    return replace(said, fresh=False, wish=replace(said.wish, now=clock.now))
