"""Plans: laws that hold for any request, and worked days."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from functools import cache
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.growth import kinetics
from assistant.engine.heat import heat_constants
from assistant.engine.plan.asked import EARLIEST_MIN, Batch, Kitchen, Trade, Wish
from assistant.engine.plan.batches import usual_batch
from assistant.engine.plan.clock import Busy, Clock, Spans
from assistant.engine.plan.limits import WARM_MOST_MIN
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan, Task
from assistant.engine.rising import Dough
from knowledge import Knowledge, load
from knowledge.records.bench_work import BenchWork
from knowledge.records.kinetics import Kinetic
from knowledge.records.process import Process

SATURDAY = datetime(2026, 3, 14, 7, 30)
NIGHT = Busy(time(22), time(6), None, "asleep")


@cache
def known() -> Knowledge:
    return load()


@cache
def trade() -> Trade:
    records = known().all(Kinetic)
    return Trade(kinetics(records), heat_constants(records), known().all(BenchWork), records)


@cache
def processes() -> dict[str, Process]:
    return {bread: process for process in known().all(Process).values() for bread in process.breads}


def batch(bread: str, pieces: int, **more: object) -> Batch:
    return usual_batch(known().breads[bread], processes()[bread], pieces=pieces, **more)  # type: ignore[arg-type]


def of(found: Plan | Miss, step: str) -> list[Task]:
    assert isinstance(found, Plan)
    return [task for task in found.tasks if task.step == step]


def check_laws(found: Plan, made: Batch, kitchen: Kitchen, wish: Wish) -> None:
    """What every plan keeps, refused wishes' nearest plans included (but for the hour)."""
    clock = Clock(wish.now)
    busy = clock.spans(wish.busy)
    tasks = found.tasks
    assert [task.at for task in tasks] == sorted(task.at for task in tasks)
    assert tasks[0].at >= 0
    for task in tasks:
        assert task.minutes > 0
        if task.hands_on:
            assert not busy.touches(task.at, task.end), f"{task.step} in busy hours"
        else:
            assert not busy.touches(task.at, task.at + 1), f"{task.step} begun in busy hours"
    first = {step: min(task.at for task in tasks if task.step == step) for step in {task.step for task in tasks}}
    order = ["mix", "knead", "bulk", "divide", "preshape", "shape", "boil", "score", "bake", "cool"]
    known_steps = [first[step] for step in order if step in first]
    assert known_steps == sorted(known_steps)
    for fold in of(found, "fold"):
        assert any(bulk.at <= fold.at and fold.end <= bulk.end for bulk in of(found, "bulk"))
    for feed in of(found, "feed_starter"):
        assert feed.end <= first["mix"]
    oven_at = min(task.at for task in tasks if task.step == "bake")
    raised = [task for task in tasks if task.step in ("proof", "warm_up", "retard")]
    turns = of(found, "boil") or of(found, "score") or of(found, "bake")
    assert all(one.end <= turns[max(one.load, 1) - 1].at for one in raised)
    for shape in (task for task in of(found, "shape") if task.load):
        own = next(one for one in raised if one.load == shape.load)
        assert shape.end == own.at and own.end == turns[shape.load - 1].at and shape.end <= turns[0].at
        assert own.pieces == shape.pieces == of(found, "bake")[shape.load - 1].pieces
    shapes = of(found, "shape")
    assert all(earlier.end <= later.at for earlier, later in pairwise(shapes))
    assert sum(shape.pieces or 0 for shape in shapes) == made.pieces
    if "boil" in first:
        assert of(found, "heat_pot")[0].end == first["boil"]
        boils, bakes = of(found, "boil"), of(found, "bake")
        assert all(boil.end == bake.at for boil, bake in zip(boils, bakes, strict=True))
    assert of(found, "preheat")[0].end == oven_at
    bakes = of(found, "bake")
    assert sum(bake.pieces or 0 for bake in bakes) == made.pieces
    assert all((bake.pieces or 0) <= kitchen.oven_pieces for bake in bakes)
    assert all(later.at >= earlier.end for earlier, later in pairwise(bakes))
    assert found.ready_min == max(task.end for task in tasks)
    if made.perishable:
        assert found.warm_min <= WARM_MOST_MIN


