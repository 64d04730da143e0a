"""What comes after the stage under way: on through the oven, into the fridge, or out of it in time."""

from __future__ import annotations

import math
from dataclasses import replace

from assistant.engine.course.ahead import Ahead, finishing, free_from, steps_ahead
from assistant.engine.course.asked import stops_of
from assistant.engine.course.under_way import LEAST_COLD, UnderWay, planned_cold

BESIDE_TASKS = frozenset({"preheat", "heat_pot", "fold", "score"})
"""Steps that go on beside the stage the dough is in."""
_TRIES = 5
"""So often the hour out of the fridge is moved towards the one it should be ready at; it settles in two or three."""


def coming(now: UnderWay, end: float | None) -> Ahead | None:
    """What comes after the stage, which ends at minute `end`; None where it cannot be told."""
    if end is None or now.stage == "preheat":
        return None
    begins = math.ceil(end - 1e-6)
    if now.stage in ("boil", "bake"):
        return _loads_after(now, begins)
    if now.stage == "cool":
        return Ahead(())
    if now.stage == "retard":
        return _out_of_cold(now, begins)
    return _on_from(now, end, begins)


def _loads_after(now: UnderWay, begins: int) -> Ahead | None:
    """The loads behind the one in the pot or the oven."""
    asked = now.asked
    if not asked.known or now.since is None:
        return None
    here, rest = asked.account.loads_of(now.stage, asked.batch.pieces, now.air.latest.loads.sizes)
    return finishing(now.air, now.stage, now.minute, begins, here, rest)


def _on_from(now: UnderWay, end: float, begins: int) -> Ahead | None:
    """On from a rise or a rest: cut, shaped, into the fridge where the plan says so, and through the oven."""
    asked, plan = now.asked, now.asked.plan
    at_end = now.dough.another()
    at_end.to(end)
    then = {"bulk": "divide", "bench_rest": "shape", "autolyse": "mix"}.get(now.stage, "finish")
    if now.stage == "warm_up" and not now.dough.in_pieces:
        then = "divide"
    if now.cold_next:
        then = "cold"
    goes_cold = plan is not None and not now.was_cold and plan.cold in ("shaped", "both") and now.stage != "proof"
    return steps_ahead(
        now.air, at_end, plan if goes_cold or then == "cold" else None, then, begins, stops_of(asked),
        ready_by=asked.ready_by, busy=asked.busy,
    )  # fmt: skip


def _out_of_cold(now: UnderWay, end: int) -> Ahead | None:
    """The rest of a bake that lies in the fridge: out at such an hour that it is ready when it should be."""
    asked, process = now.asked, now.asked.batch.process
    cold = planned_cold(asked.plan, now.begun)
    shortest_min = LEAST_COLD * cold.minutes if cold is not None else 60 * process.retard_low_h
    longest_min = max(60 * process.retard_high_h, cold.minutes if cold is not None else 0)
    least = max(now.begun + shortest_min, now.minute, *now.put_off_until)
    most = max(now.begun + longest_min, least)
    out = end
    found: Ahead | None = None
    for _ in range(_TRIES):
        there = now.dough.another()
        there.to(out)
        found = steps_ahead(now.air, there, None, "out", out, stops_of(asked))
        if found is None or asked.ready_by is None or not found.tasks:
            break
        off = asked.ready_by - max(task.end for task in found.tasks)
        moved = free_from(asked.busy, math.ceil(min(max(out + off, least), most)))
        if moved == out:
            break
        out = moved
    return None if found is None else replace(found, begins=float(out))


def next_step(now: UnderWay, ahead: Ahead | None) -> str | None:
    """The step that follows the stage; oven and pot heating beside it aside."""
    boiled = now.asked.batch.boil_s_per_side is not None
    if now.stage in ("bake", "boil") or ahead is None:
        return {
            "autolyse": "mix", "feed_starter": "mix", "bulk": "divide", "bench_rest": "shape", "boil": "bake",
            "bake": "cool", "preheat": "bake", "proof": "boil" if boiled else "bake",
        }.get(now.stage)  # fmt: skip
    in_order = sorted(ahead.tasks, key=lambda task: task.at)
    step = next((task.step for task in in_order if task.step not in BESIDE_TASKS), None)
    if now.stage == "retard" and step in ("warm_up", "proof"):
        return "warm_up"
    return "boil" if step == "score" and boiled else step
