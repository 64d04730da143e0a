"""The published checks of the kitchen's figures: cups, spoons, sticks, packets, eggs, made-up doughs."""

from __future__ import annotations

import pytest

from assistant.engine.composition import Portion, composition
from assistant.engine.measures import Said, item_meant, measure_book
from assistant.engine.refusal import Refused
from assistant.engine.weighing import Weighed, weigh
from knowledge import load

KB = load()
BOOK = measure_book(KB)


def grams(
    amount: float, unit: str, item: str, system: str = "us", states: str = "", size: str | None = None
) -> Weighed:
    return weigh((Said(amount, amount, unit, size),), item, system, states, BOOK)


@pytest.mark.parametrize(
    ("amount", "unit", "system", "g"),
    [(1, "cup", "us", 237), (1, "cup", "metric", 250), (1, "pint", "imperial", 568)],
)
def test_water_by_volume(amount: float, unit: str, system: str, g: float) -> None:
    assert grams(amount, unit, "water", system).g == pytest.approx(g, abs=1)


def test_a_cup_of_plain_flour_comes_with_its_range() -> None:
    found = grams(1, "cup", "flour_all_purpose")
    assert (found.g, found.low_g, found.high_g) == (pytest.approx(125, abs=1), 113, 160)
    assert grams(1, "cup", "flour_all_purpose", "metric").g == pytest.approx(132, abs=1)


def test_four_cups_of_bread_flour() -> None:
    found = grams(4, "cup", "flour_bread")
    assert found.g == pytest.approx(492, abs=4)
    assert (found.low_g, found.high_g) == (pytest.approx(468), pytest.approx(624))


def test_ounces_of_flour_are_weight() -> None:
    found = grams(8, "oz", "flour_all_purpose")
    assert (found.g, found.by) == (pytest.approx(226.8, abs=0.1), "mass")


def test_a_tablespoon_of_honey_by_country() -> None:
    assert grams(1, "tbsp", "honey", "australian").g == pytest.approx(28.5, abs=0.5)
    assert grams(1, "tbsp", "honey", "us").g == pytest.approx(21, abs=0.3)


def test_two_sticks_of_butter() -> None:
    found = grams(2, "stick", "butter_unsalted")
    made_of = composition([Portion("butter_unsalted", found.g)], KB.ingredients)
    assert found.g == pytest.approx(226, abs=1)
    assert made_of.water_g == pytest.approx(40.5, abs=1)
    fat_pct = KB.ingredients["butter_unsalted"].fat_pct
    assert fat_pct and found.g * fat_pct / 100 == pytest.approx(183, abs=1.2)


def test_a_packet_of_dry_yeast() -> None:
    assert grams(1, "packet", "yeast_instant").g == 7
    assert grams(2.25, "tsp", "yeast_instant").g == pytest.approx(7, abs=0.2)


def test_salts_by_the_spoon_differ() -> None:
    fine = grams(1, "tsp", "salt_table").g
    assert fine == pytest.approx(6, abs=0.1)
    assert fine / grams(1, "tsp", "salt_kosher_dense").g == pytest.approx(1.22, abs=0.1)
    assert fine / grams(1, "tsp", "salt_kosher_light").g == pytest.approx(2.07, abs=0.1)


def test_three_eggs_by_country() -> None:
    us, _ = item_meant("egg_whole", "large eggs", "large", "us", BOOK)
    uk, because = item_meant("egg_whole", "large eggs", "large", "imperial", BOOK)
    assert (us, uk) == ("egg_whole", "egg_uk_large") and because and "UK" in because
    assert grams(3, "each", us).g == pytest.approx(150, abs=2)
    assert grams(3, "each", uk).g == pytest.approx(179, abs=8)


@pytest.mark.parametrize(
    ("item", "states", "g"),
    [
        ("sugar_brown", "packed brown sugar", 220), ("sugar_brown", "loose brown sugar", 145),
        ("sugar_powdered", "unsifted icing sugar", 120), ("sugar_powdered", "sifted icing sugar", 100),
    ],
)  # fmt: skip
def test_how_a_cup_is_filled(item: str, states: str, g: float) -> None:
    assert grams(1, "cup", item, states=states).g == pytest.approx(g, abs=2)


def test_an_imperial_pint_of_milk() -> None:
    assert grams(1, "pint", "milk_whole", "imperial").g == pytest.approx(586, abs=3)


def test_true_hydration_counts_milk_egg_butter_and_honey() -> None:
    rows = (("flour_bread", 500), ("milk_whole", 250), ("egg_whole", 50), ("butter_unsalted", 50), ("honey", 21))
    made_of = composition([Portion(item, g) for item, g in rows], KB.ingredients)
    assert made_of.water_g == pytest.approx(271, abs=2)
    assert 100 * made_of.water_g / made_of.flour_g == pytest.approx(54.2, abs=0.5)


def test_salted_butter_brings_salt() -> None:
    rows = (("flour_bread", 500), ("salt_table", 10), ("butter_salted", 113))
    made_of = composition([Portion(item, g) for item, g in rows], KB.ingredients)
    assert made_of.salt_g == pytest.approx(11.85, abs=0.15)


@pytest.mark.parametrize(
    "item", ["lye", "starter_100", "starter_stiff_50", "baked_soda", "salt_flake", "ascorbic_acid"]
)
def test_what_only_a_scale_measures_is_refused_by_volume(item: str) -> None:
    with pytest.raises(Refused, match="weight only"):
        grams(1, "cup", item)
    with pytest.raises(Refused):
        grams(1, "tbsp", item)


@pytest.mark.parametrize(("phrase", "system", "item"), [
    ("cornflour", "imperial", "cornstarch"), ("cornflour", "us", "flour_corn"),
    ("corn flour", "us", "flour_corn"), ("corn flour", "imperial", "cornstarch"),
])  # fmt: skip
def test_cornflour_goes_by_country(phrase: str, system: str, item: str) -> None:
    read = "cornstarch" if phrase == "cornflour" else "flour_corn"
    assert item_meant(read, phrase, None, system, BOOK)[0] == item
