"""Food values: the sums, what baking takes away, and the honesty about what is not known."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.composition import Portion
from assistant.engine.contents import contents
from assistant.engine.formula import solve
from assistant.engine.givens import Defaults, Givens, Preferment
from assistant.engine.nutrition import carbohydrate_pct, nutrition
from knowledge import load

KB = load()
FOODS = KB.ingredients
SOUND = sorted(
    i for i, f in FOODS.items()
    if None not in (f.kcal_100g, f.water_pct, f.fat_pct, f.protein_pct, f.fibre_pct, f.sugar_pct, f.salt_pct)
    and f.group not in ("salt", "leavening", "alkali")
)  # fmt: skip
portions = st.lists(st.tuples(st.sampled_from(SOUND), st.floats(1, 2000)), min_size=1, max_size=8).map(
    lambda rows: [Portion(item, g) for item, g in rows]
)


def test_a_lean_dough_by_hand() -> None:
    found = nutrition((Portion("flour_bread", 1000), Portion("water", 650), Portion("salt_table", 20)), FOODS)
    assert found.unknown == ()
    assert found.dough.g == 1670
    assert found.dough.kcal == pytest.approx(3610)
    assert found.dough.protein_g == pytest.approx(119.8)
    assert found.dough.carbohydrate_g == pytest.approx(1000 * (100 - 13.36 - 11.98 - 1.66 - 2.4 - 0.005) / 100)
    assert found.dough.salt_g == pytest.approx(20.05)
    baked = found.baked(15)
    assert baked.g == pytest.approx(1419.5)
    assert baked.scaled(100 / baked.g).kcal == pytest.approx(254.3, abs=0.1)


@given(portions, st.floats(0, 40))
def test_baking_takes_water_and_nothing_else(rows: list[Portion], loss_pct: float) -> None:
    found = nutrition(rows, FOODS)
    baked = found.baked(loss_pct)
    assert baked.kcal == found.dough.kcal and baked.salt_g == found.dough.salt_g
    assert baked.g == pytest.approx(found.dough.g * (1 - loss_pct / 100))


@given(portions, st.floats(0.1, 10))
def test_values_grow_with_the_dough_and_do_not_depend_on_order(rows: list[Portion], factor: float) -> None:
    once = nutrition(rows, FOODS).dough
    more = nutrition([Portion(row.item, row.g * factor) for row in reversed(rows)], FOODS).dough
    assert more.kcal == pytest.approx(once.kcal * factor)
    assert more.carbohydrate_g == pytest.approx(once.carbohydrate_g * factor)


ALCOHOL = ["beer", "spirits", "vanilla_extract", "wine_red", "wine_white"]
ODD = {"cocoa", "oat_bran", "wheat_bran", *ALCOHOL}
"""Brans and cocoa have factors of their own, and alcohol is no part of the sum."""


@pytest.mark.parametrize("item", [i for i in SOUND if i not in ODD])
def test_energy_agrees_with_what_is_in_it(item: str) -> None:
    """4 kcal a gram of protein and carbohydrate, 9 of fat, 2 of fibre; tables round and differ by method."""
    food = FOODS[item]
    by_parts = 4 * ((food.protein_pct or 0) + (carbohydrate_pct(food) or 0))
    by_parts += 9 * (food.fat_pct or 0) + 2 * (food.fibre_pct or 0)
    assert food.kcal_100g is not None
    assert by_parts == pytest.approx(food.kcal_100g, rel=0.3, abs=30)


@pytest.mark.parametrize("item", ALCOHOL)
def test_alcohol_is_not_counted_as_carbohydrate(item: str) -> None:
    assert carbohydrate_pct(FOODS[item]) is None
    assert nutrition((Portion(item, 10),), FOODS).unknown == (item,)


def test_what_is_not_known_is_named() -> None:
    missing = next(i for i, f in FOODS.items() if f.kcal_100g is None)
    found = nutrition((Portion("flour_bread", 100), Portion(missing, 50)), FOODS)
    assert found.unknown == (missing,)
    assert found.dough.kcal == pytest.approx(361)


def test_the_starter_and_a_preferment_are_taken_apart() -> None:
    givens = Givens(
        pieces=10, piece_g=100, hydration_pct=66, starter_pct=20, loss_pct=0,
        preferments=(
            Preferment("poolish", flour_pct=20, flour="flour_rye_medium", yeast="yeast_fresh", yeast_pct=0.2),
        ),
    )  # fmt: skip
    formula = solve(givens, Defaults(), KB)
    found = {portion.item: portion.g for portion in contents(formula, "flour_whole_wheat", givens.preferments, FOODS)}
    assert sum(found.values()) == pytest.approx(formula.dough_g)
    assert found["flour_rye_medium"] == pytest.approx(0.2 * formula.flour_g)
    assert formula.starter is not None
    assert found["flour_whole_wheat"] == pytest.approx(formula.starter.flour_g)
    assert found["water"] == pytest.approx(formula.water_g, rel=0.01)
