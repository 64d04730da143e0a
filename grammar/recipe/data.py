"""The Recipe data of schema.org, as JSON alone or as a page carries it: the fields that are used, and nothing run."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

DEEPEST_JSON = 60
MOST_NODES = 50_000


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


def data_in_json(text: str) -> RecipeData | None:
    """The first Recipe in a JSON text; None where there is none. BadRecipeData where it is broken or too deep."""
    deepest = _levels(text)
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


def _levels(text: str) -> int:
    """How many levels deep brackets are nested outside quotation."""
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
    return deepest


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
