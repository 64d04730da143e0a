"""Several ways to one bread: each keeps the wish, no two alike, the one that moves least first."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.plan.asked import EARLIEST_MIN, Kitchen, Wish
from assistant.engine.plan.side_by_side import AHEAD, side_by_side
from tests.engine.test_plan import NIGHT, SATURDAY, batch, trade


@settings(max_examples=8)
@given(
    st.sampled_from(["ring_roll", "pan_loaf", "sourdough_loaf", "baguette"]), st.integers(2, 20), st.integers(18, 40)
)
def test_each_way_keeps_the_hour_its_own_way(bread: str, pieces: int, hours: int) -> None:
    wish = Wish(now=SATURDAY, ready_by=SATURDAY + timedelta(hours=hours), busy=(NIGHT,), starter="ripe")
    ways = side_by_side(batch(bread, pieces), Kitchen(room_c=21.0), wish, trade())
    assert len({way.name for way in ways}) == len(ways) <= 3
    for way in ways:
        assert hours * 60 - EARLIEST_MIN <= way.plan.ready_min <= hours * 60
        if way.name != AHEAD:
            assert way.plan.cold == way.name
    straight = [way.merit for way in ways if way.name != AHEAD]
    assert straight == sorted(straight)
