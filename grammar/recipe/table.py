"""A recipe as a table with commas: a column of names and one of grams."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from grammar.recipe.data import RecipeData

_KINDS, _NAMES, _GRAMS = ("kind", "type"), ("name", "ingredient", "item"), ("g", "grams", "weight_g", "weight")


def data_in_table(text: str) -> RecipeData | None:
    """The recipe in a table with commas (RFC 4180) whose first row names a column of names and one of grams; None where
    it is none. Where a column says what a row is, only its ingredients are taken, and its title and yield."""
    first = text.lstrip("\ufeff\r\n").partition("\n")[0].lower()
    heads = [head.strip().strip('"') for head in first.split(",")]
    if not (set(heads) & set(_NAMES) and set(heads) & set(_GRAMS)):
        return None
    rows = csv.DictReader(io.StringIO(text.lstrip("\ufeff\r\n").lower().partition("\n")[0] + "\n" + _body(text)))
    found = RecipeData()
    try:
        for row in rows:
            kind, name, g = (_first(row, names) for names in (_KINDS, _NAMES, _GRAMS))
            if kind in ("", "ingredient") and name and g:
                found = replace(found, ingredients=(*found.ingredients, f"{g} g {name}"))
            elif kind == "title":
                found = replace(found, name=name)
            elif kind == "yield":
                found = replace(found, makes=_first(row, ("text",)))
    except csv.Error:
        return None
    return found if found.ingredients else None


def _body(text: str) -> str:
    return text.lstrip("\ufeff\r\n").partition("\n")[2]


def _first(row: Mapping[str | None, Any], names: Sequence[str]) -> str:
    """The cell under the first of these heads; a sign that keeps it from being a formula is left off."""
    said = next((str(row[name]) for name in names if row.get(name)), "").strip()
    return said[1:] if said[:2] in ("'=", "'+", "'-", "'@") else said
