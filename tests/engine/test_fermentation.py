"""Times against the trade, and laws every forecast keeps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.fermentation import (
    Dough,
    State,
    advance,
    forecast,
    minutes_to,
    minutes_to_ripe,
    mixed,
    refuse_if_deadly,
    rise_pct,
    shaped,
    starter_dough,
)
from assistant.engine.growth import Kinetics, sourdough_rate
from assistant.engine.refusal import Refused
from assistant.engine.temperature_path import Leg, Path, drifting, relaxing, steady


def peak_h(k: Kinetics, parts: float, temp_c: float) -> float:
    return minutes_to_ripe(k, starter_dough(1, parts, parts), steady(temp_c)) / 60


def bulk_h(k: Kinetics, temp_c: float, rise: float, **said: float) -> float:
    dough = Dough(**{"hydration_pct": 70.0, "salt_pct": 2.0, "starter_pct": 20.0} | said)
    return minutes_to(k, dough, steady(temp_c), rise) / 60


def yeasted_h(k: Kinetics, fresh_pct: float, temp_c: float, rise: float = 100.0, **said: float) -> float:
    dough = Dough(**{"hydration_pct": 65.0, "salt_pct": 2.0, "yeast_fresh_pct": fresh_pct} | said)
    return minutes_to(k, dough, steady(temp_c), rise) / 60


@pytest.mark.trade_window
@pytest.mark.parametrize(
    ("parts", "temp_c", "low_h", "high_h"),
    [
        (1, 20, 4, 6.5),
        (1, 24, 2.5, 4.5),
        (1, 27, 2, 4),
        (2, 20, 5, 9),
        (2, 24, 3.5, 6.5),
        (2, 27, 3, 5.5),
        (5, 20, 9, 14),
        (5, 24, 5.5, 10),
        (5, 27, 4.5, 8.5),
        (10, 20, 11, 17),
        (10, 22, 9.5, 12.5),
        (10, 24, 7, 12.5),
        (10, 27, 6, 11),
    ],
)
def test_starter_peaks(k: Kinetics, parts: float, temp_c: float, low_h: float, high_h: float) -> None:
    assert low_h <= peak_h(k, parts, temp_c) <= high_h


@pytest.mark.trade_window
@pytest.mark.parametrize(
    ("temp_c", "rise", "low_h", "high_h"),
    [(27, 30, 3, 5.5), (25, 50, 4.5, 6.5), (21, 75, 6.5, 11), (19, 100, 10, 15), (20, 100, 10, 15)],
)
def test_bulk_with_a_fifth_starter(k: Kinetics, temp_c: float, rise: float, low_h: float, high_h: float) -> None:
    assert low_h <= bulk_h(k, temp_c, rise, hydration_pct=71) <= high_h


@pytest.mark.regression
@pytest.mark.parametrize(
    ("temp_c", "hours"),
    [
        (18, (10.6, 12.3, 13.9, 15.3)),
        (21, (6.8, 7.8, 8.9, 9.7)),
        (24, (4.9, 5.7, 6.4, 7.0)),
        (27, (4.3, 4.9, 5.6, 6.1)),
    ],
)
def test_bulk_table(k: Kinetics, temp_c: float, hours: tuple[float, ...]) -> None:
    for rise, expected in zip((30, 50, 75, 100), hours, strict=True):
        assert abs(bulk_h(k, temp_c, rise) - expected) <= 0.2


@pytest.mark.regression
@pytest.mark.parametrize(
    ("parts", "hours"),
    [
        (1, (7.2, 5.3, 4.1, 3.4, 3.0)),
        (2, (10.3, 7.6, 5.9, 4.8, 4.2)),
        (5, (15.1, 11.1, 8.6, 7.0, 6.1)),
        (10, (19.1, 14.0, 10.8, 8.8, 7.6)),
    ],
)
def test_peak_table(k: Kinetics, parts: float, hours: tuple[float, ...]) -> None:
    for temp_c, expected in zip((18, 20, 22, 24, 27), hours, strict=True):
        assert abs(peak_h(k, parts, temp_c) - expected) <= 0.12


@pytest.mark.science
def test_doubling_the_starter_saves_one_doubling_not_half(k: Kinetics) -> None:
    for temp_c in (20, 24, 27):
        for share in (10, 20):
            factor = bulk_h(k, temp_c, 50, starter_pct=share) / bulk_h(k, temp_c, 50, starter_pct=2 * share)
            assert 1.2 <= factor <= 1.6
    for share, hours in ((10, 7.6), (20, 5.7), (40, 4.1)):
        assert abs(bulk_h(k, 24, 50, starter_pct=share) - hours) <= 0.15


@pytest.mark.trade_window
def test_salt_slows_a_little(k: Kinetics) -> None:
    assert 1.05 <= bulk_h(k, 24, 50) / bulk_h(k, 24, 50, salt_pct=0) <= 1.30


@pytest.mark.trade_window
def test_straight_dough_doubles_and_poolish_ripens(k: Kinetics) -> None:
    assert 1.3 <= yeasted_h(k, 2, 26.7) <= 2.3
    assert 11 <= yeasted_h(k, 0.2, 21, hydration_pct=100, salt_pct=0) <= 17


@pytest.mark.trade_window
def test_half_the_yeast_is_not_twice_the_time(k: Kinetics) -> None:
    assert 1.4 <= yeasted_h(k, 0.63, 26, salt_pct=0) / yeasted_h(k, 1.25, 26, salt_pct=0) <= 1.75


@pytest.mark.science
@pytest.mark.parametrize(("fresh_pct", "growth"), [(0.5, 1.88), (2.0, 1.29)])
def test_yeast_counted_after_six_hours(k: Kinetics, fresh_pct: float, growth: float) -> None:
    dough = Dough(65, 2, yeast_fresh_pct=fresh_pct)
    end = advance(k, dough, mixed(k, dough), steady(27), 360)
    assert math.isclose(end.yeast_pct / fresh_pct, growth, rel_tol=0.10)


@pytest.mark.regression
@pytest.mark.parametrize(
    ("temp_c", "hours"),
    [
        (24, (14, 9.1, 6.1, 4.2, 2.2, 1.5)),
        (21, (18, 11.6, 7.9, 5.5, 2.9, 2.0)),
        (27, (12, 7.5, 5.0, 3.4, 1.7, 1.2)),
    ],
)
def test_hours_to_double_with_fresh_yeast(k: Kinetics, temp_c: float, hours: tuple[float, ...]) -> None:
    for fresh_pct, expected in zip((0.1, 0.3, 0.6, 1, 2, 3), hours, strict=True):
        assert math.isclose(yeasted_h(k, fresh_pct, temp_c), expected, rel_tol=0.04)


@pytest.mark.regression
def test_a_warm_kilo_in_the_fridge_does_most_of_its_work_early(k: Kinetics) -> None:
    path = relaxing(24, 4, 2.7)

    def hours_at_24(until_h: float) -> float:
        total, left = 0.0, until_h * 60
        for piece in path.pieces():
            step = min(left, piece.minutes)
            total += step / 60 * (sourdough_rate(k, piece.early_c) + sourdough_rate(k, piece.late_c)) / 2
            left -= step
            if left <= 0:
                break
        return total / sourdough_rate(k, 24)

    assert 1.0 <= hours_at_24(12) <= 2.0
    assert hours_at_24(5) >= 0.7 * hours_at_24(12)


@pytest.mark.science
def test_thin_air_raises_sooner(k: Kinetics) -> None:
    """At 1600 m: linear gas (much yeast) gains most, a growing culture less, since its gas comes late."""
    for fresh_pct in (1, 2, 3):
        assert 0.70 <= yeasted_h(k, fresh_pct, 24, pressure_ratio=0.824) / yeasted_h(k, fresh_pct, 24) <= 0.90
    assert 0.88 <= bulk_h(k, 24, 100, pressure_ratio=0.824) / bulk_h(k, 24, 100) <= 0.95


@pytest.mark.trade_window
def test_the_final_proof_of_a_straight_dough(k: Kinetics) -> None:
    """About an hour to double again in a proofing box of 35 C, after 2 h of bulk."""
    dough = Dough(65, 2.4, yeast_fresh_pct=2.0, sugar_pct=4.8)
    bulk = advance(k, dough, mixed(k, dough), steady(26.7), 120)
    proof = minutes_to(k, dough, relaxing(27, 35, 1.0), 100, shaped(k, bulk))
    assert 40 <= proof <= 80


doughs = st.builds(
    Dough,
    hydration_pct=st.floats(48, 110),
    salt_pct=st.floats(0, 2.6),
    starter_pct=st.floats(3, 60),
    starter_hydration_pct=st.floats(50, 125),
    yeast_fresh_pct=st.sampled_from([0.0, 0.0, 0.3, 1.5]),
    sugar_pct=st.floats(0, 12),
    wholegrain_share=st.floats(0, 1),
    pace=st.floats(0.6, 1.5),
)
paths = st.builds(
    lambda dough_c, legs: Path(dough_c, legs),
    dough_c=st.floats(5, 38),
    legs=st.lists(
        st.builds(Leg, st.floats(20, 900), st.floats(2, 38), st.floats(2, 38), st.sampled_from([0.0, 0.5, 2.7, 5.0])),
        min_size=1,
        max_size=3,
    ).map(tuple),
)


@given(doughs, paths, st.floats(1, 2000), st.floats(0.01, 0.99))
def test_a_path_split_anywhere_ends_the_same(k: Kinetics, dough: Dough, path: Path, minutes: float, cut: float) -> None:
    whole = advance(k, dough, mixed(k, dough), path, minutes)
    half = advance(k, dough, mixed(k, dough), path, minutes * cut)
    parts = advance(k, dough, half, path, minutes * (1 - cut))
    for field in ("at_min", "culture", "acid", "yeast_pct", "gas"):
        assert math.isclose(getattr(whole, field), getattr(parts, field), rel_tol=3e-3, abs_tol=1e-5), field


@given(doughs, paths, st.floats(10, 150))
def test_after_the_time_forecast_the_rise_is_there(k: Kinetics, dough: Dough, path: Path, rise: float) -> None:
    minutes = minutes_to(k, dough, path, rise)
    if math.isfinite(minutes):
        end = advance(k, dough, mixed(k, dough), path, minutes)
        assert math.isclose(rise_pct(k, dough, end), rise, rel_tol=0.01, abs_tol=0.5)


@given(doughs, st.floats(4, 26), st.floats(0, 1))
def test_warmer_is_never_slower_up_to_the_best(k: Kinetics, dough: Dough, temp_c: float, more_c: float) -> None:
    assert minutes_to(k, dough, steady(temp_c + more_c), 75) <= minutes_to(k, dough, steady(temp_c), 75) + 1e-6


@given(doughs, st.floats(8, 40), st.floats(1, 2), st.floats(0, 20), st.floats(0, 1))
def test_more_starter_wetter_less_salt_are_never_slower(
    k: Kinetics, dough: Dough, temp_c: float, more: float, wetter: float, salt_kept: float
) -> None:
    def takes(**change: float) -> float:
        fields = {name: getattr(dough, name) for name in Dough.__slots__} | change
        return minutes_to(k, Dough(**fields), steady(temp_c), 60)

    now = takes()
    assert takes(starter_pct=dough.starter_pct * more) <= now + 1e-6
    assert takes(salt_pct=dough.salt_pct * salt_kept) <= now + 1e-6
    if dough.yeast_fresh_pct == 0:
        # With commercial yeast a wetter dough also has more volume to raise.
        assert takes(hydration_pct=dough.hydration_pct + wetter) <= now + 1e-6


@given(doughs, st.floats(28.1, 45))
def test_a_hot_kitchen_never_gets_a_longer_time_than_28(k: Kinetics, dough: Dough, temp_c: float) -> None:
    assert minutes_to(k, dough, steady(temp_c), 75) <= minutes_to(k, dough, steady(28), 75) + 1e-6


@given(doughs, paths)
def test_the_range_holds_the_forecast(k: Kinetics, dough: Dough, path: Path) -> None:
    seen = forecast(k, dough, path, 75)
    assert seen.low_min <= seen.minutes <= seen.high_min
    assert seen.sooner_min >= 0


def test_a_timed_culture_has_the_narrower_range(k: Kinetics) -> None:
    dough = Dough(70, 2, 20)
    known, unknown = forecast(k, dough, steady(24), 75, timed=True), forecast(k, dough, steady(24), 75)
    assert known.minutes == unknown.minutes
    assert unknown.low_min < known.low_min
    assert known.high_min < unknown.high_min
    assert 1.15 <= known.high_min / known.minutes <= 1.25
    assert forecast(k, dough, steady(34), 75).outside == "hot"
    assert forecast(k, dough, steady(9), 75).outside == "cold"
    assert known.outside is None


def test_one_degree_is_worth_most_of_an_hour_at_21(k: Kinetics) -> None:
    assert 40 <= forecast(k, Dough(70, 2, 20), steady(21), 75).sooner_min <= 90


def test_a_warm_dough_in_a_cool_room_lies_between_the_two(k: Kinetics) -> None:
    dough = Dough(70, 2, 20)
    warm, cool = minutes_to(k, dough, steady(26), 75), minutes_to(k, dough, steady(18), 75)
    between = minutes_to(k, dough, relaxing(26, 18, 2.7), 75)
    overnight = minutes_to(k, dough, drifting(21, 21, 15, 480, 2.7), 75)
    assert warm < between < cool
    assert minutes_to(k, dough, steady(21), 75) < overnight < minutes_to(k, dough, steady(15), 75)


def test_nothing_raises_a_dough_without_yeast(k: Kinetics) -> None:
    assert minutes_to(k, Dough(65, 2), steady(24), 50) == math.inf
    assert forecast(k, Dough(65, 2), steady(24), 50).high_min == math.inf


def test_a_ripe_starter_is_ripe_at_once(k: Kinetics) -> None:
    dough = starter_dough(1, 1, 1)
    ripe = State(0, 0, 1.0, 1.0, 0, 0, 1.0)
    assert minutes_to_ripe(k, dough, steady(22), ripe) == 0


def test_cold_seed_takes_longer(k: Kinetics) -> None:
    warm, cold = starter_dough(1, 2, 2), starter_dough(1, 2, 2, cold_seed=True)
    later = minutes_to_ripe(k, cold, steady(24)) - minutes_to_ripe(k, warm, steady(24))
    assert 60 <= later <= 180


@pytest.mark.parametrize("temp_c", [46, 75, 100, -1, -18])
def test_deadly_temperatures_are_refused(k: Kinetics, temp_c: float) -> None:
    with pytest.raises(Refused) as refusal:
        refuse_if_deadly(k, 22, temp_c)
    assert f"{temp_c:g} °C" in refusal.value.why
    assert refusal.value.nearest


@pytest.mark.parametrize("temp_c", [0, 4, 28, 45])
def test_temperatures_a_dough_survives_pass(k: Kinetics, temp_c: float) -> None:
    refuse_if_deadly(k, temp_c)


@pytest.mark.parametrize("fields", [{"hydration_pct": 0}, {"hydration_pct": 65, "salt_pct": -1}])
def test_a_dough_must_be_one(fields: dict[str, float]) -> None:
    with pytest.raises(ValueError):
        Dough(**fields)
