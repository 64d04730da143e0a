"""What is made before the mix: ripe when it is wanted, begun while somebody is there, made once for all."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.plan.aside import COLD_NOTE
from assistant.engine.plan.asked import Aside, Batch, Kitchen, Wish
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan, Task
from assistant.engine.plan.together import Part, Together, plan_together
from assistant.engine.rising import Dough
from tests.engine.test_plan import NIGHT, SATURDAY, batch, check_laws, trade

POOLISH = Aside(
    item="poolish", g=400, rows=(("flour_bread", 199.6), ("water", 200), ("yeast_instant", 0.1)),
    dough=Dough(100, yeast_fresh_pct=0.2), rise_pct=100, keeps_h=2, keeps_cold_h=12,
)  # fmt: skip
SOAKER = Aside(item="soaker", g=200, rows=(("grain", 100), ("water", 100)), low_h=4, usual_h=12, high_h=24)


def with_poolish(pieces: int = 20, *more: Aside) -> Batch:
    made = batch("crusty_roll", pieces, leaven_said=True)
    dough = replace(made.dough, starter_pct=0.0, yeast_fresh_pct=0.8)
    return replace(made, dough=dough, asides=(POOLISH, *more))


def asides(found: Plan) -> list[Task]:
    return [task for task in found.tasks if task.item]


@settings(max_examples=60)
@given(st.integers(14, 32), st.none() | st.integers(10, 20), st.integers(6, 60), st.booleans())
def test_everything_is_there_at_the_mix(room_c: int, night_c: int | None, hours: int, sleeps: bool) -> None:
    made = with_poolish(20, SOAKER)
    kitchen = Kitchen(room_c=float(room_c), night_c=None if night_c is None else float(night_c))
    busy = (NIGHT,) if sleeps else ()
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=hours), busy=busy)
    found = plan(made, kitchen, wish, trade())
    kept = found if isinstance(found, Plan) else found.nearest
    if kept is None:
        return
    check_laws(kept, made, kitchen, wish)
    mix = next(task for task in kept.tasks if task.step == "mix")
    poolish, soaker = (next(task for task in asides(kept) if task.item == item) for item in ("poolish", "soaker"))
    waits_h = (mix.at - poolish.end) / 60
    assert 0 <= waits_h <= (POOLISH.keeps_cold_h if poolish.note == COLD_NOTE else POOLISH.keeps_h)
    assert SOAKER.low_h <= (mix.at - soaker.at) / 60 <= SOAKER.high_h


def test_a_poolish_overnight_is_begun_in_the_evening() -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=34), busy=(NIGHT,))
    found = plan(with_poolish(), Kitchen(room_c=21), wish, trade())
    assert isinstance(found, Plan) and found.night_min == 0
    begun_h = 7.5 + asides(found)[0].at / 60
    assert 17 <= begun_h <= 22


def test_too_soon_for_the_poolish_is_refused_with_the_soonest() -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=5))
    found = plan(with_poolish(), Kitchen(room_c=21), wish, trade())
    assert isinstance(found, Miss) and found.limit == "late" and found.nearest is not None
    assert asides(found.nearest)


@pytest.mark.parametrize("hours", [30, 36, 50])
def test_one_poolish_is_made_for_two_doughs_mixed_about_together(hours: int) -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=hours), busy=(NIGHT,))
    parts = [Part(with_poolish(pieces), Kitchen(room_c=21), wish) for pieces in (12, 16)]
    found = plan_together(parts, trade())
    assert isinstance(found, Together)
    first, second = (asides(one)[0] for one in found.plans)
    assert (first.at, first.end) == (second.at, second.end)
