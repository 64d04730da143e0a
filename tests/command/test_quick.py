"""Records made in the quick way are what `dataclasses` makes, in everything that is asked of them."""

from __future__ import annotations

import copy
import dataclasses
import importlib
import pkgutil
from collections.abc import Callable
from typing import Any, ClassVar

import pytest

import assistant
import grammar
import knowledge
from assistant.quick import _IN_FULL, quick


def plain() -> type:
    class Plain:
        KIND: ClassVar[str] = "dough"
        name: str
        g: float = 80.0

        def twice(self) -> float:
            return 2 * self.g

    return Plain


def kept() -> type:
    class Kept:
        rows: list[str] = dataclasses.field(default_factory=list)
        mark: str = dataclasses.field(default="", compare=False, repr=False)
        seen: int = dataclasses.field(default=7, init=False)

        def __post_init__(self) -> None:
            if "lye" in self.rows:
                raise ValueError("not into the dough")

    return Kept


def own() -> type:
    class Own:
        name: str = ""

        def __eq__(self, other: object) -> bool:
            return True

        def __repr__(self) -> str:
            return "own"

    return Own


HOWS: tuple[dict[str, bool], ...] = (
    {"frozen": True, "slots": True},
    {"frozen": True, "slots": True, "kw_only": True},
    {"slots": True},
    {"frozen": True, "slots": True, "eq": False},
)
CALLS: tuple[tuple[tuple[Any, ...], dict[str, Any]], ...] = (
    (("rolls",), {}), (("rolls", 95.0), {}), ((), {"name": "rolls", "g": 1.0}), ((), {}), ((), {"crumb": 1}),
    ((["a"],), {}), ((), {"rows": ["a"], "mark": "x"}), ((), {"rows": ["lye"]}), ((), {"seen": 2}), (("a", "b", 3), {}),
)  # fmt: skip


def outcome(call: Callable[[], object]) -> str:
    try:
        return repr(call())
    except (TypeError, ValueError, AttributeError) as wrong:
        return type(wrong).__name__


def behaviour(cls: Any, values: tuple[Any, ...], named: dict[str, Any]) -> list[str]:
    """What is seen of an object made with these arguments."""
    made = outcome(lambda: cls(*values, **named))
    if made in ("TypeError", "ValueError"):
        return [made]
    one, other = cls(*values, **named), cls(*values, **named)
    first = dataclasses.fields(one)[0].name
    return [
        made,
        outcome(lambda: one == other),
        outcome(lambda: one == "rolls"),
        outcome(lambda: hash(one) == hash(other)),
        outcome(lambda: dataclasses.replace(one)),
        outcome(lambda: dataclasses.asdict(one)),
        outcome(lambda: copy.deepcopy(one)),
        outcome(lambda: setattr(one, first, "x")),
        outcome(lambda: delattr(one, first)),
        outcome(lambda: one),
    ]


@pytest.mark.parametrize("how", HOWS, ids=str)
@pytest.mark.parametrize("model", [plain, kept, own])
def test_made_the_quick_way_a_class_is_the_same(model: Callable[[], type], how: dict[str, bool]) -> None:
    ours, theirs = quick(model(), how), _IN_FULL(model(), **how)
    assert ours.__slots__ == theirs.__slots__ and ours.__match_args__ == theirs.__match_args__
    assert [f.name for f in dataclasses.fields(ours)] == [f.name for f in dataclasses.fields(theirs)]
    for values, named in CALLS:
        assert behaviour(ours, values, named) == behaviour(theirs, values, named)


def test_a_record_that_builds_on_another_has_the_fields_of_both() -> None:
    base = quick(plain(), HOWS[0])
    more = quick(type("More", (base,), {"__annotations__": {"oven_c": "float"}, "oven_c": 230.0}), HOWS[1])
    made = more("rolls", oven_c=240.0)
    assert (made.name, made.g, made.oven_c, made.twice()) == ("rolls", 80.0, 240.0, 160.0)
    assert dataclasses.replace(made, g=90.0) == more("rolls", 90.0, oven_c=240.0) and more.__slots__ == ("oven_c",)
    assert dataclasses.asdict(made) == {"name": "rolls", "g": 80.0, "oven_c": 240.0}


def test_every_record_of_the_program_can_tell_its_fields() -> None:
    for package in (assistant, grammar, knowledge):
        for found in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
            if "terminal" in found.name or found.name.endswith("__main__"):
                continue
            for cls in vars(importlib.import_module(found.name)).values():
                if isinstance(cls, type) and "_held" in vars(cls):
                    assert [field.name for field in dataclasses.fields(cls)] == list(cls._held)
