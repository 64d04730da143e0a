"""Several doughs on one clock: hands, oven, pot and fridge are never taken twice, and each dough keeps its own."""

from __future__ import annotations

from datetime import datetime, timedelta
from datetime import time as clock
from itertools import combinations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from assistant.engine.plan.asked import Kitchen, Trade, Wish
from assistant.engine.plan.batches import usual_batch
from assistant.engine.plan.clock import Busy, Clock
from assistant.engine.plan.fridge import fridge_share
from assistant.engine.plan.shared import SAME_OVEN_C
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.together import NotTogether, Part, Together, plan_together
from knowledge import Knowledge, load
from knowledge.records.process import Process

NOW = datetime(2026, 3, 14, 7, 30)
NIGHT = Busy(clock(22), clock(6), None, "asleep")
BREADS = ("ring_roll", "crusty_roll", "soft_roll", "pan_loaf", "sourdough_loaf", "rye_wheat", "focaccia", "baguette")
ORDER = ("mix", "knead", "divide", "preshape", "bench_rest", "shape", "bake", "cool")
EARLIEST = timedelta(minutes=45)


@pytest.fixture(scope="session")
def kb() -> Knowledge:
    return load()


def part(
    bread: str, pieces: int, ready: datetime, kb: Knowledge, *, room_c: float = 21.0, fridge_pieces: int | None = None
) -> Part:
    """A dough in a kitchen with an oven of two trays of 12 and a pot that takes 5."""
    process = next(one for one in kb.all(Process).values() if bread in one.breads)
    batch = usual_batch(kb.breads[bread], process, pieces=pieces)
    oven = 24 if batch.piece_g < 350 else 4
    kitchen = Kitchen(room_c=room_c, oven_pieces=oven, pot_pieces=5, fridge_pieces=fridge_pieces)
    return Part(batch, kitchen, Wish(now=NOW, ready_by=ready, busy=(NIGHT,)))


def check(found: Together, parts: list[Part]) -> None:
    """Every law of a plan of several doughs."""
    busy = Clock(NOW).spans((NIGHT,), 4000)
    steps = [(place, task) for place, one in enumerate(found.plans) for task in one.tasks]
    hands = [(place, task) for place, task in steps if task.hands_on]
    for (one, first), (other, second) in combinations(hands, 2):
        if one == other or {first.step, second.step} <= {"boil", "bake"}:
            continue
        assert first.end <= second.at or second.end <= first.at, (first, second)
    for _, task in hands:
        assert not busy.touches(task.at, task.end), task
    for _, task in steps:
        assert not busy.touches(task.at, task.at + 1), task
    for step in ("boil", "bake"):
        for (one, first), (other, second) in combinations([pair for pair in steps if pair[1].step == step], 2):
            if one == other or first.end <= second.at or second.end <= first.at:
                continue
            assert step == "bake" and abs((first.temp_c or 0) - (second.temp_c or 0)) <= SAME_OVEN_C, (first, second)
            full = sum((t.pieces or 0) / parts[p].kitchen.oven_pieces for p, t in ((one, first), (other, second)))
            assert full <= 1.0 + 1e-9
    for one, part_ in zip(found.plans, parts, strict=True):
        kept_by_one(one, part_)
    for minute in sorted({task.at for _, task in steps if task.step == "retard"}):
        chilled = [place for place, task in steps if task.step == "retard" and task.at <= minute < task.end]
        share = sum(fridge_share(parts[p].batch, parts[p].kitchen, found.plans[p].cold) for p in chilled)
        assert share <= 1.0 + 1e-9


def kept_by_one(one: Plan, its: Part) -> None:
    """The dough's own order, pieces and hour."""
    firsts = [next(task.at for task in one.tasks if task.step == step) for step in ORDER if one.first(step) is not None]
    assert firsts == sorted(firsts)
    assert sum(task.pieces or 0 for task in one.tasks if task.step == "bake") == its.batch.pieces
    assert its.wish.ready_by is not None
    assert NOW + timedelta(minutes=one.ready_min) <= its.wish.ready_by
    assert one.start_min >= 0


@settings(max_examples=8, deadline=None, derandomize=True, phases=(Phase.explicit, Phase.generate))
@given(
    st.lists(st.tuples(st.sampled_from(BREADS), st.integers(1, 30)), min_size=2, max_size=3),
    st.integers(8, 20), st.integers(1, 2), st.sampled_from((16.0, 21.0, 26.0)), st.sampled_from((None, 30, 48)),
)  # fmt: skip
def test_nothing_is_taken_twice(
    kb: Knowledge, trade: Trade, doughs: list[tuple[str, int]], hour: int, days: int, room_c: float, fridge: int | None
) -> None:
    ready = (NOW + timedelta(days=days)).replace(hour=hour, minute=0)
    parts = [part(bread, pieces, ready, kb, room_c=room_c, fridge_pieces=fridge) for bread, pieces in doughs]
    found = plan_together(parts, trade)
    if isinstance(found, Together):
        check(found, parts)
        assert NOW + timedelta(minutes=found.ready_min) >= ready - EARLIEST
    else:
        assert isinstance(found, NotTogether)
        assert 0 <= found.place < len(parts)


def test_each_dough_has_its_own_hour(kb: Knowledge, trade: Trade) -> None:
    parts = [
        part("ring_roll", 24, datetime(2026, 3, 15, 8), kb),
        part("rye_wheat", 1, datetime(2026, 3, 15, 11), kb),
    ]
    found = plan_together(parts, trade)
    assert isinstance(found, Together)
    check(found, parts)
    for one, its in zip(found.plans, parts, strict=True):
        assert its.wish.ready_by is not None
        assert NOW + timedelta(minutes=one.ready_min) >= its.wish.ready_by - EARLIEST


def test_one_starter_is_built_for_doughs_mixed_within_the_hour(kb: Knowledge, trade: Trade) -> None:
    ready = datetime(2026, 3, 15, 12)
    found = plan_together([part("crusty_roll", 12, ready, kb), part("soft_roll", 12, ready, kb)], trade)
    assert isinstance(found, Together)
    feeds = {(t.at, t.end) for one in found.plans for t in one.tasks if t.step == "feed_starter"}
    assert len(feeds) == 1


def test_the_oven_is_heated_once_for_bakes_that_follow_on_each_other(kb: Knowledge, trade: Trade) -> None:
    ready = datetime(2026, 3, 15, 9)
    found = plan_together([part("ring_roll", 24, ready, kb), part("pan_loaf", 2, ready, kb)], trade)
    assert isinstance(found, Together)
    bakes = sorted((t.at, t.end, t.temp_c or 0) for one in found.plans for t in one.tasks if t.step == "bake")
    heats = sorted((t.at, t.end) for one in found.plans for t in one.tasks if t.step == "preheat")
    for start, _ in heats:
        assert not any(at < start < end for at, end, _ in bakes)


def test_a_full_fridge_is_never_overfilled(kb: Knowledge, trade: Trade) -> None:
    ready = datetime(2026, 3, 15, 9)
    parts = [part("ring_roll", 24, ready, kb, fridge_pieces=24), part("crusty_roll", 24, ready, kb, fridge_pieces=24)]
    found = plan_together(parts, trade)
    if isinstance(found, Together):
        check(found, parts)
    else:
        assert found.alone
