"""Whole recipes: headings, method left aside, yield and oven, JSON-LD, saved pages, hostile pastes, the way back."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.measures import measure_book
from assistant.engine.recipe import WeighedLine, masses_of, weigh_line
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from grammar.recipe.data import BadRecipeData
from grammar.recipe.makes import yield_said
from grammar.recipe.oven import minutes, oven_said
from grammar.recipe.page import LONGEST_PASTE, read_recipe
from grammar.recipe.sheet import MOST_INGREDIENTS, Sheet
from grammar.requests.recipe import whole_recipe
from knowledge import load

KB = load()
WORDS, BOOK = recipe_words(KB), measure_book(KB)

BOATHOUSE = """\
# Boathouse buns

Makes 18 buns of about 60 g

## Ingredients

**For the dough**
- 4 cups (520 g) strong flour, plus more for dusting
- 1 cup plus 2 tbsp lukewarm milk
- 1 x 7g sachet dried yeast
- salt, 2 tsp
- 55g butter
Topping:
- 1 egg, beaten

## Method

1. Warm the milk to 35 °C and stir in 1 tsp of sugar and the yeast.
2. Knead for 10 minutes. Preheat the oven to 210 °C (190 °C fan, gas 6) and bake for 18-20 minutes.

Notes: 2 cups of patience are needed.
"""


def weighed(sheet: Sheet) -> tuple[WeighedLine, ...]:
    return tuple(weigh_line(stated(line), "us", BOOK) for line in sheet.lines)


def test_a_page_gives_ingredients_yield_oven_and_time() -> None:
    sheet = read_recipe(BOATHOUSE, WORDS)
    assert [line.item for line in sheet.lines] == [
        "flour_bread", "milk_whole", "yeast_active_dry", "salt_table", "butter_unsalted", "egg_whole",
    ]  # fmt: skip
    assert sheet.makes is not None and (sheet.makes.pieces, sheet.makes.piece_g) == (18, 60)
    assert sheet.oven is not None and (sheet.oven.value, sheet.oven.unit, sheet.oven.fan) == (210, "C", False)
    assert sheet.bake_min == (18, 20)
    assert sheet.title == "Boathouse buns" and sheet.aside >= 2
    assert [round(line.g or 0) for line in weighed(sheet)] == [520, 274, 7, 12, 55, 50]


def test_lines_without_headings() -> None:
    sheet = read_recipe("500 g strong white flour\n325 ml water\n10 g salt\n7 g instant yeast", WORDS)
    assert masses_of(weighed(sheet)) == {"flour_bread": 500, "water": 325, "salt_table": 10, "yeast_instant": 7}


def test_one_line_with_commas() -> None:
    sheet = read_recipe("500g strong flour, 325g water, 10 g salt and 7 g instant yeast", WORDS)
    assert masses_of(weighed(sheet)) == {"flour_bread": 500, "water": 325, "salt_table": 10, "yeast_instant": 7}


def test_two_measures_that_disagree_are_pointed_out_and_the_weight_wins() -> None:
    line = weighed(read_recipe("2 cups (420 g) plain flour\n250 g water", WORDS))[0]
    assert line.g == 420 and any("differ" in remark for remark in line.remarks)
    fine = weighed(read_recipe("2 cups (260 g) plain flour\n250 g water", WORDS))[0]
    assert fine.g == 260 and not fine.remarks


def data(**more: object) -> str:
    recipe = {
        "@type": ["Thing", "Recipe"], "name": "Cox&#39;s loaf", "recipeYield": ["2", "2 loaves"], "cookTime": "PT35M",
        "totalTime": "PT4H5M", "recipeIngredient": ["500 g strong flour", "1&frac12; cups water", "2 tsp salt"],
        "recipeInstructions": [{"@type": "HowToStep", "text": "Bake at 230 °C for 35 minutes."}],
    }  # fmt: skip
    return json.dumps({"@context": "https://schema.org", "@graph": [{"@type": "WebPage"}, {**recipe, **more}]})


@pytest.mark.parametrize("wrap", ["{}", '<html><head><script type="application/ld+json">{}</script></head><p>3 cups x'])
def test_recipe_data_alone_and_inside_a_page(wrap: str) -> None:
    sheet = read_recipe(wrap.replace("{}", data()), WORDS)
    assert [round(line.g or 0) for line in weighed(sheet)] == [500, 355, 12]
    assert sheet.title == "Cox's loaf"
    assert sheet.makes is not None and sheet.makes.pieces == 2
    assert (sheet.bake_min, sheet.total_min) == ((35, 35), 245)
    assert sheet.oven is not None and sheet.oven.value == 230


def test_a_page_without_data_and_with_marked_elements() -> None:
    page = (
        "<html><head><title>Loaf</title><script>steal()</script><style>p{}</style></head><body><nav>2 cups menu</nav>"
        "<h2>Ingredients</h2><ul><li>500&nbsp;g strong flour</li><li><b>1&frac12;</b> cups&nbsp;water</li></ul>"
        "<h2>Method</h2><p>Mix in 3 cups of flour.</p></body></html>"
    )
    assert [round(line.g or 0) for line in weighed(read_recipe(page, WORDS))] == [500, 355]
    marked = '<div><span itemprop="recipeIngredient">2 tsp <i>salt</i></span><p>4 cups flour</p></div>'
    assert [line.item for line in read_recipe(marked, WORDS).lines] == ["salt_table"]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("[" * 5000, "nested"), ('{"a":' * 60000, "nested"), ('{"@type":"Recipe","recipeIngredient": "oo', "broken"),
        ('{"@type":"Person","name":"x"}', "no recipe"), ("{}", "no recipe"),
    ],
)  # fmt: skip
def test_data_that_is_no_recipe_is_told_clearly(text: str, why: str) -> None:
    with pytest.raises(BadRecipeData, match=why):
        read_recipe(text, WORDS)


@pytest.mark.parametrize(
    "text",
    [
        "<div>" * 30000 + "2 cups flour" + "</div>" * 30000, "a" * 200_000, "1 cup flour " * 16000, "(" * 200_000,
        "1 cup flour\n" * 16000, "1/2" * 60000, "<script>" + "x" * 200_000, "&amp;" * 40000, "<!--" * 50000,
        "\x1b]0;x\x07" * 20000, "|" * 200_000, "½" * 200_000, "[](" * 60000, "**" * 100_000, "<a " * 60000,
        "(((\n" * 50000, "1 2 3 4 5 6 7 8 9\n" * 10000, "|" * 190_000 + "\n|a|", "9" * 200_000,
        "1 x " * 50000, "or " * 60000, "1 cup sugar plus " * 12000, "{" + "\n1 cup flour" * 15000,
    ],
    ids=lambda text: text[:12],
)  # fmt: skip
def test_hostile_pastes_come_back_bounded(text: str) -> None:
    whole_recipe(text)
    try:
        sheet = read_recipe(text, WORDS)
    except BadRecipeData:
        return
    assert len(sheet.lines) <= MOST_INGREDIENTS
    shown = "".join(line.text + line.name for line in weighed(sheet)) + sheet.title
    assert "\x1b" not in shown and "<script" not in shown and len(shown) < 200_000


def test_nothing_of_a_script_or_an_escape_sequence_is_shown() -> None:
    sheet = read_recipe(
        "<p>2 cups <script>alert('flour')</script>flour\x1b[31m</p>\n<p>\x1b]0;evil\x071 tsp salt</p>", WORDS
    )
    shown = " ".join(line.text for line in sheet.lines)
    assert "alert" not in shown and "evil" not in shown and "\x1b" not in shown
    assert [line.item for line in sheet.lines] == ["flour_bread", "salt_table"]


def test_a_very_long_paste_is_cut_and_says_so() -> None:
    assert read_recipe("500 g flour\n" + "x" * LONGEST_PASTE, WORDS).cut_short


@given(st.text(max_size=400))
def test_any_text_is_read_without_a_fault(text: str) -> None:
    try:
        weighed(read_recipe(text, WORDS))
    except BadRecipeData:
        return


AMOUNTS = st.floats(1, 3000).map(lambda g: round(g, 1))
NAMES = st.sampled_from(sorted(id for id, item in KB.ingredients.items() if item.cup_g and item.group != "egg"))


@given(st.lists(st.tuples(NAMES, AMOUNTS), min_size=1, max_size=12, unique_by=lambda pair: pair[0]))
def test_what_is_printed_in_grams_is_read_back_the_same(rows: list[tuple[str, float]]) -> None:
    printed = "Ingredients\n" + "\n".join(f"{g:g} g {KB.ingredients[item].said_as[0]}" for item, g in rows)
    back = weighed(read_recipe(printed, WORDS))
    assert [line.g for line in back] == pytest.approx([g for _, g in rows])


@pytest.mark.parametrize(
    ("text", "pieces", "piece_g"),
    [
        ("Makes 12 rolls", 12, None), ("Yield: 2 loaves of 900 g", 2, 900), ("Serves 4", 4, None), ("12", 12, None),
        ("Makes about 16 (80 g) buns", 16, 80), ("Makes one large loaf", 1, None), ("Yields 2 dozen rolls", 24, None),
    ],
)  # fmt: skip
def test_yields(text: str, pieces: int, piece_g: float | None) -> None:
    made = yield_said(text)
    assert made is not None and (made.pieces, made.piece_g) == (pieces, piece_g)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("Preheat the oven to 450°F (230°C).", 230, "C"), ("Bake at 425 F for 20 minutes", 425, "F"),
        ("Heat the oven to gas mark 7", 7, "gas"), ("oven to 450", 450, "F"), ("Preheat oven to 220", 220, "C"),
        ("Heat oven to 200C/180C fan/gas 6", 200, "C"),
    ],
)  # fmt: skip
def test_ovens(text: str, value: float, unit: str) -> None:
    oven = oven_said(text)
    assert oven is not None and (oven.value, oven.unit) == (value, unit)


def test_durations() -> None:
    assert (minutes("PT1H20M"), minutes("1 hr 20 min"), minutes("P1DT2H"), minutes("soon")) == (80, 80, 1560, None)
