"""Swaps: the trade's own figures, and the laws that hold for every one of them."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.bowl import Bowl
from assistant.engine.composition import Portion
from assistant.engine.flour_blend import gluten_on_top_g, gluten_to_replace_g, strong_share
from assistant.engine.leaven_swap import starter_for_yeast, yeast_for_starter
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Avoid, Shelf, may_carry
from assistant.engine.swaps import Choice, Swapped, offenders, replaced, swaps_for
from knowledge import load
from knowledge.records.diets import Diet
from knowledge.records.ingredients import Ingredient
from knowledge.records.kin import Kin
from knowledge.records.swaps import Swap
from knowledge.records.traces import Trace

KB = load()
FOODS: Mapping[str, Ingredient] = KB.ingredients
SHELF = Shelf(KB.all(Swap), KB.all(Kin), KB.all(Trace), FOODS)

RICH = Bowl(
    (
        Portion("flour_bread", 900),
        Portion("water", 320),
        Portion("milk_whole", 200),
        Portion("butter_unsalted", 120),
        Portion("egg_whole", 100),
        Portion("sugar_granulated", 90),
        Portion("honey", 40),
        Portion("salt_table", 17),
        Portion("sesame_seeds", 20),
    ),
    starter_g=200,
)


def grams(portions: tuple[Portion, ...], item: str) -> float:
    return sum(portion.g for portion in portions if portion.item == item)


def the(answer: Swapped, *items: str) -> Choice:
    return next(choice for choice in answer.choices if tuple(part.item for part in choice.into) == items)


WORKED = [
    # out, grams, in, expected grams in, expected water, tolerance: the worked figures of the trade sheets
    ("sugar_granulated", 100, ("honey",), (122,), -20.8, 0.5),
    ("honey", 50, ("sugar_granulated",), (41,), 8.6, 0.3),
    ("butter_unsalted", 100, ("vegetable_oil",), (81,), 17.9, 0.5),
    ("vegetable_oil", 80, ("butter_unsalted",), (98.4,), -17.7, 0.5),
    ("egg_whole", 50, ("egg_yolk", "water"), (34, 15), 5.3, 0.5),
    ("milk_whole", 300, ("milk_powder_whole", "water"), (37.5, 262.5), 0.9, 1),
]


@pytest.mark.parametrize(("out", "g", "into", "expected", "water", "tolerance"), WORKED)
def test_worked_figures(
    out: str, g: float, into: tuple[str, ...], expected: tuple[float, ...], water: float, tolerance: float
) -> None:
    choice = the(swaps_for(out, g, SHELF), *into)
    for part, wanted in zip(choice.into, expected, strict=True):
        assert part.g == pytest.approx(wanted, abs=tolerance)
    assert grams(choice.also, "water") == pytest.approx(water, abs=tolerance)


def test_milk_goes_with_the_butter_only_when_nothing_else_carries_it() -> None:
    with_milk = the(swaps_for("butter_unsalted", 120, SHELF, bowl=RICH), "vegetable_oil")
    assert with_milk.loses == ()
    no_milk = Bowl((Portion("flour_bread", 900), Portion("water", 500), Portion("butter_unsalted", 120)))
    assert the(swaps_for("butter_unsalted", 120, SHELF, bowl=no_milk), "vegetable_oil").loses == ("milk",)
    half = the(swaps_for("butter_unsalted", 60, SHELF, bowl=no_milk), "vegetable_oil")
    assert half.loses == ()


def test_gluten_lifts_plain_flour_to_bread_flour() -> None:
    plain, bread, gluten = (FOODS[i].protein_pct for i in ("flour_all_purpose", "flour_bread", "vital_wheat_gluten"))
    assert plain is not None and bread is not None and gluten is not None
    assert gluten_to_replace_g(500, bread, plain, gluten) == pytest.approx(12.7, abs=0.3)
    assert gluten_on_top_g(500, bread, plain, gluten) == pytest.approx(13.1, abs=0.3)
    assert gluten_on_top_g(500, 12.0, plain, gluten) == pytest.approx(13.2, abs=0.5)
    assert 100 * strong_share(13.07, plain, 15.33) == pytest.approx(54.8, abs=0.3)


def test_a_protein_outside_both_bags_is_refused() -> None:
    with pytest.raises(Refused, match="cannot be blended"):
        strong_share(16, 10.33, 15.33)


def test_wholemeal_drinks_more() -> None:
    bowl = Bowl((Portion("flour_bread", 500), Portion("water", 330)))
    answer = swaps_for("flour_bread", 200, SHELF, bowl=bowl, into="flour_whole_wheat")
    after = replaced(bowl, answer, answer.choices[0])
    assert after.g("water") == pytest.approx(350, abs=5)
    assert after.hydration_pct(FOODS) == pytest.approx(70, abs=0.5)


def test_starter_in_place_of_yeast_keeps_flour_and_water() -> None:
    bowl = Bowl((Portion("flour_bread", 500), Portion("water", 350), Portion("yeast_instant", 5)))
    choice = starter_for_yeast(bowl, FOODS, 20)
    after = replaced(bowl, Swapped(Portion("yeast_instant", 5), (choice,), None), choice)
    assert after.g("flour_bread") == pytest.approx(454.5, abs=0.5)
    assert after.g("water") == pytest.approx(304.5, abs=0.5)
    assert after.starter_g == pytest.approx(90.9, abs=0.5)
    assert after.hydration_pct(FOODS) == pytest.approx(70, abs=1e-6)


def test_yeast_in_place_of_starter_puts_its_flour_and_water_back() -> None:
    choice = yeast_for_starter(200, 100, "yeast_instant", overnight=False, flour="flour_bread")
    assert [round(part.g, 2) for part in choice.into] == [6, 100, 100]
    assert grams(yeast_for_starter(150, 50, "yeast_fresh", overnight=False, flour="flour_bread").into, "water") == 50


def test_lye_baked_soda_and_what_it_takes_to_make() -> None:
    baked = the(swaps_for("lye", 40, SHELF, function="alkali"), "baked_soda").into[0].g
    assert baked == pytest.approx(80)
    assert the(swaps_for("baked_soda", baked, SHELF), "baking_soda").into[0].g == pytest.approx(127, abs=2)


def test_salted_butter_takes_its_salt_off() -> None:
    choice = the(swaps_for("butter_unsalted", 113, SHELF, bowl=RICH, into="butter_salted"), "butter_salted")
    assert grams(choice.also, "salt_table") == pytest.approx(-1.82, abs=0.05)


def test_potato_flakes_leave_wheat_on_the_label_and_want_water() -> None:
    bowl = Bowl((Portion("flour_bread", 1000), Portion("water", 650)))
    answer = swaps_for("flour_bread", 50, SHELF, bowl=bowl, into="potato_flakes")
    choice = answer.choices[0]
    assert choice.loses == ()
    assert grams(choice.also, "water") == pytest.approx(75, abs=0.5)
    assert {"wheat", "gluten"} <= set(replaced(bowl, answer, choice).allergens(FOODS))


def test_self_raising_flour_in_yeast_dough_is_refused() -> None:
    with pytest.raises(Refused, match="salt and powder"):
        swaps_for("flour_all_purpose", 500, SHELF, into="flour_self_raising")


def test_more_than_the_sensible_share_is_said() -> None:
    assert the(swaps_for("sugar_granulated", 60, SHELF), "honey").beyond_limit
    assert not the(swaps_for("sugar_granulated", 40, SHELF, bowl=RICH), "honey").beyond_limit


def test_out_of_eggs_offers_no_egg_first() -> None:
    first = swaps_for("egg_whole", 50, SHELF).choices[0]
    assert not any(FOODS[part.item].group == "egg" for part in first.into)


KEEPS_WATER = ("sweetener", "fat", "liquid", "binder")
GELS = ("flax_ground", "chia_seeds", "psyllium_husk")


@given(st.sampled_from([swap for swap in KB.all(Swap).values() if swap.function in KEEPS_WATER]), st.floats(20, 400))
def test_a_swap_keeps_hydration_and_salt(swap: Swap, g: float) -> None:
    ratios = [part.per_g for part in swap.into]
    if swap.water_g is None or not ratios or any(part.item in GELS for part in swap.into):
        return
    rest = (Portion("flour_bread", 1000.0), Portion("water", 2000.0), Portion("salt_table", 60.0))
    bowl = Bowl((*rest, Portion("sugar_granulated", 300.0))).with_added((Portion(swap.out, g),))
    answer = swaps_for(swap.out, g, SHELF, bowl=bowl, function=swap.function)
    key = tuple(part.item for part in swap.into)
    choice = next((one for one in answer.choices if tuple(part.item for part in one.into) == key), None)
    assert choice is not None, swap.id
    before, after = bowl.holds(FOODS), replaced(bowl, answer, choice).holds(FOODS)
    assert after.water_g == pytest.approx(before.water_g, abs=0.02 * g + 1.1), swap.id
    assert after.salt_g == pytest.approx(before.salt_g, abs=0.004 * g + 0.25), swap.id


@given(
    st.sampled_from([swap for swap in KB.all(Swap).values() if swap.function == "sweetener" and len(swap.into) == 1]),
    st.floats(10, 300),
)
def test_a_sweetener_keeps_the_sugars(swap: Swap, g: float) -> None:
    if swap.into[0].item in ("glucose_syrup", "corn_syrup"):
        return  # dextrins beside sugars: equal solids, said to be less sweet
    bowl = Bowl((Portion("flour_bread", 1000.0), Portion("water", 900.0), Portion("salt_table", 20.0))).with_added(
        (Portion(swap.out, g), Portion("sugar_granulated", 100.0))
    )
    answer = swaps_for(swap.out, g, SHELF, bowl=bowl, function="sweetener", into=swap.into[0].item)
    choice = answer.choices[0]
    if choice.into[0].item in ("glucose_syrup", "corn_syrup") or swap.out in ("corn_syrup",):
        return
    after = replaced(bowl, answer, choice).holds(FOODS).sugar_g
    assert after == pytest.approx(bowl.holds(FOODS).sugar_g, abs=0.02 * g + 1.1), swap.id


@given(st.sampled_from(sorted(FOODS)), st.sampled_from(sorted(KB.all(Diet))))
def test_no_swap_offers_what_is_to_be_avoided(out: str, diet_id: str) -> None:
    diet = KB.get(Diet, diet_id)
    avoid = Avoid(frozenset(diet.allergens), frozenset(diet.ingredients), frozenset(diet.groups), diet.medical)
    for choice in swaps_for(out, 50, SHELF, avoid=avoid).choices:
        for part in choice.into:
            assert not set(diet.allergens) & set(FOODS[part.item].allergens)
            assert part.item not in diet.ingredients
            if diet.medical:
                assert not set(diet.allergens) & set(may_carry(part.item, SHELF))


@given(st.sampled_from(sorted(FOODS)), st.floats(0.5, 2000))
def test_every_choice_puts_something_in(out: str, g: float) -> None:
    answer = swaps_for(out, g, SHELF)
    assert answer.out.g == g
    for choice in answer.choices:
        assert choice.into and all(part.g > 0 for part in choice.into)
        assert out not in {part.item for part in choice.into}
        assert choice.effect and choice.source


def test_what_a_diet_keeps_out_is_found_heaviest_first() -> None:
    vegan = KB.get(Diet, "vegan")
    avoid = Avoid(frozenset(vegan.allergens), frozenset(vegan.ingredients), frozenset(vegan.groups), vegan.medical)
    assert [row.item for row in offenders(RICH, avoid, SHELF)] == [
        "milk_whole",
        "butter_unsalted",
        "egg_whole",
        "honey",
    ]


def test_every_swap_on_record_has_a_source_and_is_there() -> None:
    assert len(SHELF.swaps) >= 247
    assert len({swap.function for swap in SHELF.swaps.values()}) == 15


@given(st.sampled_from(sorted(FOODS)), st.floats(1, 1000))
def test_out_and_in_are_never_the_same(out: str, g: float) -> None:
    """Nothing is replaced by itself, and a whole egg of any size by no egg of another."""
    try:
        swapped = swaps_for(out, g, SHELF)
    except Refused:
        return
    for choice in swapped.choices:
        assert out not in [part.item for part in choice.into], choice
