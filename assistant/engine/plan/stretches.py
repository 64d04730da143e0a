"""The stretches a block is made of, laid on a line: mixed, risen, worked at the bench, proofed."""

from __future__ import annotations

import math

from assistant.engine.fermentation import mixed, shaped
from assistant.engine.plan.blocks import Line
from assistant.engine.plan.day import Day, near, up
from assistant.engine.plan.steps import Task
from assistant.engine.rising import Dough

_LEAST_BULK_MIN, _LEAST_PROOF_MIN = 15, 10
_FOLDED_MIN = 60
"""A bulk at least this long is folded."""


def mixed_line(day: Day, dough: Dough, dough_c: float, autolyse_min: int, begins: float) -> Line:
    """A line with the dough mixed, and kneaded where its bread is."""
    line = Line(day, dough, begins, mixed(day.trade.kinetics, dough), dough_c)
    at = 0
    if autolyse_min:
        line.tasks.append(Task("autolyse", 0, autolyse_min, day.air_c(begins)))
        at = autolyse_min
    line.tasks.append(Task("mix", at, day.work_min("mix"), round(dough_c, 1)))
    line.at = at + day.work_min("mix")
    if day.batch.process.knead:
        line.add("knead", day.work_min("knead"), day.tub_tau_h, temp_c=round(dough_c, 1))
    return line


def bulk(line: Line, mark: float, note: str = "") -> bool:
    """Up to a rise in %, or rested where nothing raises it; False where it never gets there."""
    day = line.day
    if not day.batch.leavened or mark <= 0:
        line.add("bench_rest", up(day.batch.process.rest_in_bulk_min), day.tub_tau_h, temp_c=day.kitchen.room_c)
        return True
    minutes = line.minutes_to(mark, day.tub_tau_h)
    if not math.isfinite(minutes):
        return False
    rising(line, max(_LEAST_BULK_MIN, near(minutes)), mark, note)
    return True


def rising(line: Line, minutes: int, mark: float, note: str) -> None:
    """So many minutes in bulk towards a rise in %, folded where that is long enough."""
    day = line.day
    if day.batch.process.folds and minutes >= _FOLDED_MIN:
        line.folds = day.batch.process.folds
    air_c = day.air_c(line.begins + line.at)
    line.add("bulk", minutes, day.tub_tau_h, temp_c=air_c, rise_pct=mark, note=note)


def warm_bulk(line: Line) -> bool:
    """A bulk out of the fridge brought up to its rise; False where it never gets there."""
    day = line.day
    left = line.minutes_to(day.batch.rise_bulk_pct, day.tub_tau_h)
    if not math.isfinite(left):
        return False
    minutes = max(day.work_min("warm_up"), near(left))
    line.add("warm_up", minutes, day.tub_tau_h, temp_c=day.air_c(line.begins), rise_pct=day.batch.rise_bulk_pct)
    return True


def bench(line: Line, cut: bool = False) -> None:
    """Divided, rounded, rested and shaped; `cut`: only the shaping is left."""
    day, process = line.day, line.day.batch.process
    tau_h, pieces = day.bench_tau_h, day.batch.pieces
    line.settle()
    if not cut and (pieces > 1 or process.preshape):
        line.add("divide", day.work_min("divide"), tau_h, pieces=pieces)
    if not cut and process.preshape:
        line.add("preshape", day.work_min("preshape"), tau_h, pieces=pieces)
        line.add("bench_rest", day.work_min("bench_rest"), tau_h, temp_c=day.air_c(line.begins + line.at))
    line.add("shape", up(1 + process.shape_min * day.a_place(pieces)), tau_h, pieces=pieces)
    line.settle()
    line.state = shaped(day.trade.kinetics, line.state)


def proof(line: Line, mark: float) -> bool:
    """The pieces up to a rise in %; False where they never get there."""
    day = line.day
    if not day.batch.leavened or mark <= 0:
        return True
    minutes = line.minutes_to(mark, day.piece_tau_h)
    if not math.isfinite(minutes):
        return False
    air_c = day.air_c(line.begins + line.at)
    line.add("proof", max(_LEAST_PROOF_MIN, near(minutes)), day.piece_tau_h, temp_c=air_c, rise_pct=mark)
    return True
