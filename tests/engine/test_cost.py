"""Prices: grams times price by the kilogram, and nothing made up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.composition import Portion
from assistant.engine.cost import cost, price_per_kg, to_buy

items = st.sampled_from(["flour_bread", "water", "salt_table", "butter_unsalted", "flour_rye_dark"])
doughs = st.lists(st.tuples(items, st.floats(0.1, 5000)), max_size=8).map(lambda rows: [Portion(*row) for row in rows])
prices = st.dictionaries(items, st.floats(0, 100))


def test_a_dough_by_hand() -> None:
    grams = {"flour_bread": 1000, "water": 650, "butter_unsalted": 50, "salt_table": 20}
    dough = [Portion(item, g) for item, g in grams.items()]
    found = cost(dough, {"flour_bread": 1.2, "butter_unsalted": 8})
    assert found.total == pytest.approx(1.6)
    assert found.by_item == pytest.approx({"flour_bread": 1.2, "butter_unsalted": 0.4})
    assert found.unpriced == ("salt_table",)


@given(doughs, prices)
def test_everything_is_priced_free_or_named(dough: list[Portion], per_kg: dict[str, float]) -> None:
    found = cost(dough, per_kg)
    assert {portion.item for portion in dough} == set(found.by_item) | set(found.unpriced) | (
        {"water"} & {portion.item for portion in dough} - set(per_kg)
    )
    assert found.total == pytest.approx(sum(portion.g / 1000 * per_kg.get(portion.item, 0) for portion in dough))


@given(doughs)
def test_the_list_to_buy_weighs_the_dough_without_its_water(dough: list[Portion]) -> None:
    bought = to_buy(dough)
    assert sum(one.g for one in bought) == pytest.approx(sum(one.g for one in dough if one.item != "water"))
    assert [one.g for one in bought] == sorted((one.g for one in bought), reverse=True)
    assert len({one.item for one in bought}) == len(bought)


def test_prices_of_packs() -> None:
    assert price_per_kg(2, 1500) == pytest.approx(1.3333, abs=1e-4)
    assert price_per_kg(0.3, 50) == pytest.approx(6)
    with pytest.raises(ValueError, match="no price"):
        price_per_kg(2, 0)
