"""The steps of a plan that make something for the mix, in grams and in words: a feed, a poolish, a soaker."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from assistant.answers.plan_said import Settled
from assistant.engine.naming import grams, short_name
from assistant.engine.plan.feeding import JAR
from assistant.engine.plan.steps import Task
from knowledge import Knowledge
from knowledge.records.preferments import PrefermentKind

_STARTER_FLOUR = "flour_bread"

Rows = tuple[tuple[str, float], ...]


def makes_something(task: Task) -> bool:
    """Whether a step makes what the mix needs."""
    return bool(task.item) or task.step == "feed_starter"


def rows_of(task: Task, users: Sequence[Settled]) -> Rows:
    """What goes into it, (ingredient, g), for all the doughs that use it, the yeast as the plan settled it."""
    if not task.item:
        return _feed_rows(task, users)
    out: dict[str, float] = {}
    for said in users:
        for item, g in (row for aside in said.batch.asides if aside.item == task.item for row in aside.rows):
            times = task.ratio or 1.0 if item.startswith("yeast") else 1.0
            out[item] = out.get(item, 0.0) + g * times * said.makes
    return tuple(out.items())


def _feed_rows(task: Task, users: Sequence[Settled]) -> Rows:
    starters = [(said, said.formula.starter) for said in users]
    needed_g = task.share * sum(starter.g * said.makes for said, starter in starters if starter is not None)
    if not needed_g or task.ratio is None:
        return ()
    said = users[0]
    water = task.ratio * said.batch.dough.starter_hydration_pct / 100
    seed_g = needed_g * JAR / (1 + task.ratio + water)
    flour = said.dough.starter_flour or _STARTER_FLOUR
    return (("starter", seed_g), (flour, seed_g * task.ratio), ("water", seed_g * water))


def made_fields(task: Task, users: Sequence[Settled]) -> dict[str, Any]:
    """What such a step says more than others: what it makes, its grams, what goes in, how long it takes."""
    rows = rows_of(task, users)
    return {
        "item": task.item or "starter",
        "g": sum(g for _, g in rows),
        "add": [{"item": item, "g": g} for item, g in rows],
        "hours": round(task.minutes / 60, 2),
    }


def made_words(task: Task, label: str, users: Sequence[Settled], kb: Knowledge) -> tuple[str, str, str]:
    """What is done, the sign that it is there, and what to do when it is not. label: the step's own, for a feed."""
    rows = rows_of(task, users)
    if not task.item:
        plus = " + ".join(f"{g:.0f}" for _, g in rows)
        return (f"{label}: {plus} g" if rows else label), "", ""
    kind = kb.all(PrefermentKind)[task.item]
    what = ", ".join(f"{grams(g)} g {_name(item, kb)}" for item, g in rows)
    note = f" ({task.note})" if task.note else ""
    return kind.make.format(rows=what) + note, kind.look_for, kind.fallback


def _name(item: str, kb: Knowledge) -> str:
    return short_name(kb.ingredients[item]) if item in kb.ingredients else item
