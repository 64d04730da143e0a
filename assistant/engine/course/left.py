"""How long the stage under way goes on: by the rise it ends at, by the plan, or by what is usual."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from assistant.engine.course.ahead import steps_ahead
from assistant.engine.course.asked import stops_of
from assistant.engine.course.under_way import LEAST_COLD, UnderWay, planned_cold

_AUTOLYSE_MIN = 30.0
_BENCH_REST_MIN, _LEAST_BENCH_REST_MIN = 20.0, 5.0
_BOIL_MIN = 5.0
_BAKE_SPREAD, _COOL_SPREAD = (0.85, 1.15), (0.6, 1.5)
"""Shares of the usual minutes that a bake and a cooling take at least and at most."""


@dataclass(frozen=True, slots=True)
class Left:
    """Minutes left of a stage: at least, most likely, at most (None: cannot be told), and the rise it ends at."""

    low_min: float | None = None
    usual_min: float | None = None
    high_min: float | None = None
    rise_pct: float | None = None


def left_of(now: UnderWay) -> Left:
    """What is left of the stage under way; a bake, a boil and what follows only where the bread is known."""
    if now.stage in _LEFT:
        return _LEFT[now.stage](now)
    if not now.asked.known:
        return Left()
    return _LEFT_OF_KNOWN.get(now.stage, _of_preheat)(now)


def _usual(now: UnderWay, minutes: float, least: float = 1.0, most: float = 1.0) -> Left:
    """A stage that takes so many minutes in all; least, most: as shares of them."""
    gone = now.gone_min
    return Left(least * minutes - gone, minutes - gone, most * minutes - gone)


def _of_rise(now: UnderWay) -> Left:
    """Until the rise that ends it; as planned where the fridge is next."""
    batch = now.asked.batch
    bulk, proof = stops_of(now.asked)
    in_one = now.stage == "bulk" or (now.stage == "warm_up" and not now.dough.in_pieces)
    rise_pct = bulk if in_one else proof
    if not batch.leavened or rise_pct <= 0:
        return _usual(now, batch.process.rest_in_bulk_min)
    planned = _planned_into_cold(now)
    if planned is not None:
        left = now.begun + planned - now.minute
        return Left(left, left, left, rise_pct)
    spread = now.spread()
    low, left, high = (now.dough.left(rise_pct, by) for by in (spread, 1.0, 1 / spread))
    if not math.isfinite(left):
        return Left(rise_pct=rise_pct)
    return Left(low, left, high if math.isfinite(high) else 2 * left, rise_pct)


def _planned_into_cold(now: UnderWay) -> float | None:
    """Minutes of the stage that the plan gives it before the fridge; None where it is not cold next."""
    plan = now.asked.plan
    if plan is None or not now.cold_next:
        return None
    if now.stage == "bulk":
        task = plan.first("bulk")
        return None if task is None else float(task.minutes)
    done, cold = plan.last("shape"), plan.last("retard")
    return None if done is None or cold is None else float(max(0, cold.at - done.end))


def _of_cold(now: UnderWay) -> Left:
    process = now.asked.batch.process
    least, usual, most = (60 * h for h in (process.retard_low_h, process.retard_usual_h, process.retard_high_h))
    cold = planned_cold(now.asked.plan, now.begun)
    if cold is not None:
        usual = min(max(cold.end - now.begun, LEAST_COLD * cold.minutes, 60.0), max(most, cold.minutes))
        least, most = min(least, usual), max(most, usual)
    gone = now.gone_min
    return Left(least - gone, usual - gone, most - gone)


def _of_autolyse(now: UnderWay) -> Left:
    return _usual(now, now.asked.batch.process.autolyse_min or _AUTOLYSE_MIN)


def _of_bench_rest(now: UnderWay) -> Left:
    if now.since is not None and now.since.step == "preshape":
        return _usual(now, float(now.air.latest.work_min("bench_rest")))
    line = steps_ahead(now.air, now.dough, None, "divide", round(now.minute), stops_of(now.asked))
    until = next((task.at for task in line.tasks if task.step == "shape"), None) if line else None
    if until is None:
        return _usual(now, _BENCH_REST_MIN)
    return _usual(now, max(_LEAST_BENCH_REST_MIN, float(until - round(now.minute))))


def _of_bake(now: UnderWay) -> Left:
    return _usual(now, math.ceil(now.asked.batch.bake_min), *_BAKE_SPREAD)


def _of_boil(now: UnderWay) -> Left:
    load = now.air.latest.loads.loads[0]
    if load.boil_start_min is None:
        return _usual(now, _BOIL_MIN)
    return _usual(now, load.bake_start_min - load.boil_start_min)


def _of_cooling(now: UnderWay) -> Left:
    return _usual(now, float(now.air.latest.cool_min), *_COOL_SPREAD)


def _of_preheat(now: UnderWay) -> Left:
    return _usual(now, now.asked.batch.process.preheat_min)


_LEFT: dict[str, Callable[[UnderWay], Left]] = {
    "bulk": _of_rise, "proof": _of_rise, "warm_up": _of_rise, "retard": _of_cold, "autolyse": _of_autolyse,
    "bench_rest": _of_bench_rest,
}  # fmt: skip
_LEFT_OF_KNOWN: dict[str, Callable[[UnderWay], Left]] = {"bake": _of_bake, "boil": _of_boil, "cool": _of_cooling}
