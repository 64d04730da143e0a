"""The ingredient the talk was just about: what "it" means in a line that names no thing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def thing_of(focus: Mapping[str, Any]) -> tuple[str, ...]:
    """Ids of the one thing the last request was about, likeliest first; none where it was about none, or several.

    focus: the request as it is kept.
    """
    held = [one.get("ids") for one in focus.get("held") or ()]
    priced = [one.get("item") for one in focus.get("prices") or ()]
    terms = [one for one in focus.get("terms") or () if one.startswith(_INGREDIENT)]
    named = (*(focus.get("subjects") or ()), terms if len(terms) == 1 else ())
    asked = [[one.removeprefix(_INGREDIENT) for one in names if one.startswith(_INGREDIENT)] for names in named]
    told = [ids for ids in (focus.get("item"), focus.get("out"), *held, *priced, *asked) if ids]
    return tuple(told[0]) if len(told) == 1 else ()


_INGREDIENT = "ingredient:"
