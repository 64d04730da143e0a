"""Whatever was pasted as a recipe: plain lines, a saved web page, Recipe data as JSON, or a table of weights.

Only the standard library's parsers look at it: nothing is fetched or run, nesting and size are bounded, and what is no
recipe comes back as its visible text.
"""

from __future__ import annotations

import re
from dataclasses import replace

from grammar.recipe.data import BadRecipeData, RecipeData, data_in_json
from grammar.recipe.line import read_lines
from grammar.recipe.makes import Yield, yield_said
from grammar.recipe.oven import minutes, oven_said
from grammar.recipe.plain import harmless
from grammar.recipe.sheet import MOST_INGREDIENTS, Sheet, read_sheet
from grammar.recipe.table import data_in_table
from grammar.recipe.web_page import HTML, parse_page
from grammar.recipe.words import RecipeWords

LONGEST_PASTE = 1_000_000
"""Characters of a paste that are looked at."""

_JSON = re.compile(r'\s*[{\[]\s*(?:["{\[\]}]|$)')


def read_recipe(text: str, known: RecipeWords) -> Sheet:
    """The recipe in whatever was pasted: plain lines, a page's HTML, or JSON-LD.

    Raises BadRecipeData where the paste is JSON alone and broken, too deep or without a recipe in it.
    """
    cut = len(text) > LONGEST_PASTE
    text = text[:LONGEST_PASTE].replace("\x00", "")
    if _JSON.match(text.lstrip("\ufeff")):
        found = data_in_json(text)
        if found is None:
            raise BadRecipeData("this JSON holds no recipe: no Recipe with a recipeIngredient list is in it")
        return _sheet_of_data(found, known, cut)
    table = data_in_table(text)
    if table is not None:
        return _sheet_of_data(table, known, cut)
    if HTML.search(text[:200_000]):
        data, visible = parse_page(text)
        if data is not None:
            return _sheet_of_data(data, known, cut)
        text = visible
    sheet = read_sheet(text, known)
    return replace(sheet, cut_short=True) if cut else sheet


def _sheet_of_data(data: RecipeData, known: RecipeWords, cut: bool) -> Sheet:
    lines = tuple(line for text in data.ingredients[:MOST_INGREDIENTS] for line in read_lines(text, known))
    method = read_sheet("Method:\n" + data.method, known) if data.method else Sheet()
    cook = minutes(data.cook_time)
    makes = yield_said(harmless(data.makes)) if data.makes else None
    return Sheet(
        title=" ".join(harmless(data.name).split())[:120],
        lines=lines,
        makes=makes if makes is not None else (Yield(harmless(data.makes)) if data.makes else None),
        oven=method.oven or oven_said(data.method[:5000]),
        bake_min=method.bake_min or ((cook, cook) if cook else None),
        total_min=minutes(data.total_time),
        aside=len(data.method.splitlines()),
        cut_short=cut,
    )
