"""Little starter in the jar: one larger feed, or two, make what the dough takes, each ripe before it is used."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from math import prod

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.plan.asked import Kitchen, Wish
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan
from tests.engine.test_plan import SATURDAY, batch, trade


@settings(max_examples=12)
@given(
    st.sampled_from(["ring_roll", "sourdough_loaf", "pan_loaf"]), st.integers(30, 60), st.floats(1.5, 300.0),
    st.sampled_from([50.0, 100.0]),
)  # fmt: skip
def test_the_jar_becomes_enough(bread: str, hours: int, multiply: float, hydration_pct: float) -> None:
    made = batch(bread, 12)
    made = replace(made, dough=replace(made.dough, starter_hydration_pct=hydration_pct))
    ready_by = SATURDAY + timedelta(hours=hours)
    wish = Wish(now=SATURDAY, ready_by=ready_by, starter="feed", multiply=multiply)
    found = plan(made, Kitchen(room_c=22.0), wish, trade())
    if not isinstance(found, Plan):
        return
    feeds = [task for task in found.tasks if task.step == "feed_starter"]
    times = [1 + (feed.ratio or 0) * (1 + hydration_pct / 100) for feed in feeds]
    assert prod(times) >= multiply * found.leaven_pct / made.dough.starter_pct - 1e-6
    assert len(feeds) == 1 or multiply > 1 + 10 * (1 + hydration_pct / 100)
    moments = [*(feed.at for feed in feeds), next(task.at for task in found.tasks if task.step in ("mix", "autolyse"))]
    for feed, used_at in zip(feeds, moments[1:], strict=True):
        assert feed.end <= used_at
    assert feeds[-1].share == 1