breads = st.sampled_from(
    ["ring_roll", "crusty_roll", "soft_roll", "pan_loaf", "sourdough_loaf", "focaccia", "high_rye", "pita", "brioche",
     "cinnamon_bun", "baguette", "country_loaf", "flour_tortilla"]
)  # fmt: skip
windows = st.builds(
    Busy,
    st.integers(0, 23).map(time),
    st.integers(0, 23).map(lambda hour: time(hour, 30)),
    st.none() | st.integers(0, 2).map(lambda day: (SATURDAY + timedelta(days=day)).date()),
)
kitchens = st.builds(
    Kitchen,
    room_c=st.integers(9, 32).map(float),
    night_c=st.none() | st.integers(9, 25).map(float),
    oven_pieces=st.integers(4, 24),
    pot_pieces=st.integers(3, 8),
)


@settings(max_examples=300)
@given(
    breads, st.integers(1, 30), kitchens, st.integers(1, 72), st.lists(windows, max_size=2), st.booleans(),
    st.sampled_from(["ripe", "feed", "either"]), st.sampled_from([None, None, "none", "shaped", "bulk"]),
)  # fmt: skip
def test_every_limit_is_kept_or_refused_with_the_nearest(
    bread: str,
    pieces: int,
    kitchen: Kitchen,
    hours: int,
    busy: list[Busy],
    sleeps: bool,
    starter: str,
    cold: str | None,
) -> None:
    made = batch(bread, pieces)
    if cold is not None and cold != "none" and cold not in made.process.retard_where:
        cold = None
    wish = Wish(
        now=SATURDAY,
        ready_by=SATURDAY + timedelta(hours=hours),
        busy=(*busy, NIGHT) if sleeps else tuple(busy),
        starter=starter,  # type: ignore[arg-type]
        cold=cold,  # type: ignore[arg-type]
    )
    found = plan(made, kitchen, wish, trade())
    if isinstance(found, Plan):
        check_laws(found, made, kitchen, wish)
        assert hours * 60 - EARLIEST_MIN <= found.ready_min <= hours * 60
        assert any(task.step == "retard" for task in found.tasks) == (found.cold != "none")
        assert cold is None or found.cold == cold
        if starter == "feed" and made.sourdough:
            assert of(found, "feed_starter")
        return
    assert found.limit in ("late", "early", "warm", "never", "taken")
    if found.nearest is not None:
        check_laws(found.nearest, made, kitchen, wish)
        off = found.nearest.ready_min - hours * 60
        if found.limit == "late":
            assert off == found.minutes > 0
        if found.limit == "early":
            assert -off - EARLIEST_MIN == found.minutes > 0


def test_rings_for_sunday_morning() -> None:
    made = batch("ring_roll", 24, leaven_said=True, dough=Dough(hydration_pct=56, salt_pct=1.9, starter_pct=20))
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 15, 9), busy=(NIGHT,), cold="some")
    found = plan(made, Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    assert {move.lever for move in found.moves} <= {"feed"} and found.night_min == 0
    retard, boil = of(found, "retard")[0], of(found, "boil")[0]
    assert retard.minutes >= 7 * 60 and boil.at >= retard.end
    assert Clock(SATURDAY).local(found.ready_min) == datetime(2026, 3, 15, 9)


def test_a_cooler_kitchen_starts_sooner() -> None:
    made = batch("ring_roll", 24, leaven_said=True)
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 15, 20), busy=(NIGHT,), cold="none", starter="ripe")
    starts = []
    for room_c in (25.0, 22.0, 20.0):
        found = plan(made, Kitchen(room_c=room_c), wish, trade())
        assert isinstance(found, Plan)
        starts.append(found.start_min)
    assert starts == sorted(starts, reverse=True)


