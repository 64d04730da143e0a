"""What ingredients hold, and what tins take."""

from __future__ import annotations

import pytest

from assistant.engine.composition import Portion, allergens, composition, counted_water_share
from assistant.engine.givens import Tin
from assistant.engine.naming import short_name
from assistant.engine.pans import area_ratio, room_in, tapered_ml
from assistant.engine.refusal import Refused
from knowledge import Knowledge, load


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def test_a_rich_dough(kb: Knowledge) -> None:
    held = composition(
        [
            Portion("flour_bread", 500), Portion("milk_whole", 250), Portion("egg_whole", 50),
            Portion("butter_unsalted", 50), Portion("honey", 21),
        ],
        kb.ingredients,
    )  # fmt: skip
    assert held.water_g == pytest.approx(271, abs=2)
    assert held.hydration_pct == pytest.approx(54.2, abs=0.5)
    assert held.mass_g == 871


def test_two_sticks_of_butter(kb: Knowledge) -> None:
    held = composition([Portion("butter_unsalted", 226)], kb.ingredients)
    assert held.water_g == pytest.approx(40.5, abs=1)
    assert held.fat_g == pytest.approx(183, abs=1)


def test_three_eggs(kb: Knowledge) -> None:
    held = composition([Portion("egg_whole", 150)], kb.ingredients)
    assert held.water_g == pytest.approx(114, abs=1)
    assert held.fat_g == pytest.approx(14.3, abs=1)
    assert held.protein_g == pytest.approx(18.8, abs=1)


def test_malt_syrup(kb: Knowledge) -> None:
    held = composition([Portion("malt_syrup", 21)], kb.ingredients)
    assert held.water_g == pytest.approx(4.4, abs=0.2)
    assert held.sugar_g == pytest.approx(15.0, abs=0.2)
    assert allergens(["malt_syrup"], kb.ingredients) == ("barley", "gluten")


def test_gluten_raises_protein(kb: Knowledge) -> None:
    # 500 g plain flour at 10.33 % to 12 % of the whole with 13.2 g of vital gluten on top
    held = composition([Portion("flour_all_purpose", 500), Portion("vital_wheat_gluten", 13.2)], kb.ingredients)
    assert 100 * held.protein_g / held.mass_g == pytest.approx(12.0, abs=0.02)
    assert held.flour_g == pytest.approx(513.2)


def test_salt_inside_butter(kb: Knowledge) -> None:
    held = composition(
        [Portion("flour_bread", 500), Portion("salt_table", 10), Portion("butter_salted", 113)], kb.ingredients
    )
    assert held.salt_g == pytest.approx(11.85, abs=0.02)


def test_baking_soda_is_no_dough_salt(kb: Knowledge) -> None:
    assert composition([Portion("baking_soda", 10)], kb.ingredients).salt_g == 0


@pytest.mark.parametrize(
    ("item", "soaked", "counts"),
    [
        ("flour_bread", False, False), ("oats_rolled", False, False), ("walnuts", False, False),
        ("cocoa", False, False),
        ("raisins", False, False), ("raisins", True, True), ("apricots_dried", False, False), ("apple", False, True),
        ("oats_rolled", True, True), ("flour_bread", True, False), ("honey", False, True), ("cheddar", False, True),
        ("yeast_fresh", False, True), ("salt_table", False, False), ("water", False, True),
    ],
)  # fmt: skip
def test_whose_water_counts(kb: Knowledge, item: str, soaked: bool, counts: bool) -> None:
    assert (counted_water_share(kb.ingredients[item], soaked) > 0) is counts


def test_what_is_not_known_is_named(kb: Knowledge) -> None:
    held = composition([Portion("onion_fried_crisp", 30), Portion("flour_bread", 100)], kb.ingredients)
    assert held.unknown == ("onion_fried_crisp",) and held.water_g == 0


def test_tin_volumes() -> None:
    inch = 2.54
    straight = room_in(Tin(length_cm=9.875 * inch, width_cm=4.25 * inch, depth_cm=2.75 * inch))
    assert straight.ml == pytest.approx(1891, abs=5)
    assert 610 / (straight.ml or 1) == pytest.approx(0.322, abs=0.003)
    assert tapered_ml(23, 13, 21, 11, 7) == pytest.approx(1850, abs=3)


def test_rounds_scale_by_area() -> None:
    assert area_ratio(30, 23) == pytest.approx(1.70, abs=0.01)
    assert room_in(Tin("round", diameter_cm=20, depth_cm=8)).ml == pytest.approx(2513, abs=1)
    assert room_in(Tin("tray", length_cm=40, width_cm=30)).cm2 == 1200


@pytest.mark.parametrize(
    "tin", [Tin(), Tin(length_cm=20, width_cm=10), Tin(ml=-5), Tin(length_cm=500, width_cm=500, depth_cm=90)]
)
def test_tins_that_cannot_be(tin: Tin) -> None:
    with pytest.raises(Refused):
        room_in(tin)


@pytest.mark.parametrize(
    ("item", "name"),
    [
        ("flour_bread", "bread flour"), ("honey", "honey"), ("butter_salted", "salted butter"), ("salt_table", "salt"),
        ("olive_oil", "olive oil"), ("yeast_instant", "instant yeast"), ("flour_rye_medium", "medium rye flour"),
    ],
)  # fmt: skip
def test_short_names(kb: Knowledge, item: str, name: str) -> None:
    assert short_name(kb.ingredients[item]) == name


def test_short_names_are_short(kb: Knowledge) -> None:
    assert all(0 < len(short_name(one)) <= 34 for one in kb.ingredients.values())
