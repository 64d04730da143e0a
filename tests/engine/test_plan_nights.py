"""Cool nights and said starts: what a closer look finds is not refused, and a start that was said is kept."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import datetime, time, timedelta

import pytest

import assistant.engine.plan.day as day_module
from assistant.engine.plan.asked import EARLIEST_MIN, Batch, Kitchen, Trade, Wish
from assistant.engine.plan.clock import Busy
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan

Batches = Callable[[str, int], Batch]
SATURDAY = datetime(2026, 3, 14, 7, 30)
BREADS = ("ring_roll", "crusty_roll", "pan_loaf", "sourdough_loaf", "focaccia", "baguette")
ASLEEP = Busy(time(22), time(6), None, "asleep")


def cool_wishes(count: int, seed: int) -> list[tuple[str, int, Kitchen, Wish]]:
    dice = random.Random(seed)
    found = []
    for _ in range(count):
        kitchen = Kitchen(room_c=float(dice.randint(12, 26)), night_c=float(dice.randint(9, 18)))
        ready = (SATURDAY + timedelta(days=dice.randint(1, 2))).replace(hour=dice.randint(7, 19), minute=0)
        wish = Wish(now=SATURDAY, ready_by=ready, busy=(ASLEEP,), starter=dice.choice(("ripe", "feed", "either")))
        found.append((dice.choice(BREADS), dice.randint(2, 24), kitchen, wish))
    return found


def test_a_closer_look_at_the_hours_finds_no_plan_that_was_refused(
    monkeypatch: pytest.MonkeyPatch, trade: Trade, batch: Batches
) -> None:
    wishes = cool_wishes(30, seed=7)
    refused = [one for one in wishes if isinstance(plan(batch(one[0], one[1]), one[2], one[3], trade), Miss)]
    assert 3 <= len(refused) <= 27
    monkeypatch.setattr(day_module, "_COARSE_MIN", 15)
    for bread, pieces, kitchen, wish in refused:
        closer = plan(batch(bread, pieces), kitchen, wish, trade)
        assert isinstance(closer, Miss), f"{pieces} {bread} {kitchen} {wish.ready_by}"


@pytest.mark.parametrize("start_h", [0, 3, 7])
@pytest.mark.parametrize("bread", ["ring_roll", "pan_loaf", "crusty_roll"])
def test_a_first_step_with_an_hour_of_its_own_begins_then(
    bread: str, start_h: int, trade: Trade, batch: Batches
) -> None:
    start = SATURDAY + timedelta(hours=start_h)
    kept = 0
    for ready_h in (20, 26, 32):
        wish = Wish(
            now=SATURDAY, start_at=start, start_exact=True, ready_by=SATURDAY + timedelta(hours=ready_h), starter="ripe"
        )
        found = plan(batch(bread, 12), Kitchen(), wish, trade)
        if isinstance(found, Plan):
            kept += 1
            assert 0 <= found.start_min - 60 * start_h <= 20
            assert ready_h * 60 - EARLIEST_MIN <= found.ready_min <= ready_h * 60
    assert kept
