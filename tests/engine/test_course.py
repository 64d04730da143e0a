"""One course of time: whatever was told, everything read from it agrees, and nothing told later moves what is done."""

from __future__ import annotations

import math
from datetime import datetime, timedelta
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.course.asked import Asked, CourseOfTime
from assistant.engine.course.levers import EARLY_MIN, replanned
from assistant.engine.course.pace import fitted
from assistant.engine.course.run import course_of
from assistant.engine.course.told import Account, Mark, Reading, begun_anew, out_of_order
from assistant.engine.growth import kinetics
from assistant.engine.heat import heat_constants
from assistant.engine.plan.asked import Batch, Kitchen, Trade
from assistant.engine.plan.batches import usual_batch
from assistant.engine.plan.clock import Clock
from assistant.engine.rising import Dough
from knowledge import Knowledge, load
from knowledge.records.bench_work import BenchWork
from knowledge.records.kinetics import Kinetic
from knowledge.records.process import Process

SEVEN = datetime(2026, 3, 14, 7, 0)
STEPS = ("mix", "divide", "shape", "retard", "warm_up", "boil", "bake", "cool")


@cache
def known() -> Knowledge:
    return load()


@cache
def trade() -> Trade:
    records = known().all(Kinetic)
    return Trade(kinetics(records), heat_constants(records), known().all(BenchWork), records)


@cache
def batch(bread: str = "ring_roll", pieces: int = 18) -> Batch:
    process = next(one for one in known().all(Process).values() if bread in one.breads)
    return usual_batch(known().breads[bread], process, pieces=pieces, dough=Dough(58.0, 2.0, 20.0))


def asked(account: Account, room_c: float = 22.0, bread: str = "ring_roll") -> Asked:
    kitchen = Kitchen(room_c=room_c)
    return Asked(batch=batch(bread), kitchen=kitchen, trade=trade(), clock=Clock(SEVEN), account=account)


def marked(*steps: tuple[str, int]) -> Account:
    account = Account()
    for step, minute in steps:
        account = account.with_mark(Mark(step, SEVEN + timedelta(minutes=minute)))
    return account


@st.composite
def tellings(draw: st.DrawFn) -> tuple[Account, int]:
    """A bake told up to some step, some of its steps left out, with measurements; and the minute it is now."""
    last = draw(st.integers(0, len(STEPS) - 1))
    minute, account = 0, Account()
    for step in STEPS[: last + 1]:
        minute += draw(st.integers(5, 240))
        if step == STEPS[last] or draw(st.booleans()):
            account = account.with_mark(Mark(step, SEVEN + timedelta(minutes=minute)))
        for what, low, high in (("rise_pct", 0, 150), ("dough_c", 16, 32), ("room_c", 14, 30)):
            if draw(st.integers(0, 4)) == 0:
                value = float(draw(st.integers(low, high)))
                at = SEVEN + timedelta(minutes=minute + draw(st.integers(0, 60)))
                account = account.with_reading(Reading(what, value, at))  # type: ignore[arg-type]
    return account, minute + draw(st.integers(60, 300))


def agrees(course: CourseOfTime, now: datetime) -> None:
    """What is left, what is next and when it is ready say the same as the steps."""
    stands, minute = course.stands, course.clock.minutes(now)
    assert [task.at for task in course.tasks] == sorted(task.at for task in course.tasks)
    if stands.left_min is not None:
        assert stands.left_min >= 0
        ahead = [task for task in course.tasks if task.at > minute or task.end > minute]
        if stands.left_min > 0 and stands.next not in (None, "cool", "bake") and stands.stage != "boil":
            starts = [task.at for task in ahead if task.step not in ("preheat", "heat_pot", "fold")]
            assert any(math.isclose(minute + stands.left_min, start, abs_tol=1.0) for start in starts)
    if course.ready_min is not None:
        assert course.ready_min == max(task.end for task in course.tasks)


@settings(max_examples=25, deadline=None)
@given(tellings(), st.sampled_from(["ring_roll", "sourdough_loaf"]))
def test_whatever_was_told_all_of_it_agrees(told: tuple[Account, int], bread: str) -> None:
    account, minute = told
    now = SEVEN + timedelta(minutes=minute)
    agrees(course_of(asked(account, bread=bread), now), now)


