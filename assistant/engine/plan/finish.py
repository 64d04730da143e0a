"""The end of a bake: pot and oven heated in time, every load cut, boiled and baked when its turn comes, the rack.

What waits for a later load is not left to go past its mark: pieces straight from the cold come out with their own load,
and pieces that proof in the warm are shaped with their own load, their rounds resting till then.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from assistant.engine.plan.blocks import Line
from assistant.engine.plan.day import Day, up
from assistant.engine.plan.steps import Task

_WORTH_MIN = 10
"""A later load that waits less than this is not told apart."""
_ROUNDS_REST_MIN = 45
"""Rounds rest so long on the bench; longer where it is cool."""
IN_THE_COLD = "in the cold until then"
_RESTING = "its rounds rest until then, covered"
_RESTING_COOL = "its rounds wait until then, covered, somewhere cool"
_IN_THE_TUB = "its dough waits in the tub until then"


def finish(line: Line, from_cold: bool = False) -> None:
    """Adds everything from the last proof on; from_cold: the pieces were proofed in the fridge."""
    day, batch = line.day, line.day.batch
    line.into_oven()
    begins = line.at
    if batch.process.score and batch.boil_s_per_side is None:
        line.at += _score_min(day, day.loads.loads[0].pieces)
    run_at = line.at
    line.warm_min = run_at
    waits = []
    for load in day.loads.loads:
        bake_at = run_at + math.ceil(load.bake_start_min - 1e-9)
        begun = bake_at
        if load.boil_start_min is not None:
            begun = run_at + math.floor(load.boil_start_min + 1e-9)
            line.tasks.append(Task("boil", begun, bake_at - begun, _bath_c(day), load.pieces))
        elif batch.process.score:
            begun = bake_at - _score_min(day, load.pieces)
            line.tasks.append(Task("score", begun, bake_at - begun, pieces=load.pieces))
        bake_min = math.ceil(load.bake_end_min - load.bake_start_min - 1e-9)
        line.tasks.append(Task("bake", bake_at, bake_min, batch.oven_c, load.pieces))
        waits.append((load.pieces, begun - begins))
    bakes = [task for task in line.tasks if task.step == "bake"]
    preheat = up(batch.process.preheat_min)
    line.tasks.append(Task("preheat", bakes[0].at - preheat, preheat, batch.oven_c))
    if batch.boil_s_per_side is not None and not batch.cold_dip:
        heat_min = day.work_min("heat_pot")
        line.tasks.append(Task("heat_pot", begins - heat_min, heat_min, 100.0))
    cooled = up(bakes[-1].end) + day.cool_min
    line.tasks.append(Task("cool", bakes[-1].end, cooled - bakes[-1].end, day.kitchen.room_c))
    line.at = cooled
    if waits[-1][1] >= _WORTH_MIN:
        line.tasks = _each_in_turn(line.tasks, waits, begins, day, from_cold)


def _bath_c(day: Day) -> float:
    return day.kitchen.room_c if day.batch.cold_dip else 100.0


def _score_min(day: Day, pieces: int) -> int:
    facts = day.trade.work["score"]
    return up(facts.minutes + facts.per_piece_min * day.a_place(pieces))


Waits = Sequence[tuple[int, int]]
"""Of each load: its pieces, and how many minutes after the first one's turn its own comes."""


def _each_in_turn(tasks: list[Task], waits: Waits, first_turn: int, day: Day, from_cold: bool) -> list[Task]:
    """The last proof told load by load."""
    proof = next((task for task in reversed(tasks) if task.step in ("proof", "warm_up")), None)
    if proof is None or proof.end != first_turn:
        return tasks
    if from_cold:
        own = [_of_load(proof.later(wait), n, pieces, IN_THE_COLD) for n, (pieces, wait) in enumerate(waits, 1)]
        return [*(task for task in tasks if task is not proof), *own]
    shape = next((task for task in reversed(tasks) if task.step == "shape" and task.end == proof.at), None)
    if shape is None:
        return tasks
    shaped = _shaped_in_turn(shape, proof, waits, first_turn, day)
    if shaped is None:
        return tasks
    return [*(task for task in tasks if task not in (shape, proof)), *shaped]


def _shaped_in_turn(shape: Task, proof: Task, waits: Waits, first_turn: int, day: Day) -> list[Task] | None:
    """Shaping and proof of each load, its proof as long as the first's where hands are free by then.

    From the last load back: no shaping runs into the next one, nor into the pot or the oven of the first. None where
    one pair of hands has no time for it.
    """
    out: list[Task] = []
    until = first_turn
    for n in range(len(waits), 0, -1):
        pieces, wait = waits[n - 1]
        minutes = up(1 + day.batch.process.shape_min * day.a_place(pieces))
        end = min(shape.end + wait, until)
        until = end - minutes
        rests = until - shape.at
        note = "" if n == 1 else _IN_THE_TUB if not day.batch.process.preshape else (
            _RESTING if rests <= _ROUNDS_REST_MIN else _RESTING_COOL
        )  # fmt: skip
        out.append(_of_load(replace(shape, at=until, minutes=minutes), n, pieces, note))
        risen = replace(proof, at=end, minutes=first_turn + wait - end)
        out.append(_of_load(risen, n, pieces, ""))
    return None if until < shape.at else out


def _of_load(task: Task, number: int, pieces: int, note: str) -> Task:
    return replace(task, pieces=pieces, load=number, note=note if number > 1 else "")
