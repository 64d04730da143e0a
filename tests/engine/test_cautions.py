"""Cautions: each can be called for, each comes when it must, and milk bread is not warned of lye."""

from __future__ import annotations

import pytest

from assistant.engine.cautions import Scene, allergen_line, cautions, first_time, label_line
from knowledge import load
from knowledge.records.cautions import Caution
from knowledge.records.traces import Trace

KB = load()
RECORDS = KB.all(Caution)
FOODS = KB.ingredients


def ids(scene: Scene) -> set[str]:
    return {caution.id for caution in cautions(scene, RECORDS, FOODS)}


CALLED_FOR = [
    (Scene("formula", ingredients=frozenset({"honey"})), "honey_infant"),
    (Scene("formula", ingredients=frozenset({"egg_whole"})), "egg_milk_warm"),
    (Scene("plan", ingredients=frozenset({"milk_whole"})), "egg_milk_warm"),
    (Scene("bath", baths=frozenset({"lye"})), "lye_bath"),
    (Scene("bath", baths=frozenset({"baked_soda"})), "soda_ash"),
    (Scene("bath", baths=frozenset({"soda"})), "soda_foams"),
    (Scene("loads", steps=frozenset({"boil"})), "boiling_bath"),
    (Scene("plan", breads=frozenset({"baguette"})), "steam_oven"),
    (Scene("formula", breads=frozenset({"doughnut"})), "hot_fat"),
    (Scene("plan", breads=frozenset({"no_knead_loaf"})), "hot_pot"),
    (Scene("explanation", line="scald the glass jar"), "hot_glass"),
    (Scene("explanation", line="can I taste the dough?"), "raw_dough"),
    (Scene("formula", line="rolls with the kids helping"), "children_help"),
    (Scene("topping", ingredients=frozenset({"cheddar"})), "perishable_topping"),
    (Scene("formula", line="custard buns"), "meat_filling_core"),
    (Scene("diagnosis", line="fuzzy grey mould on it"), "mould"),
    (Scene("diagnosis", line="the starter has pink streaks"), "pink_orange"),
    (Scene("explanation", line="ropey crumb"), "rope"),
    (Scene("explanation", line="my aunt is coeliac"), "coeliac"),
    (Scene("topping", line="one can't have sesame"), "allergy_kitchen"),
    (Scene("formula", ingredients=frozenset({"garlic", "olive_oil"})), "garlic_in_oil"),
    (Scene("plan", line="on baking paper", oven_c=250), "baking_paper"),
    (Scene("cost", line="for the market stall"), "selling"),
    (Scene("explanation", line="the dog ate the dough"), "dough_swallowed"),
    (Scene("diagnosis", line="broke a bowl, glass in the dough"), "foreign_bits"),
    (Scene("explanation", topics=frozenset({"starter_from_scratch"})), "new_starter"),
    (Scene("bath", line="in the aluminium pot", baths=frozenset({"soda"})), "poor_fit_for_lye_pot"),
    (Scene("explanation", topics=frozenset({"acrylamide"})), "dark_crust"),
    (Scene("plan", ingredients=frozenset({"egg_whole"}), room_c=34), "hot_kitchen"),
]


@pytest.mark.parametrize(("scene", "wanted"), CALLED_FOR)
def test_it_comes_when_it_must(scene: Scene, wanted: str) -> None:
    assert wanted in ids(scene)


def test_every_caution_is_tried_above() -> None:
    assert {wanted for _, wanted in CALLED_FOR} == set(RECORDS)


def test_a_lean_dough_is_left_in_peace() -> None:
    lean = Scene("formula", "24 rolls of 80 g at 65 %", frozenset({"flour_bread", "water", "salt_table", "starter"}))
    assert ids(lean) == set()


def test_butter_alone_is_not_perishable_dough() -> None:
    assert ids(Scene("formula", ingredients=frozenset({"flour_bread", "butter_unsalted"}))) == set()


def test_half_words_do_not_call() -> None:
    assert ids(Scene("formula", line="mouldings for the wholesale order")) == set()


def test_paper_in_a_mild_oven_is_fine() -> None:
    assert "baking_paper" not in ids(Scene("plan", line="on baking paper", oven_c=200))


def test_the_gravest_first_and_mild_ones_once() -> None:
    scene = Scene("bath", line="lye, then the oven", baths=frozenset({"lye", "soda"}))
    found = cautions(scene, RECORDS, FOODS)
    assert found[0].id == "lye_bath"
    later = {caution.id for caution in first_time(found, frozenset(caution.id for caution in found))}
    assert "lye_bath" in later and "soda_foams" not in later


def test_allergens_are_named_and_malt_is_barley() -> None:
    items = ("flour_bread", "milk_whole", "egg_whole", "butter_unsalted", "sesame_seeds", "water")
    assert allergen_line(items, FOODS) == "Allergens: wheat, gluten, milk, egg, sesame."
    assert "barley (malt)" in (allergen_line(("flour_bread", "malt_syrup"), FOODS) or "")
    assert allergen_line(("water", "salt_table"), FOODS) is None


def test_labels_to_read() -> None:
    line = label_line(("margarine", "water"), KB.all(Trace), FOODS)
    assert line is not None and "milk" in line
    assert label_line(("water",), KB.all(Trace), FOODS) is None


def test_lye_text_says_all_it_must() -> None:
    text = RECORDS["lye_bath"].text.lower()
    for must in (
        "food-grade", "gloves", "goggles", "long sleeves", "children", "pets", "cold water", "never water to lye",
        "stainless", "never aluminium", "baking paper", "never warmer than the room", "ventilate", "label", "lock",
        "never taste", "bake fully", "15-20 minutes", "medical help", "do not neutralise",
        "no vomiting", "emergency",
    ):  # fmt: skip
        assert must in text, must
