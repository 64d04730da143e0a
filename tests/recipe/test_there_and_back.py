"""Laws of converting: what goes there comes back; what is printed reads as it was meant."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.cups_and_spoons import in_cups_and_spoons, volume_of
from assistant.engine.measures import Said, measure_book
from assistant.engine.naming import short_name
from assistant.engine.oven_settings import celsius, degree_meant, fahrenheit, gas_c, setting_of
from assistant.engine.recipe import WeighedLine, weigh_line
from assistant.engine.refusal import Refused
from assistant.engine.weighing import weigh
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from grammar.recipe.line import read_line
from grammar.recipe.page import read_recipe
from knowledge import load
from knowledge.records.measures import CUP_SYSTEMS
from knowledge.records.oven_marks import OvenMark

KB = load()
WORDS, BOOK = recipe_words(KB), measure_book(KB)
BY_VOLUME = st.sampled_from(sorted(id for id, item in KB.ingredients.items() if item.cup_g and not item.mass_only))
SYSTEMS = st.sampled_from(CUP_SYSTEMS)
CUPS = (
    "3 cups bread flour\n1 1/4 cups water\n2 tsp salt\n2 tbsp honey\n1 stick butter\n2 large eggs\n1 packet dried yeast"
)


def weighed(text: str) -> tuple[WeighedLine, ...]:
    return tuple(weigh_line(stated(line), "us", BOOK) for line in read_recipe(text, WORDS).lines)


@given(BY_VOLUME, SYSTEMS, st.floats(0.1, 40), st.sampled_from(["cup", "tbsp", "tsp"]))
def test_grams_of_a_volume_are_that_volume_again(item: str, system: str, amount: float, unit: str) -> None:
    there = weigh((Said(amount, amount, unit),), item, system, "", BOOK)
    back = volume_of(there.g, KB.ingredients[item], unit, system, "", BOOK)
    assert back.amount == pytest.approx(amount)
    assert back.low <= back.amount <= back.high


@given(BY_VOLUME, SYSTEMS, st.floats(0.1, 40))
def test_a_cup_lies_in_its_own_range(item: str, system: str, amount: float) -> None:
    found = weigh((Said(amount, amount, "cup"),), item, system, "", BOOK)
    assert 0 < found.low_g <= found.g <= found.high_g


@given(st.floats(3, 2500), SYSTEMS)
def test_cups_and_spoons_from_the_drawer_come_near(ml: float, system: str) -> None:
    said = in_cups_and_spoons(ml, system, BOOK)
    line = read_line(f"{said} water", WORDS)
    back = weigh_line(stated(line), system, BOOK)
    assert back.g is not None
    assert back.g == pytest.approx(ml, rel=0.06, abs=0.7), said


def test_a_converted_recipe_printed_in_grams_is_the_same_recipe() -> None:
    first = weighed(CUPS)
    printed = "Ingredients\n" + "\n".join(f"{line.g} g {short_name(KB.ingredients[line.item or ''])}" for line in first)
    again = weighed(printed)
    assert [line.item for line in again] == [line.item for line in first]
    assert [line.g for line in again] == pytest.approx([line.g for line in first])
    assert [line.g for line in weighed(printed.replace(" g ", " grams of "))] == pytest.approx(
        [line.g for line in first]
    )


@given(st.floats(-40, 400))
def test_degrees_come_back(c: float) -> None:
    assert celsius(fahrenheit(c)) == pytest.approx(c)


@pytest.mark.parametrize(("value", "degree"), [(180, "C"), (230, "C"), (290, "C"), (350, "F"), (450, "F"), (500, "F")])
def test_a_bare_oven_figure_goes_by_what_an_oven_can_do(value: float, degree: str) -> None:
    assert degree_meant(value) == degree


@pytest.mark.parametrize(("mark", "c"), [(0.5, 120), (1, 140), (4, 180), (6, 200), (7, 220), (9, 240)])
def test_gas_marks(mark: float, c: float) -> None:
    marks = KB.all(OvenMark).values()
    assert gas_c(mark, marks).c == c
    assert setting_of(c, marks).mark == mark


def test_there_is_no_gas_mark_fourteen() -> None:
    with pytest.raises(Refused, match="no gas mark 14"):
        gas_c(14, KB.all(OvenMark).values())
