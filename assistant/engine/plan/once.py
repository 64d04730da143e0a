"""What several doughs need made before their mixes, made once where it is still good at each of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.engine.plan.aside import COLD_NOTE, make_up
from assistant.engine.plan.asked import Aside, Batch
from assistant.engine.plan.feeding import keeps_min
from assistant.engine.plan.steps import Plan, Task


def builds(plans: Sequence[Plan]) -> set[tuple[str, int, int]]:
    """Everything made before a mix: what (the starter: ""), from and until when."""
    made = (task for one in plans for task in one.tasks if task.item or task.step == "feed_starter")
    return {(task.item, task.at, task.end) for task in made}


def made_once(plans: Sequence[Plan], batches: Sequence[Batch]) -> tuple[Plan, ...]:
    """The plans with each build that another dough's will do for left out for that one."""
    out = list(plans)
    for place, plan in enumerate(plans):
        for task in plan.tasks:
            if not (task.item or task.step == "feed_starter"):
                continue
            users = [n for n in range(len(out)) if n != place and _serves(task, batches[place], out[n], batches[n])]
            for n in users:
                tasks = (task if _same_kind(task, other) else other for other in out[n].tasks)
                out[n] = replace(out[n], tasks=tuple(sorted(tasks, key=lambda one: one.at)))
    return tuple(out)


def _same_kind(task: Task, other: Task) -> bool:
    return (task.step, task.item) == (other.step, other.item)


def _serves(task: Task, made_for: Batch, plan: Plan, batch: Batch) -> bool:
    """Whether a build, sooner than the plan's own, is there and still good at that plan's mix."""
    own = next((other for other in plan.tasks if _same_kind(task, other)), None)
    mix = plan.first("mix")
    if own is None or mix is None or own.end <= task.end or task.end > mix.at:
        return False
    waits = mix.at - task.end
    if not task.item:
        like = abs(made_for.dough.starter_hydration_pct - batch.dough.starter_hydration_pct) < 1
        return like and waits <= keeps_min(task.temp_c or 0.0)
    first, second = (_aside(task.item, one) for one in (made_for, batch))
    if first is None or second is None or make_up(first) != make_up(second):
        return False
    if second.dough is None:
        return second.low_h * 60 <= mix.at - task.at <= second.high_h * 60
    return waits <= (second.keeps_cold_h if task.note == COLD_NOTE else second.keeps_h) * 60


def _aside(item: str, batch: Batch) -> Aside | None:
    return next((aside for aside in batch.asides if aside.item == item), None)
