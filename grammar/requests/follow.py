"""A line that goes on from an earlier one: what it says takes the place of the same there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields, replace
from typing import Any, TypeVar

T = TypeVar("T")


def said(value: object) -> bool:
    """Whether a field holds something that was said; nought is something."""
    return not (value is None or value is False or value == ())


def changes(line: Any) -> dict[str, Any]:
    """The fields of a request that were said."""
    return {one.name: getattr(line, one.name) for one in fields(line) if said(getattr(line, one.name))}


def without(earlier: T, *names: str) -> T:
    """An earlier request with these fields unsaid."""
    blank = {one.name: one.default for one in fields(earlier) if one.default is not MISSING}  # type: ignore[arg-type]
    return replace(earlier, **{name: blank[name] for name in names if name in blank})  # type: ignore[type-var]


def put_onto(earlier: T, changed: Mapping[str, Any], forgets: Mapping[str, tuple[str, ...]] | None = None) -> T:
    """An earlier request with what changed put in; forgets: for a field said, those that hold no longer beside it."""
    gone = [name for field in changed for name in (forgets or {}).get(field, ())]
    return replace(without(earlier, *gone), **changed)  # type: ignore[type-var]
