"""Behind the plan: what is not yet done moves, and the fridge takes up what it can."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.engine.plan.clock import Spans
from assistant.engine.plan.steps import Plan, Task

_LEAST_COLD_SHARE = 0.6
"""A stretch in the fridge is cut to no less than this share of itself."""


@dataclass(frozen=True, slots=True)
class Delayed:
    """The plan moved.

    absorbed_min: taken up by the cold; later_min: how much later it is ready; clashes: steps that now fall into taken
    hours.
    """

    plan: Plan
    absorbed_min: int
    later_min: int
    clashes: tuple[Task, ...]


def delayed(plan: Plan, at: int, by_min: int, busy: Spans) -> Delayed:
    """What is left of a plan from minute `at` on, `by_min` behind.

    A step under way goes on for so much longer; later ones move. The first stretch in the fridge that still lies ahead
    begins later and ends at its hour if that leaves it long enough; what follows then stays where it was.
    """
    cold = next((task for task in plan.tasks if task.step == "retard" and task.at > at), None)
    room = 0 if cold is None else int(cold.minutes * (1 - _LEAST_COLD_SHARE))
    absorbed = min(by_min, room)
    rest = by_min - absorbed
    tasks: list[Task] = []
    for task in plan.tasks:
        if task.end <= at:
            tasks.append(task)
        elif cold is not None and task == cold:
            tasks.append(replace(task, at=task.at + by_min, minutes=task.minutes - absorbed))
        elif cold is not None and task.at >= cold.end - _reach(plan, cold):
            tasks.append(task.later(rest))
        elif task.at <= at:
            tasks.append(replace(task, minutes=task.minutes + by_min))
        else:
            tasks.append(task.later(by_min))
    clashes = tuple(
        task
        for task in tasks
        if task.end > at and busy.touches(task.at, task.end if task.hands_on else task.at + 1) and task.at > at
    )
    moved = replace(plan, tasks=tuple(sorted(tasks, key=lambda task: task.at)))
    return Delayed(moved, absorbed, rest, clashes)


def _reach(plan: Plan, cold: Task) -> int:
    """Minutes before the end of the cold at which oven and pot for what follows already go on."""
    early = [task.at for task in plan.tasks if task.step in ("preheat", "heat_pot") and cold.at < task.at < cold.end]
    return cold.end - min(early) if early else 0
