"""A saved or pasted web page, or schema.org Recipe JSON-LD alone, turned into the plain text of its recipe.

Only the standard library's parsers look at it: scripts and styles are skipped, nothing is fetched or run, nesting and
size are bounded, and what is no recipe comes back as its visible text.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from html.parser import HTMLParser
from typing import Any

from grammar.recipe.line import read_lines
from grammar.recipe.plain import harmless
from grammar.recipe.sheet import MOST_INGREDIENTS, Sheet, Yield, minutes, oven_said, read_sheet, yield_said
from grammar.recipe.words import RecipeWords

LONGEST_PASTE = 1_000_000
"""Characters of a paste that are looked at."""
DEEPEST_JSON = 60
MOST_NODES = 50_000

_HTML = re.compile(
    r"<\s*(?:!doctype|html|head|body|script|div|p|ul|ol|li|table|section|article|span|h[1-6]|br|tr|td|meta)\b", re.I
)
_BLOCK = frozenset(
    {
        "p", "div", "li", "ul", "ol", "br", "tr", "table", "h1", "h2", "h3", "h4", "h5", "h6", "section",
        "article", "header", "footer", "main", "aside", "dt", "dd", "blockquote", "pre", "hr", "label",
    }
)  # fmt: skip
_SILENT = frozenset(
    {
        "script", "style", "noscript", "template", "svg", "iframe", "object", "embed", "canvas", "video",
        "audio", "select", "button", "head", "nav", "form",
    }
)  # fmt: skip
_HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})


@dataclass(frozen=True, slots=True)
class RecipeData:
    """The fields of a schema.org Recipe that are used."""

    name: str = ""
    ingredients: tuple[str, ...] = ()
    makes: str = ""
    cook_time: str = ""
    total_time: str = ""
    method: str = ""


class BadRecipeData(ValueError):
    """JSON that cannot be read: says why in the baker's words."""


def read_recipe(text: str, known: RecipeWords) -> Sheet:
    """The recipe in whatever was pasted: plain lines, a page's HTML, or JSON-LD.

    Raises BadRecipeData where the paste is JSON alone and broken, too deep or without a recipe in it.
    """
    cut = len(text) > LONGEST_PASTE
    text = text[:LONGEST_PASTE].replace("\x00", "")
    start = text.lstrip("\ufeff \t\r\n")[:1]
    if start in ("{", "["):
        looks_like_json = re.match(r'\s*[{\[]\s*(?:["{\[\]}]|$)', text.lstrip("\ufeff"))
        if looks_like_json:
            found = data_in_json(text)
            if found is None:
                raise BadRecipeData("this JSON holds no recipe: no Recipe with a recipeIngredient list is in it")
            return _sheet_of_data(found, known, cut)
    table = data_in_table(text)
    if table is not None:
        return _sheet_of_data(table, known, cut)
    if _HTML.search(text[:200_000]):
        data, visible = parse_page(text)
        if data is not None:
            return _sheet_of_data(data, known, cut)
        text = visible
    sheet = read_sheet(text, known)
    return replace(sheet, cut_short=True) if cut else sheet


def data_in_json(text: str) -> RecipeData | None:
    """The first Recipe in a JSON text; None where there is none. BadRecipeData where it is broken or too deep."""
    depth = deepest = 0
    quoted = escaped = False
    for sign in text:
        if quoted:
            quoted = escaped or sign != '"'
            escaped = sign == "\\" and not escaped
            continue
        if sign == '"':
            quoted = True
        elif sign in "{[":
            depth += 1
            deepest = max(deepest, depth)
        elif sign in "}]":
            depth -= 1
    if deepest > DEEPEST_JSON:
        raise BadRecipeData(f"this JSON is nested {deepest} levels deep, more than any recipe is")
    try:
        tree = json.loads(text, strict=False)
    except ValueError as wrong:
        place = f" near line {wrong.lineno}" if isinstance(wrong, json.JSONDecodeError) else ""
        raise BadRecipeData(f"this JSON is broken{place}; paste the ingredient list as plain lines instead") from None
    except RecursionError:
        raise BadRecipeData("this JSON is nested too deeply to be a recipe") from None
    for node in _nodes(tree):
        if _is_recipe(node):
            return _data(node)
    return None


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


def _nodes(tree: Any) -> Iterator[dict[str, Any]]:
    """Every object of a JSON tree, outer ones first."""
    waiting, seen = [tree], 0
    while waiting and seen < MOST_NODES:
        node = waiting.pop(0)
        seen += 1
        if isinstance(node, dict):
            yield node
            waiting += [value for value in node.values() if isinstance(value, (dict, list))]
        elif isinstance(node, list):
            waiting += [value for value in node if isinstance(value, (dict, list))]