def test_starting_now_with_a_ripe_starter_mixes_at_once() -> None:
    wish = Wish(now=SATURDAY, start_at=SATURDAY, start_exact=True, starter="ripe", ripe_at=SATURDAY)
    found = plan(batch("sourdough_loaf", 2), Kitchen(room_c=24), wish, trade())
    assert isinstance(found, Plan)
    assert found.tasks[0].step == "mix" and found.start_min == 0
    assert 240 < found.ready_min < 1800


def test_a_ripe_starter_is_used_while_it_is() -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=30), starter="ripe", ripe_at=SATURDAY)
    found = plan(batch("sourdough_loaf", 2, leaven_said=True), Kitchen(room_c=22), wish, trade())
    assert isinstance(found, Plan)
    assert of(found, "mix")[0].at <= 90 or of(found, "feed_starter")


def test_too_soon_is_refused_with_the_soonest() -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=4))
    found = plan(batch("crusty_roll", 20), Kitchen(room_c=23), wish, trade())
    assert isinstance(found, Miss) and found.limit == "late" and found.nearest is not None
    assert found.nearest.ready_min == 240 + found.minutes


def test_an_hour_gone_by_is_refused() -> None:
    found = plan(batch("crusty_roll", 20), Kitchen(), Wish(now=SATURDAY, ready_by=datetime(2026, 3, 14, 7)), trade())
    assert found == Miss("past", 30, None)


def test_what_lies_nearest_and_in_time_is_no_miss() -> None:
    kitchen = Kitchen(room_c=13, night_c=9, oven_pieces=4, pot_pieces=3)
    for hours in (32, 33, 34, 35, 37, 39):
        deadline = hours * 60
        wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=hours), starter="ripe", cold="bulk")
        found = plan(batch("ring_roll", 7), kitchen, wish, trade())
        ready_min = found.ready_min if isinstance(found, Plan) else found.nearest.ready_min  # type: ignore[union-attr]
        assert (deadline - EARLIEST_MIN <= ready_min <= deadline) == isinstance(found, Plan)


def test_a_cool_kitchen_that_can_be_ready_by_an_hour_can_be_ready_an_hour_later() -> None:
    kitchen = Kitchen(room_c=13, night_c=9, oven_pieces=4, pot_pieces=3)
    kept = []
    for hours in range(31, 40):
        wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=hours), starter="ripe", cold="bulk")
        kept.append(isinstance(plan(batch("ring_roll", 7), kitchen, wish, trade()), Plan))
    assert kept == sorted(kept) and kept[-1]


def test_hours_all_taken_leave_no_room() -> None:
    always = (Busy(time(6), time(18)), Busy(time(18), time(6)))
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 15, 9), busy=always)
    assert plan(batch("ring_roll", 24), Kitchen(), wish, trade()) == Miss("taken", 0, None)


def test_nobody_is_woken_months_ahead() -> None:
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 5, 16, 9), busy=(NIGHT,))
    found = plan(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan) and found.night_min == 0
    check_laws(found, batch("ring_roll", 24), Kitchen(), wish)
    clock = Clock(SATURDAY)
    assert all(6 <= clock.local(task.at).hour < 22 for task in found.tasks if task.hands_on)


def test_rye_rests_until_it_may_be_cut() -> None:
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 16, 9), busy=(NIGHT,))
    found = plan(batch("high_rye", 2), Kitchen(), wish, trade())
    assert of(found, "cool")[0].minutes >= 24 * 60


def test_a_rich_dough_left_to_its_starter_alone_is_refused_and_yeast_beside_it_offered() -> None:
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 15, 12), busy=(NIGHT,))
    found = plan(batch("cinnamon_bun", 12, leaven_said=True), Kitchen(), wish, trade())
    assert isinstance(found, Miss) and found.limit == "warm" and found.nearest is not None
    assert [move.lever for move in found.nearest.moves].count("yeast") == 1
    free = plan(batch("cinnamon_bun", 12), Kitchen(), wish, trade())
    assert isinstance(free, Plan) and free.warm_min <= 240