@settings(max_examples=25, deadline=None)
@given(tellings(), st.floats(0.1, 2.0), st.integers(1, 120))
def test_what_is_told_later_leaves_what_is_done_where_it_was(
    told: tuple[Account, int], more: float, after: int
) -> None:
    account, minute = told
    now, later = SEVEN + timedelta(minutes=minute), SEVEN + timedelta(minutes=minute + after)
    before = course_of(asked(account), now)
    grown = account.with_reading(Reading("rise_pct", 100 * more, later)).with_reading(Reading("room_c", 27.0, later))
    begun = before.stands.since or now  # the stage under way is not done
    done = [task for task in before.tasks if task.end <= before.clock.minutes(begun)]
    still = course_of(asked(grown), later).tasks
    assert all(task in still for task in done if task.step in STEPS)
    same = course_of(asked(grown), now)
    assert (same.stands.since, same.stands.stage) == (before.stands.since, before.stands.stage)


@settings(max_examples=15, deadline=None)
@given(tellings(), st.integers(0, 40))
def test_a_stage_left_alone_ends_at_the_minute_it_was_said_to(told: tuple[Account, int], wait: int) -> None:
    account, minute = told
    now = SEVEN + timedelta(minutes=minute)
    first = course_of(asked(account), now).stands
    left = first.left_min
    if left is None or left <= wait + 1:
        return
    second = course_of(asked(account), now + timedelta(minutes=wait)).stands
    assert second.left_min is not None
    assert abs(left - wait - second.left_min) <= 1.5


def test_a_fast_rise_brings_everything_forward() -> None:
    now = SEVEN + timedelta(minutes=180)
    slow = course_of(asked(marked(("mix", 0))), now)
    told = marked(("mix", 0)).with_reading(Reading("rise_pct", 20.0, now))
    fast = course_of(asked(told), now)
    assert slow.stands.left_min is not None and fast.stands.left_min is not None
    assert fast.stands.left_min < slow.stands.left_min - 30
    assert fast.stands.rise_pct is not None and abs(fast.stands.rise_pct - 20) < 0.1
    assert fast.ready_min is not None and slow.ready_min is not None and fast.ready_min < slow.ready_min


def test_a_colder_kitchen_counts_from_its_hour() -> None:
    told = marked(("mix", 0))
    at = SEVEN + timedelta(minutes=120)
    colder = told.with_reading(Reading("room_c", 16.0, at))
    assert course_of(asked(colder), at).stands.rise_pct == course_of(asked(told), at).stands.rise_pct
    warm, cold = (course_of(asked(one), at).stands.left_min for one in (told, colder))
    assert warm is not None and cold is not None and cold > warm + 60


def test_a_step_before_the_one_it_follows_is_out_of_order() -> None:
    told = marked(("mix", 60))
    early = Mark("shape", SEVEN + timedelta(minutes=30))
    assert out_of_order(told, early) == told.marks[0]
    assert out_of_order(told, Mark("fold", SEVEN)) is None
    assert out_of_order(told, Mark("shape", SEVEN + timedelta(minutes=90))) is None


def test_a_new_bake_begins_a_new_account() -> None:
    told = marked(("mix", 0), ("shape", 300), ("bake", 400), ("cool", 430))
    assert begun_anew(told, Mark("mix", SEVEN + timedelta(days=1))) == Account()
    assert begun_anew(marked(("mix", 0)), Mark("shape", SEVEN + timedelta(minutes=400))) == marked(("mix", 0))


@settings(max_examples=10, deadline=None)
@given(st.integers(-120, 240))
def test_another_hour_moves_only_what_lies_ahead(shift: int) -> None:
    account = marked(("mix", 0), ("shape", 480), ("retard", 500))
    now = SEVEN + timedelta(minutes=900)
    before = course_of(asked(account), now)
    assert before.ready_min is not None
    target = before.ready_min + shift
    found = replanned(asked(account), now, target)
    minute = before.clock.minutes(now)
    done = [task for task in before.tasks if task.end <= minute]
    assert [task for task in found.course.tasks if task.end <= minute] == done
    assert found.course.ready_min is not None
    assert found.off_min != 0 or -EARLY_MIN <= found.course.ready_min - target <= 0
    agrees(found.course, now)


def test_a_pace_leans_on_the_model_until_it_is_seen_often() -> None:
    assert fitted([]).value == 1.0
    once, often = fitted([1.4]), fitted([1.4] * 8)
    assert 1.0 < once.value < often.value < 1.4
    assert (once.count, often.count) == (1, 8)
    assert fitted([0.01]).count == 0
