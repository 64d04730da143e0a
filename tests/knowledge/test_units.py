"""Units: the kept factors are pint's, and the weights they give are the published ones."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from knowledge import load
from knowledge.records.measures import Measure
from knowledge.records.units import SYSTEMS, Unit
from knowledge.units import BASE, registry, units
from knowledge.vocabulary import fold

KB = load()
TABLE = units(KB)
CHECKS = yaml.safe_load((Path(__file__).parent / "checks.yaml").read_text(encoding="utf-8"))


def test_every_factor_is_the_one_pint_gives() -> None:
    known = registry()
    for id, unit in KB.all(Unit).items():
        for system in SYSTEMS:
            definition = unit.by_system.get(system, unit.definition)
            if unit.dimension != "temperature":
                exact = known.Quantity(1, definition).to(BASE[unit.dimension]).magnitude
                assert math.isclose(TABLE.factor(id, system), exact, rel_tol=1e-12), (id, system)


@pytest.mark.parametrize(
    ("unit", "system", "factor"),
    [
        ("cup", "us", 236.588),
        ("tbsp", "us", 14.787),
        ("tsp", "us", 4.929),
        ("fl_oz", "us", 29.574),
        ("pint", "us", 473.176),
        ("quart", "us", 946.353),
        ("gallon", "us", 3785.412),
        ("cup", "metric", 250),
        ("tbsp", "metric", 15),
        ("tsp", "metric", 5),
        ("tbsp", "australian", 20),
        ("cup", "australian", 250),
        ("cup", "japanese", 200),
        ("fl_oz", "imperial", 28.413),
        ("pint", "imperial", 568.261),
        ("quart", "imperial", 1136.523),
        ("oz", "us", 28.3495),
        ("lb", "us", 453.592),
        ("kg", "us", 1000),
        ("mg", "us", 0.001),
        ("butter_stick", "us", 113.398),
        ("ml", "us", 1),
        ("cl", "us", 10),
        ("dl", "us", 100),
        ("l", "us", 1000),
        ("inch", "us", 2.54),
        ("foot", "us", 30.48),
        ("mm", "us", 0.1),
        ("m", "us", 100),
        ("hour", "us", 60),
        ("day", "us", 1440),
        ("second", "us", 1 / 60),
        ("week", "us", 10080),
        ("degF", "us", 5 / 9),
        ("degC", "us", 1),
    ],
)
def test_published_figures(unit: str, system: str, factor: float) -> None:
    assert TABLE.factor(unit, system) == pytest.approx(factor, rel=2e-5)


@pytest.mark.parametrize(
    "check", CHECKS, ids=lambda check: f"{check['amount']} {check['system']} {check['unit']} {check['item']}"
)
def test_published_weights(check: dict[str, Any]) -> None:
    item = KB.ingredients[check["item"]]
    us = {"cup": item.cup_g, "tbsp": item.tbsp_g, "tsp": item.tsp_g}
    measure = check["unit"] if us.get(check["unit"]) else "cup"
    g_per_us, ml_per_us = us[measure], TABLE.factor(measure, "us")
    assert g_per_us is not None
    g = check["amount"] * TABLE.factor(check["unit"], check["system"]) * g_per_us / ml_per_us
    assert g == pytest.approx(check["g"], abs=check["within"])


def test_two_sticks_of_butter() -> None:
    butter = KB.ingredients["butter_unsalted"]
    g = 2 * TABLE.factor("butter_stick")
    assert g == pytest.approx(226, abs=1)
    assert butter.water_pct is not None and butter.fat_pct is not None
    assert (g * butter.water_pct / 100, g * butter.fat_pct / 100) == pytest.approx((40.5, 183), abs=1)


@pytest.mark.parametrize(("f", "c"), [(32, 0), (212, 100), (-40, -40), (75, 23.8889), (450, 232.2222)])
def test_thermometer_readings(f: float, c: float) -> None:
    assert TABLE.celsius("degF", f) == pytest.approx(c, abs=1e-4)
    assert TABLE.celsius("degC", c) == c


@given(st.floats(-80, 600), st.floats(-80, 600))
def test_a_difference_of_temperatures_has_no_offset(a: float, b: float) -> None:
    difference = TABLE.celsius("degF", a) - TABLE.celsius("degF", b)
    assert difference == pytest.approx((a - b) * TABLE.factor("degF"), abs=1e-9)
    assert TABLE.reading("degF", TABLE.celsius("degF", a)) == pytest.approx(a, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "ids"),
    [
        ("T", ["tbsp"]),
        ("t", ["tsp"]),
        ("c", ["degC", "cup"]),
        ("m", ["m", "min"]),
        ("oz", ["oz"]),
        ("fl oz", ["fl_oz"]),
        ("in", ["inch"]),
        ("cups", ["cup"]),
        ("tablespoons", ["tbsp"]),
        ("f", ["degF"]),
        ("h", ["hour"]),
        ("lbs", ["lb"]),
    ],
)
def test_names_keep_all_their_readings(name: str, ids: list[str]) -> None:
    assert sorted(reading.id for reading in TABLE.names[name]) == sorted(ids)


def test_names_are_folded_unless_bound_to_their_case() -> None:
    bound = {form for unit in KB.all(Unit).values() for form in unit.typed_as}
    assert all(name == fold(name) or name in bound for name in TABLE.names)


def test_an_unknown_unit_or_kitchen_is_an_error() -> None:
    for unit, system in (("ell", "us"), ("cup", "martian")):
        with pytest.raises(KeyError):
            TABLE.factor(unit, system)


def test_a_definition_of_the_wrong_dimension_is_named(tmp_path: Path) -> None:
    (tmp_path / "units").mkdir()
    (tmp_path / "units" / "mine.yaml").write_text("ell: {dimension: mass, definition: metre, said_as: [ell]}\n")
    with pytest.raises(ValueError, match="'metre' is no mass"):
        units(load(tmp_path))


def test_kitchen_measures_hold_what_the_definitions_say() -> None:
    for id, measure in KB.all(Measure).items():
        if id not in TABLE.factors:
            continue
        if measure.g is not None:
            assert measure.g == pytest.approx(TABLE.factor(id), rel=1e-4), id
        for system in SYSTEMS if measure.ml else ():
            ml = measure.ml.get(system, measure.ml["us"])
            assert ml == pytest.approx(TABLE.factor(id, system), rel=1e-4), (id, system)
