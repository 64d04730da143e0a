"""The plan drawn in characters."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from assistant.voice.timeline import Bar, Lane, drawn, timeline, timelines

BEGIN = datetime(2026, 3, 14, 8)
STEPS = ("feed_starter", "mix", "bulk", "shape", "retard", "proof", "preheat", "boil", "bake", "cool")


def bar(step: str, start: float, end: float) -> Bar:
    return Bar(step, BEGIN + timedelta(minutes=start), BEGIN + timedelta(minutes=end))


def test_a_day_at_forty_columns() -> None:
    bars = [
        bar("mix", 0, 30), bar("bulk", 30, 360), bar("shape", 360, 420), bar("retard", 420, 1140),
        bar("preheat", 1110, 1140), bar("bake", 1140, 1200), bar("cool", 1200, 1260),
    ]  # fmt: skip
    assert timeline(bars, 40) == [
        "        08    12    16    20    00    04",
        "dough   ---------",
        "hands   #        #",
        "fridge            ~~~~~~~~~~~~~~~~~~",
        "heat                                :",
        "oven                                ==",
        "rack                                  ..",
    ]


spans = st.tuples(st.sampled_from(STEPS), st.integers(0, 3000), st.integers(1, 900))


@given(st.lists(spans, min_size=1, max_size=12), st.sampled_from([24, 40, 60, 100, 160]))
def test_every_step_shows_and_no_line_is_too_wide(rows: list[tuple[str, int, int]], width: int) -> None:
    lines = timeline([bar(step, start, start + minutes) for step, start, minutes in rows], width)
    assert all(len(line) <= width for line in lines)
    kinds = {"feed_starter": "starter", "mix": "hands", "bulk": "dough", "shape": "hands", "retard": "fridge"}
    shown = {line.split(" ")[0] for line in lines[1:]}
    assert {kinds[step] for step, _, _ in rows if step in kinds} <= shown
    assert all(line[8:].strip() for line in lines[1:])


def test_nothing_is_drawn_of_nothing() -> None:
    assert timeline([], 40) == []


def test_several_doughs_share_one_scale_and_the_hands() -> None:
    first = [bar("mix", 0, 30), bar("bulk", 30, 240), bar("bake", 240, 270)]
    second = [bar("mix", 60, 90), bar("bulk", 90, 300), bar("bake", 300, 360)]
    assert timelines([("24 rings", first), ("rye tins", second)], 45) == [
        "         08    09    10    11    12    13",
        "24 rings ###---------------------===",
        "rye tins       ###---------------------======",
        "hands    ###   ###",
        "oven                             ===   ======",
        "# hands  - rises  ~ fridge  = oven",
    ]


def test_less_than_an_hour_is_told_in_minutes() -> None:
    spans = tuple(
        (BEGIN + timedelta(minutes=at), BEGIN + timedelta(minutes=at + 8), sign) for at, sign in ((0, "1"), (20, "2"))
    )
    scale, pot = drawn([Lane("pot", spans)], 48)
    assert scale.split() == ["08:00", "08:10", "08:20"]
    assert pot.startswith("pot     1") and pot.endswith("2")
