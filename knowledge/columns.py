"""Large tables from phrases to meanings in the form in which they are kept: read back some five times as fast.

All phrases are one text, and each distinct meaning stands once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

V = TypeVar("V")


def columns(table: Mapping[str, Any]) -> dict[str, Any]:
    """The table as kept. No phrase has a line end in it."""
    numbers: dict[str, int] = {}
    meanings: list[Any] = []
    at: list[int] = []
    for meaning in table.values():
        number = numbers.setdefault(repr(meaning), len(numbers))
        if number == len(meanings):
            meanings.append(meaning)
        at.append(number)
    return {"phrases": "\n".join(table), "at": at, "meanings": meanings}


def from_columns(kept: Mapping[str, Any], made: Callable[[Any], V]) -> dict[str, V]:
    """The table again, each meaning made from what was kept of it."""
    meanings = [made(meaning) for meaning in kept["meanings"]]
    phrases = kept["phrases"].split("\n") if kept["at"] else []
    return dict(zip(phrases, map(meanings.__getitem__, kept["at"]), strict=True))


def pairs(kept: Any) -> tuple[tuple[Any, Any], ...]:
    """A meaning that is a row of pairs, such as terms."""
    return tuple((one, other) for one, other in kept)
