"""Thawing, cooling bread, water on the hob and the stay in a cold place, against what was worked out beside them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.cold_stay import LONGEST_H, cold_stay_h
from assistant.engine.fermentation import Dough, forecast, shaped
from assistant.engine.growth import kinetics
from assistant.engine.heat import cooling_tau_h, dough_heat, heat_constants, minutes_to_temp
from assistant.engine.temperature_path import steady
from assistant.engine.thawing import bread_cools, comes_to_the_boil, thaw_min
from knowledge import load
from knowledge.records.kinetics import Kinetic

RECORDS = load().all(Kinetic)
HEAT, K = heat_constants(RECORDS), kinetics(RECORDS)
DOUGH = Dough(70.0, 2.0, 20.0)
SHAPED = shaped(K, forecast(K, DOUGH, steady(24.0), 60.0).end)


def _stay(fridge_c: float, hours: float) -> float:
    tau_h = cooling_tau_h(HEAT, 800, dough_heat(HEAT, 70))
    return cold_stay_h(K, DOUGH, SHAPED, 24.0, tau_h, fridge_c, hours)


@pytest.mark.parametrize(
    ("mass_g", "air_c", "low_min", "high_min"),
    [(80, 22, 60, 120), (500, 22, 150, 300), (80, 4, 240, 600), (500, 4, 600, 1440)],
)
def test_frozen_dough_thaws_as_bakers_find(mass_g: float, air_c: float, low_min: float, high_min: float) -> None:
    """Trade practice: rolls an hour or two on the bench, half a kilo an afternoon, overnight in the fridge."""
    assert low_min <= thaw_min(HEAT, RECORDS, mass_g, 65.0, air_c) <= high_min


def test_nothing_thaws_in_air_at_the_freezing_point() -> None:
    assert math.isinf(thaw_min(HEAT, RECORDS, 80, 65.0, 0.0))


@given(st.floats(40, 2000), st.floats(4, 30))
def test_more_dough_and_colder_air_thaw_more_slowly(mass_g: float, air_c: float) -> None:
    one = thaw_min(HEAT, RECORDS, mass_g, 65.0, air_c)
    assert thaw_min(HEAT, RECORDS, mass_g * 1.5, 65.0, air_c) > one > thaw_min(HEAT, RECORDS, mass_g, 65.0, air_c + 3)


@pytest.mark.parametrize(("mass_g", "low_min", "high_min"), [(80, 15, 40), (500, 50, 90), (1000, 90, 150)])
def test_bread_cools_by_its_size(mass_g: float, low_min: float, high_min: float) -> None:
    seen = bread_cools(RECORDS, mass_g, 22.0)
    assert low_min <= seen.minutes <= high_min
    assert seen.low_min < seen.minutes < seen.high_min


@given(st.floats(50, 2000), st.floats(5, 34))
def test_a_warmer_kitchen_cools_bread_no_faster(mass_g: float, kitchen_c: float) -> None:
    assert bread_cools(RECORDS, mass_g, kitchen_c + 1).minutes >= bread_cools(RECORDS, mass_g, kitchen_c).minutes * 0.9


def test_six_litres_on_two_kilowatts() -> None:
    """(6 x 4.18 + 0.8) kJ per degree x 85 degrees = 2200 kJ; over 2 kW x 0.7 that is 1571 s."""
    seen = comes_to_the_boil(HEAT, RECORDS, 6000, 2.0, 15.0, 100.0)
    assert seen.minutes == pytest.approx(26.2, abs=0.1)


@given(st.floats(500, 20000), st.floats(0.5, 6))
def test_twice_the_power_takes_half_the_time(water_g: float, power_kw: float) -> None:
    one = comes_to_the_boil(HEAT, RECORDS, water_g, power_kw, 15.0, 100.0)
    twice = comes_to_the_boil(HEAT, RECORDS, water_g, 2 * power_kw, 15.0, 100.0)
    assert twice.minutes == pytest.approx(one.minutes / 2)


def test_the_usual_fridge_gives_the_usual_hours() -> None:
    assert _stay(4.0, 14) == pytest.approx(14, abs=0.1)


@given(st.floats(1, 9), st.floats(7, 48))
def test_a_warmer_fridge_never_keeps_dough_longer(fridge_c: float, hours: float) -> None:
    assert _stay(fridge_c + 1, hours) <= _stay(fridge_c, hours) + 0.01
    assert hours / 4.01 <= _stay(fridge_c, hours) <= LONGEST_H


@given(st.floats(100, 3000), st.floats(15, 28), st.floats(2, 8))
def test_chilling_and_warming_are_the_same_law(mass_g: float, warm_c: float, cold_c: float) -> None:
    """The way down from a gap to half of it takes as long as the way up."""
    tau_h = cooling_tau_h(HEAT, mass_g, 2.8)
    middle = (warm_c + cold_c) / 2
    down = minutes_to_temp(warm_c, cold_c, tau_h, middle)
    assert down == pytest.approx(minutes_to_temp(cold_c, warm_c, tau_h, middle))
