"""Starter builds: masses, ratios, hours, stages, and the pace of a culture."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.growth import Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.starter import Build, Culture, Habits, pace_of_culture, peak_holds_min, portions_g
from assistant.engine.starter_plan import plan_build
from assistant.engine.starter_wish import Wish

NOW_MIN = 7.5 * 60


def awake(minutes: float) -> bool:
    return 6.5 * 60 <= (NOW_MIN + minutes) % 1440 <= 23 * 60


def build(k: Kinetics, h: Habits, culture: Culture | None = None, **wish: float) -> Build:
    return plan_build(k, h, culture or Culture(), Wish(**({"temp_c": 22.0} | wish)), awake)


def test_a_named_ratio_is_kept(k: Kinetics, h: Habits) -> None:
    one = build(k, h, needed_g=220, flour_per_seed=5).feedings[0]
    assert one.ratio == pytest.approx((1, 5, 5))
    assert (one.seed_g, one.flour_g, one.water_g) == pytest.approx((20, 100, 100))
    assert one.start_min == 0
    assert 8 <= one.ripe_min / 60 <= 9.2
    assert one.ripe_min < one.past_min <= one.ripe_min + 150


def test_ripe_on_the_hour_and_fed_while_somebody_is_up(k: Kinetics, h: Habits) -> None:
    six_in_the_morning = 22.5 * 60
    plan = build(k, h, needed_g=200, ripe_min=six_in_the_morning)
    (one,) = plan.feedings
    assert one.total_g == pytest.approx(200)
    assert awake(one.start_min)
    assert one.ripe_min <= six_in_the_morning + 1
    assert one.past_min >= six_in_the_morning


def test_a_little_in_the_jar_is_enough_and_some_is_kept(k: Kinetics, h: Habits) -> None:
    noon_tomorrow = 28.5 * 60
    plan = build(k, h, needed_g=180, have_g=15, ripe_min=noon_tomorrow)
    assert plan.feedings[0].seed_g <= 15
    assert plan.keep_g == 20
    assert plan.feedings[-1].total_g == pytest.approx(200)
    assert plan.ripe_min <= noon_tomorrow + 1
    assert plan.feedings[-1].past_min >= noon_tomorrow - 1


def test_two_stages_when_the_jar_is_nearly_empty(k: Kinetics, h: Habits) -> None:
    plan = build(k, h, needed_g=400, have_g=5, ripe_min=48 * 60)
    first, second = plan.feedings
    assert first.seed_g == 5
    assert second.seed_g == pytest.approx(first.total_g)
    assert second.total_g == pytest.approx(420)
    assert first.ripe_min <= second.start_min + 1
    assert second.start_min <= first.past_min + 1
    assert second.ripe_min == pytest.approx(48 * 60, abs=1)


def test_two_stages_from_now_when_no_hour_is_named(k: Kinetics, h: Habits) -> None:
    first, second = build(k, h, needed_g=400, have_g=5).feedings
    assert first.start_min == 0
    assert second.start_min == first.ripe_min


def test_stiff_from_liquid(k: Kinetics, h: Habits) -> None:
    (one,) = build(k, h, needed_g=300, target_pct=50).feedings
    flour_g = one.flour_g + one.seed_g / 2
    water_g = one.water_g + one.seed_g / 2
    assert water_g / flour_g == pytest.approx(0.5)
    assert one.total_g == pytest.approx(300)


def test_cold_seed_is_fed_earlier(k: Kinetics, h: Habits) -> None:
    wish = {"needed_g": 200.0, "ripe_min": 20 * 60.0, "flour_per_seed": 3.0}
    assert build(k, h, Culture(cold=True), **wish).start_min < build(k, h, **wish).start_min - 60


def test_a_set_start_sets_the_ratio(k: Kinetics, h: Habits) -> None:
    short = build(k, h, needed_g=200, start_min=0, ripe_min=5 * 60).feedings[0]
    long = build(k, h, needed_g=200, start_min=0, ripe_min=10 * 60).feedings[0]
    assert short.ratio[1] < long.ratio[1]
    assert short.ripe_min <= 5 * 60 + 1
    assert long.ripe_min <= 10 * 60 + 1


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        ({"needed_g": 200, "ripe_min": 60}, "h at 22"),
        ({"needed_g": 200, "ripe_min": 180, "flour_per_seed": 5}, "1:5"),
        ({"needed_g": 300, "flour_per_seed": 5, "have_g": 10}, "10 g"),
        ({"needed_g": 300, "have_g": 0}, "no starter"),
        ({"needed_g": 0}, "no starter"),
        ({"needed_g": 5000, "have_g": 2}, "2500|2510"),
        ({"needed_g": 100, "temp_c": 1}, "three weeks"),
        ({"needed_g": 400, "have_g": 5, "ripe_min": 600}, "two feeds"),
    ],
)
def test_builds_that_cannot_be_are_refused(k: Kinetics, h: Habits, wish: dict[str, float], says: str) -> None:
    with pytest.raises(Refused) as refusal:
        build(k, h, **wish)
    assert any(part in refusal.value.why for part in says.split("|")), refusal.value.why
    assert refusal.value.nearest


def test_too_little_flour_for_a_stiff_starter_is_refused() -> None:
    with pytest.raises(Refused):
        portions_g(100, 0.3, 125, 50)


def test_pace_of_a_culture(k: Kinetics, h: Habits) -> None:
    pace = pace_of_culture(k, h, Culture(), (1, 1, 1), 24, 180)
    assert 1.05 <= pace <= 1.3
    quick = plan_build(k, h, Culture(pace=pace, timed=True), Wish(90, 24, flour_per_seed=1)).feedings[0]
    assert quick.ripe_min == pytest.approx(180, abs=0.5)
    with pytest.raises(Refused):
        pace_of_culture(k, h, Culture(), (1, 1, 1), 24, 30)
    with pytest.raises(Refused):
        pace_of_culture(k, h, Culture(), (1, 1, 1), 24, 1200)


def test_the_peak_is_shorter_when_warm_and_longer_when_stiff(h: Habits) -> None:
    assert peak_holds_min(h, 20, 100) == 120
    assert peak_holds_min(h, 28, 100) == 60
    assert peak_holds_min(h, 20, 50) == 180


@given(st.floats(20, 2000), st.floats(2, 15), st.floats(50, 125), st.floats(50, 125))
def test_portions_add_up_and_hit_the_hydration(
    total_g: float, flour_per_seed: float, seed_pct: float, target_pct: float
) -> None:
    seed_g, flour_g, water_g = portions_g(total_g, flour_per_seed, seed_pct, target_pct)
    seed_flour = seed_g / (1 + seed_pct / 100)
    assert math.isclose(seed_g + flour_g + water_g, total_g, rel_tol=1e-9)
    assert math.isclose((water_g + seed_g - seed_flour) / (flour_g + seed_flour), target_pct / 100, rel_tol=1e-9)


@given(st.floats(30, 1500), st.floats(17, 28), st.floats(240, 2600), st.one_of(st.none(), st.floats(3, 60)))
def test_a_build_makes_what_is_needed_in_time(
    k: Kinetics, h: Habits, needed_g: float, temp_c: float, ripe_min: float, have_g: float | None
) -> None:
    try:
        plan = plan_build(k, h, Culture(), Wish(needed_g, temp_c, ripe_min=ripe_min, have_g=have_g), awake)
    except Refused:
        return
    last = plan.feedings[-1]
    assert math.isclose(last.total_g, needed_g + plan.keep_g, rel_tol=1e-6)
    assert last.ripe_min <= ripe_min + 2
    assert last.past_min >= ripe_min - 1
    assert plan.start_min >= 0
    assert have_g is None or plan.feedings[0].seed_g <= have_g * (1 + 1e-9)
    assert all(feed.low_min <= feed.ripe_min - feed.start_min <= feed.high_min for feed in plan.feedings)
