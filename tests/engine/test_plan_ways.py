"""Baked ahead, behind the plan, and the ways on at bedtime."""

from __future__ import annotations

from datetime import datetime, time
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.growth import kinetics
from assistant.engine.heat import heat_constants
from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.asked import Batch, Kitchen, Trade, Wish
from assistant.engine.plan.batches import usual_batch
from assistant.engine.plan.clock import Busy, Clock
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day
from assistant.engine.plan.late import delayed
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.ways import ways_on
from knowledge import Knowledge, load
from knowledge.records.bench_work import BenchWork
from knowledge.records.kinetics import Kinetic
from knowledge.records.process import Process

NOW = datetime(2026, 3, 14, 7, 30)
NIGHT = Busy(time(22), time(6), None, "asleep")


@cache
def known() -> Knowledge:
    return load()


@cache
def trade() -> Trade:
    records = known().all(Kinetic)
    return Trade(kinetics(records), heat_constants(records), known().all(BenchWork), records)


def batch(bread: str, pieces: int) -> Batch:
    process = next(one for one in known().all(Process).values() if bread in one.breads)
    return usual_batch(known().breads[bread], process, pieces=pieces)


@cache
def rings() -> Plan:
    wish = Wish(now=NOW, ready_by=datetime(2026, 3, 15, 9), busy=(NIGHT,), cold="shaped")
    found = plan(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    return found


def test_baked_ahead_is_kept_thawed_and_warmed_through() -> None:
    wish = Wish(now=NOW, ready_by=datetime(2026, 3, 15, 18), busy=(NIGHT,), ahead=True)
    found = plan_ahead(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    steps = [task.step for task in found.tasks]
    assert steps[-1] == "refresh" and Clock(NOW).local(found.ready_min) == datetime(2026, 3, 15, 18)
    kept, bake = found.last("cool"), found.last("bake")
    assert kept is not None and bake is not None and kept.at == bake.end
    thaw = found.first("thaw")
    assert (thaw is None) == ("bag" in kept.note)
    assert kept.end == (thaw or found.tasks[-2]).at
    busy = Clock(NOW).spans((NIGHT,))
    assert not any(busy.touches(task.at, task.end) for task in found.tasks if task.hands_on)


def test_ahead_needs_an_hour() -> None:
    with pytest.raises(ValueError, match="hour"):
        plan_ahead(batch("ring_roll", 24), Kitchen(), Wish(now=NOW, ahead=True), trade())


@given(st.integers(0, 700), st.integers(5, 240))
def test_behind_the_plan_nothing_is_lost_and_the_order_stays(at: int, by_min: int) -> None:
    moved = delayed(rings(), at, by_min, Clock(NOW).spans((NIGHT,)))
    before, after = rings().tasks, moved.plan.tasks
    assert sorted(task.step for task in before) == sorted(task.step for task in after)
    assert moved.absorbed_min + moved.later_min == by_min
    assert moved.plan.ready_min == rings().ready_min + moved.later_min
    assert [task.at for task in after] == sorted(task.at for task in after)
    for old, new in zip(before, sorted(after, key=lambda task: before_index(task.step, task.pieces)), strict=False):
        if old.end <= at and old.step == new.step:
            assert old == new


def before_index(step: str, pieces: int | None) -> int:
    return next(n for n, task in enumerate(rings().tasks) if task.step == step and task.pieces == pieces)


def test_forty_minutes_behind_are_taken_up_by_the_fridge() -> None:
    moved = delayed(rings(), 0, 40, Clock(NOW).spans(()))
    assert (moved.absorbed_min, moved.later_min) == (40, 0)
    old, new = rings().first("retard"), moved.plan.first("retard")
    assert old is not None and new is not None
    assert (new.at, new.end) == (old.at + 40, old.end)
    assert moved.plan.first("preheat") == rings().first("preheat")


def test_late_into_taken_hours_is_told() -> None:
    moved = delayed(rings(), 0, 120, Clock(NOW).spans((NIGHT,)))
    assert moved.clashes


def course_of(bread: str, room_c: float) -> tuple[Day, Course]:
    made = batch(bread, 24)
    day = Day(made, Kitchen(room_c=room_c), trade(), Clock(NOW))
    return day, Course(day, made.dough, made.process.dough_c, 0)


@pytest.mark.parametrize("room_c", [18.0, 22.0, 26.0])
def test_ways_on_rise_the_less_the_colder_they_are(room_c: float) -> None:
    day, course = course_of("sourdough_loaf", room_c)
    ways = {way.name: way for way in ways_on(day, course, 20.0, 8 * 60, 15.0)}
    assert {"fridge", "cool", "bench"} == set(ways)
    assert 20 <= ways["fridge"].risen_pct <= ways["cool"].risen_pct <= ways["bench"].risen_pct
    for way in ways.values():
        assert max(task.end for task in way.tasks) == way.ready_min
        assert min(task.at for task in way.tasks if task.hands_on) >= 8 * 60


def test_a_dough_further_on_is_further_on_in_the_morning() -> None:
    day, course = course_of("sourdough_loaf", 22.0)
    rises = [ways_on(day, course, risen, 8 * 60, 15.0)[0].risen_pct for risen in (5.0, 20.0, 40.0)]
    assert rises == sorted(rises)