def test_cold_twice_spends_two_stretches_in_the_fridge() -> None:
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 17, 19), busy=(NIGHT,), cold="both")
    found = plan(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    assert len(of(found, "retard")) == 2
    assert sum(task.minutes for task in of(found, "retard")) == found.cold_min


@pytest.mark.parametrize("cold_h", [8.0, 16.0, 24.0])
def test_a_said_length_of_cold_is_kept(cold_h: float) -> None:
    wish = Wish(now=SATURDAY, ready_by=datetime(2026, 3, 16, 10), busy=(NIGHT,), cold="shaped", cold_h=cold_h)
    found = plan(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    assert abs(found.cold_min - cold_h * 60) <= 75


def test_the_night_the_clocks_change_has_an_hour_less() -> None:
    spring = Clock(datetime(2026, 3, 28, 20, tzinfo=ZoneInfo("Europe/London")))
    assert spring.minutes(datetime(2026, 3, 29, 8)) == 11 * 60
    assert spring.local(11 * 60) == datetime(2026, 3, 29, 8)
    autumn = Clock(datetime(2026, 10, 24, 20, tzinfo=ZoneInfo("Europe/London")))
    assert autumn.minutes(datetime(2026, 10, 25, 8)) == 13 * 60
    assert Clock(datetime(2026, 3, 28, 20)).minutes(datetime(2026, 3, 29, 8)) == 12 * 60


def test_a_plan_over_the_change_is_ready_at_the_hour_on_the_wall() -> None:
    now = datetime(2026, 3, 28, 8, tzinfo=ZoneInfo("Europe/London"))
    wish = Wish(now=now, ready_by=datetime(2026, 3, 29, 12), busy=(NIGHT,), cold="shaped")
    found = plan(batch("ring_roll", 24), Kitchen(), wish, trade())
    assert isinstance(found, Plan)
    assert timedelta() <= datetime(2026, 3, 29, 12) - Clock(now).local(found.ready_min) <= timedelta(minutes=45)


def test_windows_over_midnight_and_on_one_day() -> None:
    clock = Clock(datetime(2026, 3, 14, 23))
    spans = clock.spans((NIGHT, Busy(time(9), time(12, 30), datetime(2026, 3, 16).date(), "out")))
    assert spans.touches(0, 1)
    assert not spans.touches(7 * 60, 8 * 60)
    assert spans.touches((24 + 10) * 60, (24 + 10) * 60 + 1)
    assert not spans.touches((24 + 13.5) * 60, (24 + 14) * 60)


@given(st.lists(st.tuples(st.integers(0, 500), st.integers(1, 80))), st.integers(0, 600), st.integers(1, 60))
def test_spans_say_what_the_plain_list_says(pairs: list[tuple[int, int]], start: int, length: int) -> None:
    spans = Spans.of((begin, begin + minutes) for begin, minutes in pairs)
    taken = {minute for begin, minutes in pairs for minute in range(begin, begin + minutes)}
    asked = set(range(start, start + length))
    assert spans.overlap(start, start + length) == len(taken & asked)
    assert spans.touches(start, start + length) == bool(taken & asked)


def test_what_is_granted_for_fewer_hours_is_granted_for_more_in_a_warmer_place_or_kept() -> None:
    asleep = (Busy(time(22), time(6), None, "asleep"), Busy(time(9), time(17), SATURDAY.date(), "out"))
    kept = []
    for hours in range(24, 30):
        wish = Wish(now=SATURDAY.replace(hour=8, minute=0), ready_by=SATURDAY + timedelta(hours=hours + 1), busy=asleep)
        kept.append(isinstance(plan(batch("sourdough_loaf", 12), Kitchen(room_c=20), wish, trade()), Plan))
    assert kept == sorted(kept) and kept[-1]