def _is_recipe(node: dict[str, Any]) -> bool:
    kinds = node.get("@type", node.get("type", ""))
    kinds = kinds if isinstance(kinds, list) else [kinds]
    named = any(isinstance(kind, str) and kind.rsplit("/", 1)[-1].lower() == "recipe" for kind in kinds)
    listed = _texts(node.get("recipeIngredient") or node.get("ingredients"))
    return bool(listed) and (named or "recipeIngredient" in node)


def _data(node: dict[str, Any]) -> RecipeData:
    makes = _texts(node.get("recipeYield") or node.get("yield"))
    return RecipeData(
        name=(_texts(node.get("name")) or ("",))[0],
        ingredients=_texts(node.get("recipeIngredient") or node.get("ingredients")),
        makes=max(makes, key=len, default=""),
        cook_time=(_texts(node.get("cookTime")) or ("",))[0],
        total_time=(_texts(node.get("totalTime")) or ("",))[0],
        method="\n".join(_texts(node.get("recipeInstructions"))),
    )


def _texts(value: Any, depth: int = 0) -> tuple[str, ...]:
    """The texts in a value that should be a text or a list of them, but may be a number, an object or nested."""
    if depth > 6:
        return ()
    if isinstance(value, str):
        return tuple(part.strip() for part in value.splitlines() if part.strip())
    if isinstance(value, bool) or value is None:
        return ()
    if isinstance(value, (int, float)):
        return (f"{value:g}",)
    if isinstance(value, list):
        return tuple(text for one in value[:1000] for text in _texts(one, depth + 1))
    if isinstance(value, dict):
        inner = value.get("text") or value.get("name") or value.get("itemListElement") or value.get("value")
        return _texts(inner, depth + 1)
    return ()


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


def parse_page(text: str) -> tuple[RecipeData | None, str]:
    """(the page's Recipe data if it carries any, the page's visible text with one line for each block)."""
    reader = _PageReader()
    reader.feed(text)
    reader.close()
    found: RecipeData | None = None
    for block in reader.data_blocks:
        try:
            found = data_in_json(block)
        except BadRecipeData:
            continue  # a page with a broken block still has its visible text
        if found is not None:
            return found, ""
    if reader.marked:
        return RecipeData(name=reader.title, ingredients=tuple(reader.marked)), ""
    return None, reader.text()


class _PageReader(HTMLParser):
    """Visible text by block, JSON-LD blocks, and elements marked up as recipe ingredients."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.data_blocks: list[str] = []
        self.marked: list[str] = []
        self.title = ""
        self._parts: list[str] = []
        self._silent = 0
        self._data: list[str] | None = None
        self._mark: list[str] | None = None
        self._mark_depth = 0
        self._in_title = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        if tag == "script" and "ld+json" in named.get("type", "").lower():
            self._data = []
            return
        if tag == "title":
            self._in_title = True
        if tag in _SILENT:
            self._silent += 1
            return
        if self._silent:
            return
        if tag in _BLOCK:
            self._parts.append("\n# " if tag in _HEADINGS else "\n- " if tag == "li" else "\n")
        elif tag in ("td", "th"):
            self._parts.append(" ")
        if self._mark is not None:
            self._mark_depth += tag not in ("br", "img", "input", "hr", "meta", "link")
        elif named.get("itemprop", "").lower() in ("recipeingredient", "ingredients"):
            self._mark, self._mark_depth = [], 1

    def handle_endtag(self, tag: str) -> None:
        if tag == "title":
            self._in_title = False
        if tag == "script" and self._data is not None:
            self.data_blocks.append("".join(self._data))
            self._data = None
            return
        if tag in _SILENT:
            self._silent = max(0, self._silent - 1)
            return
        if tag in _BLOCK and not self._silent:
            self._parts.append("\n")
        if self._mark is not None:
            self._mark_depth -= 1
            if self._mark_depth <= 0:
                said = " ".join("".join(self._mark).split())
                if said:
                    self.marked.append(said)
                self._mark = None

    def handle_data(self, data: str) -> None:
        if self._data is not None:
            self._data.append(data)
            return
        if self._in_title and not self.title:
            self.title = " ".join(data.split())[:120]
        if self._silent:
            return
        self._parts.append(data.replace("\n", " "))
        if self._mark is not None:
            self._mark.append(data)

    def text(self) -> str:
        """The visible text, one line for each block."""
        return "\n".join(line for line in "".join(self._parts).splitlines() if line.strip(" #-"))
