"""Rates against the published table, and what salt, sugar and water do."""

import csv
import math
from pathlib import Path

import pytest

from assistant.engine.growth import (
    CardinalCurve,
    Kinetics,
    acid_rate,
    bakers_gas_rate,
    bakers_growth_rate,
    fresh_from_dry_pct,
    salt_factor,
    salt_in_water_pct,
    sourdough_rate,
    sugar_as_salt_pct,
    water_factor,
)

TABLE = Path(__file__).with_name("growth_rates.csv")


def published(organism: str) -> list[tuple[float, float]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return [(float(r["temp_c"]), float(r["rate_per_h"])) for r in csv.DictReader(lines) if r["organism"] == organism]


def optimum_c(rate: object) -> float:
    return max((t / 10 for t in range(460)), key=rate)  # type: ignore[arg-type]


@pytest.mark.science
def test_the_curves_give_back_the_published_table(k: Kinetics) -> None:
    yeast, bacteria = published("candida_milleri"), published("lactobacillus_sanfranciscensis")
    assert len(yeast) == 19 and len(bacteria) == 21
    for temp_c, rate in yeast:
        assert math.isclose(k.sourdough_yeast.rate(temp_c), rate, abs_tol=6e-5)
    for temp_c, rate in bacteria:
        assert math.isclose(k.acid_bacteria.rate(temp_c), rate, abs_tol=6e-5)


def residuals(curve: CardinalCurve, rates: list[tuple[float, float]]) -> tuple[float, float, float]:
    """Root mean square, the worst, and where."""
    off = [(abs(curve.rate(t) - rate), t) for t, rate in rates]
    return math.sqrt(sum(e * e for e, _ in off) / len(off)), *max(off)


@pytest.mark.science
def test_the_fits_with_a_lowest_temperature_are_as_good_as_stated(k: Kinetics) -> None:
    grid = [(float(t), k.sourdough_yeast.rate(t)) for t in range(2, 37)]
    rms, worst, _ = residuals(k.sourdough_yeast_cold, grid)
    assert abs(rms - 0.018) < 0.0015
    assert abs(worst - 0.033) < 0.0015
    grid = [(float(t), k.acid_bacteria.rate(t)) for t in range(2, 42)]
    rms, worst, where = residuals(k.acid_bacteria_cold, grid)
    assert abs(rms - 0.024) < 0.0015
    assert abs(worst - 0.039) < 0.0015
    assert where == 38


def least_squares(rates: list[tuple[float, float]], start: list[float], grows_at_c: float) -> list[float]:
    """Cardinal constants of least squares, by steps along each; the curve may not end below `grows_at_c`."""

    def misses(point: list[float]) -> float:
        if point[2] <= grows_at_c:
            return math.inf
        curve = CardinalCurve(*point)
        return sum((curve.rate(temp_c) - rate) ** 2 for temp_c, rate in rates)

    point, best, steps = start, misses(start), [1.0, 1.0, 1.0, 0.02]
    while max(steps) > 1e-3:
        moved = False
        for index, step in enumerate(steps):
            for sign in (-1, 1):
                tried = [*point[:index], point[index] + sign * step, *point[index + 1 :]]
                if misses(tried) < best:
                    point, best, moved = tried, misses(tried), True
        if not moved:
            steps = [step / 2 for step in steps]
    return point


@pytest.mark.science
def test_fitting_again_gives_the_constants_kept(k: Kinetics) -> None:
    """The one-degree grid of the published curves, fitted anew, ends at the constants in knowledge."""
    yeast = [(float(t), k.sourdough_yeast.rate(t)) for t in range(2, 37)]
    bacteria = [(float(t), k.acid_bacteria.rate(t)) for t in range(2, 42)]
    for rates, start, grows_at_c, kept in (
        (yeast, [5.0, 25.0, 35.0, 0.3], 34, k.sourdough_yeast_cold),
        (bacteria, [3.0, 30.0, 42.0, 0.5], 40, k.acid_bacteria_cold),
    ):
        min_c, best_c, max_c, best_rate = least_squares(rates, start, grows_at_c)
        assert abs(min_c - kept.min_c) < 0.03
        assert abs(best_c - kept.best_c) < 0.03
        assert abs(max_c - kept.max_c) < 0.03
        assert abs(best_rate - kept.best_rate) < 0.001


@pytest.mark.science
def test_rates_at_20_and_24_and_no_growth_at_36(k: Kinetics) -> None:
    assert math.isclose(sourdough_rate(k, 20), 0.225, rel_tol=0.03)
    assert math.isclose(sourdough_rate(k, 24), 0.365, rel_tol=0.03)
    assert k.sourdough_yeast.rate(36) == 0
    assert k.sourdough_yeast.rate(40) == 0


@pytest.mark.science
def test_what_six_degrees_do(k: Kinetics) -> None:
    assert abs(sourdough_rate(k, 26) / sourdough_rate(k, 20) - 1.84) <= 0.15
    assert abs(acid_rate(k, 26) / acid_rate(k, 20) - 1.90) <= 0.15
    assert abs(bakers_growth_rate(k, 26) / bakers_growth_rate(k, 20) - 1.46) <= 0.15
    assert 1.4 <= bakers_gas_rate(k, 26) / bakers_gas_rate(k, 20) <= 1.9


@pytest.mark.science
def test_best_temperatures(k: Kinetics) -> None:
    assert abs(optimum_c(k.sourdough_yeast.rate) - 27) <= 1
    assert abs(optimum_c(k.acid_bacteria.rate) - 33) <= 1
    assert abs(optimum_c(k.bakers_growth.rate) - 32.3) <= 1
    assert 35 <= optimum_c(k.bakers_gas.rate) <= 38


@pytest.mark.science
def test_acid_makers_against_yeast(k: Kinetics) -> None:
    def ratio(temp_c: float) -> float:
        return k.acid_bacteria.rate(temp_c) / k.sourdough_yeast.rate(temp_c)

    assert all(0.95 <= ratio(t) <= 1.15 for t in (20, 22, 24))
    assert ratio(30) > 1.5
    assert ratio(10) > 1.5


@pytest.mark.science
def test_salt_acts_by_its_share_of_the_water(k: Kinetics) -> None:
    assert abs(salt_in_water_pct(2, 65) - 3.08) <= 0.02
    assert salt_factor(4, k.salt_stop_bacteria) == 0
    assert salt_factor(5, k.salt_stop_bacteria) == 0
    assert salt_factor(4, k.salt_stop_sourdough) > 0
    assert round(salt_factor(salt_in_water_pct(2, 65), k.salt_stop_sourdough), 2) == 0.85
    assert round(salt_factor(salt_in_water_pct(2, 65), k.salt_stop_bacteria), 2) == 0.41
    assert round(salt_factor(salt_in_water_pct(2, 65), k.salt_stop_bakers), 2) == 0.91


@pytest.mark.regression
@pytest.mark.parametrize(
    ("hydration_pct", "factor"), [(44, 0.52), (50, 0.65), (57, 0.77), (65, 0.86), (75, 0.93), (100, 1.0), (120, 1.0)]
)
def test_stiff_doughs_are_slower(k: Kinetics, hydration_pct: float, factor: float) -> None:
    assert abs(water_factor(k, hydration_pct) - factor) < 0.006


@pytest.mark.regression
def test_sugar_counts_as_salt_above_five_percent(k: Kinetics) -> None:
    as_salt = salt_in_water_pct(1.8, 55) + sugar_as_salt_pct(k, 20, 55)
    assert abs(salt_factor(as_salt, k.salt_stop_bakers) - 0.69) < 0.005
    assert sugar_as_salt_pct(k, 5, 60) == 0


@pytest.mark.science
def test_thirty_grams_of_fresh_yeast(k: Kinetics) -> None:
    assert abs(30 * k.active_dry_per_fresh - 12) <= 0.5
    assert abs(30 * k.instant_per_fresh - 10) <= 0.5
    assert math.isclose(fresh_from_dry_pct(k, active_dry_pct=0.4), 1.0)
    assert math.isclose(fresh_from_dry_pct(k, instant_pct=1.0), 3.0, rel_tol=1e-4)


@pytest.mark.regression
@pytest.mark.parametrize("temp_c", [28.5, 30, 32, 35, 38, 42, 45])
def test_a_hot_culture_is_never_slower_than_at_28(k: Kinetics, temp_c: float) -> None:
    assert sourdough_rate(k, temp_c) >= sourdough_rate(k, 28)
    assert bakers_gas_rate(k, temp_c) >= bakers_gas_rate(k, 28)
    assert bakers_growth_rate(k, temp_c) >= bakers_growth_rate(k, 28)


@pytest.mark.regression
def test_the_cold_lies_between_no_growth_and_the_curve(k: Kinetics) -> None:
    for temp_c in (2, 4, 6, 8):
        assert k.sourdough_yeast_cold.rate(temp_c) < sourdough_rate(k, temp_c) < k.sourdough_yeast.rate(temp_c)
    assert math.isclose(sourdough_rate(k, 10), k.sourdough_yeast.rate(10))
