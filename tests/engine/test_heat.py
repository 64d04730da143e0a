"""Heat: water temperature, ice, cooling, boiling point, and what is mixed from two taps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.altitude import boiling_point_c, core_limit_c, pressure_ratio
from assistant.engine.heat import (
    Heat,
    Warm,
    balance_dough_c,
    balance_water_c,
    cooling_tau_h,
    dough_heat,
    ice_g,
    minutes_to_temp,
    rise_measured_c,
    rule_water_c,
    specific_heat,
    tap_and_kettle_g,
    water_needed,
)
from assistant.engine.temperature_path import Leg, Path, relaxing, steady
from knowledge.records.kinetics import Kinetic


@pytest.mark.science
@pytest.mark.parametrize(
    ("altitude_m", "boils_c", "tolerance_c"),
    [
        (0, 100.0, 0.1),
        (500, 98.31, 0.1),
        (1000, 96.65, 0.1),
        (1600, 94.65, 0.15),
        (2500, 91.64, 0.1),
        (3000, 90.0, 0.2),
    ],
)
def test_boiling_point(records: dict[str, Kinetic], altitude_m: float, boils_c: float, tolerance_c: float) -> None:
    assert abs(boiling_point_c(records, altitude_m) - boils_c) <= tolerance_c
    assert math.isclose(core_limit_c(records, altitude_m), boiling_point_c(records, altitude_m) - 2)


@pytest.mark.science
def test_gas_goes_further_in_thin_air(records: dict[str, Kinetic]) -> None:
    assert abs(pressure_ratio(records, 1600) - 0.824) <= 0.005
    assert pressure_ratio(records, 0) == 1


def flour_and_salt(heat: Heat, flour_g: float, salt_g: float, temp_c: float) -> list[Warm]:
    return [Warm(flour_g, temp_c, heat.capacity["flour"]), Warm(salt_g, temp_c, heat.capacity["salt"])]


@pytest.mark.science
def test_balance_and_rule_agree_near_room_temperature(heat: Heat) -> None:
    others = flour_and_salt(heat, 1000, 20, 21)
    assert abs(balance_water_c(heat, 25, 4, 650, others) - 21.0) <= 0.3
    assert rule_water_c(25, 22, 21, 12) == 20
    assert abs(balance_dough_c(heat, 20, 4, 650, others) - 24.4) <= 0.1


@pytest.mark.science
def test_a_starter_from_the_fridge_is_where_the_rule_fails(heat: Heat) -> None:
    starter = specific_heat(heat, {"flour": 100, "water": 100})
    others = [*flour_and_salt(heat, 900, 20, 20), Warm(200, 5, starter)]
    needed = water_needed(
        heat, 25, 3, 550, others, room_c=20, flour_c=20, preferment_c=5, tap_c=None, dissolves_starter=False
    )
    assert abs(needed.need_c - 27.9) <= 0.7
    assert needed.rule_c == 43
    assert needed.water_c == needed.need_c
    assert abs(needed.rule_dough_c - 32.6) <= 0.5
    assert needed.ice_g == 0 and needed.limit is None
    warm = [*flour_and_salt(heat, 900, 20, 20), Warm(200, 26, starter)]
    assert abs(balance_water_c(heat, 25, 3, 550, warm) - 22.4) <= 0.3
    assert rule_water_c(25, 20, 20, 12, 26) == 22


@pytest.mark.science
def test_hot_flour_and_stiff_dough(heat: Heat) -> None:
    assert abs(balance_water_c(heat, 25, 6, 650, flour_and_salt(heat, 1000, 20, 30)) - 11.4) <= 0.3
    assert rule_water_c(25, 30, 30, 18) == -3
    assert abs(balance_water_c(heat, 25, 8, 570, flour_and_salt(heat, 1000, 20, 22)) - 13.1) <= 0.3


@pytest.mark.science
def test_ice_is_part_of_the_water(heat: Heat) -> None:
    assert abs(ice_g(heat, 650, 20, 8) - 78) <= 1
    assert ice_g(heat, 650, 20, 22) == 0
    needed = water_needed(
        heat,
        22,
        6,
        650,
        flour_and_salt(heat, 1000, 20, 27),
        room_c=27,
        flour_c=27,
        preferment_c=None,
        tap_c=20,
        dissolves_starter=False,
    )
    assert needed.water_c == 20
    assert needed.ice_g > 0
    assert math.isclose(needed.water_g + needed.ice_g, 650)
    assert math.isclose(needed.dough_c, 22)


@pytest.mark.science
def test_the_melted_ice_balances(heat: Heat) -> None:
    """Heat the tap water gives up is the heat the ice takes to melt and to warm."""
    ice = ice_g(heat, 650, 20, 8)
    assert math.isclose((650 - ice) * (20 - 8), ice * (heat.melting_as_water_c + 8), rel_tol=1e-9)


def test_no_more_ice_than_a_third(heat: Heat) -> None:
    needed = water_needed(
        heat,
        18,
        12,
        500,
        flour_and_salt(heat, 1000, 20, 32),
        room_c=32,
        flour_c=32,
        preferment_c=None,
        tap_c=25,
        dissolves_starter=False,
    )
    assert needed.limit == "ice"
    assert math.isclose(needed.ice_g, 500 / 3, rel_tol=1e-6)
    assert needed.dough_c > 18


@pytest.mark.parametrize(("dissolves", "most_c"), [(False, 43), (True, 35)])
def test_water_is_never_too_hot_for_the_culture(heat: Heat, dissolves: bool, most_c: float) -> None:
    needed = water_needed(
        heat,
        30,
        0,
        600,
        flour_and_salt(heat, 1000, 20, 5),
        room_c=8,
        flour_c=5,
        preferment_c=None,
        tap_c=None,
        dissolves_starter=dissolves,
    )
    assert needed.limit == "hot"
    assert needed.water_c == most_c
    assert needed.dough_c < 30


@pytest.mark.science
def test_heat_capacity_of_dough(heat: Heat) -> None:
    assert 2.7 <= dough_heat(heat, 65) <= 2.95
    assert dough_heat(heat, 100) > dough_heat(heat, 55)


@pytest.mark.trade_window
def test_dough_in_the_fridge(heat: Heat) -> None:
    kilo = cooling_tau_h(heat, 1000, 2.8, "bare")
    assert 3 <= minutes_to_temp(26, 4, kilo, 10) / 60 <= 5.5
    assert 7 <= minutes_to_temp(26, 4, kilo, 5) / 60 <= 13
    assert 1 <= minutes_to_temp(26, 4, cooling_tau_h(heat, 100, 2.8, "bare"), 10) / 60 <= 2.5
    ball = cooling_tau_h(heat, 620, 2.8, transfer=10)
    assert 2.5 <= minutes_to_temp(27, 3, ball, 7) / 60 <= 4.5


@pytest.mark.regression
@pytest.mark.parametrize(
    ("mass_g", "bare_h", "covered_h"), [(100, 1.1, 1.7), (500, 2.05, 3.1), (1000, 2.7, 4.0), (2000, 3.6, 5.2)]
)
def test_cooling_table(heat: Heat, mass_g: float, bare_h: float, covered_h: float) -> None:
    assert abs(cooling_tau_h(heat, mass_g, 2.8, "bare") - bare_h) <= 0.06
    assert abs(cooling_tau_h(heat, mass_g, 2.8, "covered") - covered_h) <= 0.06


def test_off_boil_and_tap(heat: Heat) -> None:
    tap_g, hot_g = tap_and_kettle_g(600, 32, 14, 95)
    assert math.isclose(tap_g + hot_g, 600)
    assert math.isclose((tap_g * 14 + hot_g * 95) / 600, 32)
    with pytest.raises(ValueError):
        tap_and_kettle_g(600, 10, 14, 95)


def test_the_mixer_is_learned_from_a_dough(heat: Heat) -> None:
    others = flour_and_salt(heat, 1000, 20, 21)
    came_out_c = balance_dough_c(heat, 20, 5.5, 650, others)
    assert math.isclose(rise_measured_c(heat, came_out_c, 20, 650, others), 5.5)


@given(st.floats(18, 30), st.floats(0, 8), st.floats(300, 1200), st.floats(2, 32), st.floats(2, 30))
def test_the_water_asked_for_brings_the_dough_there(
    heat: Heat, dough_c: float, rise_c: float, water_g: float, flour_c: float, starter_c: float
) -> None:
    others = [*flour_and_salt(heat, 1000, 20, flour_c), Warm(200, starter_c, 3.0)]
    water_c = balance_water_c(heat, dough_c, rise_c, water_g, others)
    assert math.isclose(balance_dough_c(heat, water_c, rise_c, water_g, others), dough_c, abs_tol=1e-9)


@given(st.floats(2, 40), st.floats(2, 40), st.floats(0.3, 6), st.floats(0, 2000))
def test_a_dough_stays_between_itself_and_its_surroundings(
    dough_c: float, air_c: float, tau_h: float, minutes: float
) -> None:
    temp_c = relaxing(dough_c, air_c, tau_h).temp_c(minutes)
    assert min(dough_c, air_c) - 1e-9 <= temp_c <= max(dough_c, air_c) + 1e-9


@given(st.floats(5, 35), st.floats(5, 35), st.floats(5, 35), st.floats(0.2, 6), st.floats(30, 900))
def test_drifting_air_is_followed_exactly(
    dough_c: float, air_c: float, air_end_c: float, tau_h: float, minutes: float
) -> None:
    """The closed form against many small steps."""
    leg = Leg(minutes, air_c, air_end_c, tau_h)
    temp_c, steps = dough_c, 4000
    for step in range(steps):
        here_c = leg.air_at((step + 0.5) / steps * minutes)
        temp_c = here_c + (temp_c - here_c) * math.exp(-minutes / steps / 60 / tau_h)
    assert math.isclose(leg.dough_at(minutes, dough_c), temp_c, abs_tol=0.01)


@given(st.floats(5, 35), st.floats(5, 35), st.floats(0, 6), st.floats(1, 900))
def test_the_pieces_of_a_path_cover_it(dough_c: float, air_c: float, tau_h: float, minutes: float) -> None:
    path = Path(dough_c, (Leg(minutes, air_c, 20.0, tau_h), Leg(60, 20.0, 20.0, tau_h)))
    pieces = list(path.pieces())
    assert math.isinf(pieces[-1].minutes)
    assert sum(piece.minutes for piece in pieces[:-1]) >= minutes
    assert all(piece.minutes > 0 for piece in pieces)
    assert len(pieces) < 200


def test_a_path_goes_through_kitchen_and_fridge() -> None:
    path = steady(24).then(600, 4, 2.7)
    assert path.temp_c(0) == 24
    fridge = Path(24, (Leg(120, 24, 24, 2.7), Leg(600, 4, 4, 2.7)))
    assert fridge.temp_c(120) == 24
    assert 4 < fridge.temp_c(300) < 16
    assert fridge.air_c(60) == 24 and fridge.air_c(300) == 4
    assert fridge.bends() == (120,)
    assert fridge.warmer(1).temp_c(120) == 25


@pytest.mark.parametrize("fields", [(0, 20, 20, 1), (60, 20, 20, -1), (math.inf, 20, 25, 0)])
def test_a_leg_takes_time(fields: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError):
        Leg(*fields)
