"""Raw values against type hints: what fits is turned into the record, what does not is named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from knowledge.shape import build, plain_fields


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    low: float
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    name: str
    share: float
    count: int = 0
    sure: bool = False
    kind: Literal["flour", "water"] = "flour"
    said_as: tuple[str, ...] = ()
    ends: tuple[float, float] | None = None
    span: Span | None = None
    spans: tuple[Span, ...] = ()
    weights: Mapping[str, float] | None = None
    either: str | tuple[str, ...] | None = None

    def __post_init__(self) -> None:
        if self.share > 100:
            raise ValueError("share: more than 100")


def read(raw: object) -> tuple[Fact | None, list[str]]:
    faults: list[str] = []
    plain = plain_fields(Fact, raw, faults)
    return (None if faults else build(Fact, plain)), faults


def test_a_whole_record() -> None:
    fact, faults = read(
        {
            "name": "rye",
            "share": 40,
            "count": 2,
            "sure": True,
            "kind": "water",
            "said_as": ["a", "b"],
            "ends": [1, 2],
            "span": {"low": 1},
            "spans": [{"low": 1, "high": 2}],
            "weights": {"x": 1},
            "either": ["p", "q"],
        }
    )
    assert faults == []
    assert fact == Fact(
        name="rye",
        share=40.0,
        count=2,
        sure=True,
        kind="water",
        said_as=("a", "b"),
        ends=(1.0, 2.0),
        span=Span(low=1.0),
        spans=(Span(low=1.0, high=2.0),),
        weights={"x": 1.0},
        either=("p", "q"),
    )
    assert isinstance(fact, Fact) and isinstance(fact.share, float)
    with pytest.raises(TypeError):
        fact.weights["x"] = 2  # type: ignore[index]


@pytest.mark.parametrize(
    ("field", "raw", "told"),
    [
        ("share", "40", "share: expected a number, got '40'"),
        ("share", None, "share: expected a number, got nothing"),
        ("share", float("nan"), "share: expected a number that a kitchen knows"),
        ("share", float("inf"), "share: expected a number that a kitchen knows"),
        ("count", 1.5, "count: expected a whole number, got the number 1.5"),
        ("count", True, "count: expected a whole number, got true"),
        ("kind", "salt", "kind: expected one of flour, water, got 'salt'"),
        ("said_as", ["a", ["b"]], "said_as[2]: expected text, got a list"),
        ("ends", [1], "ends: expected 2 values, got 1"),
        ("ends", [1, "x"], "ends[2]: expected a number, got 'x'"),
        ("span", {"high": 2}, "span.low: is missing"),
        ("spans", [{"low": 1, "wide": 2}], "spans[1].wide: unknown field"),
        ("weights", {"x": "much"}, "weights.x: expected a number, got 'much'"),
        ("weights", {3: 1.0}, "weights: key 3 is not text"),
        ("either", 3, "either: expected text, got the number 3 (put it in quotes), or expected a list"),
    ],
)
def test_what_does_not_fit_is_named(field: str, raw: object, told: str) -> None:
    _, faults = read({"name": "rye", "share": 1, field: raw})
    assert len(faults) == 1 and told in faults[0], faults


def test_all_faults_at_once() -> None:
    _, faults = read({"share": "x", "count": "y", "more": 1})
    assert {fault.split(":")[0] for fault in faults} == {"name", "share", "count", "more"}


def test_the_class_itself_may_object() -> None:
    faults: list[str] = []
    plain = plain_fields(Fact, {"name": "x", "share": 101}, faults)
    assert faults == []
    with pytest.raises(ValueError, match="more than 100"):
        build(Fact, plain)


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(st.sampled_from([field.name for field in fields(Fact)]) | st.text(max_size=4), anything))
def test_any_values_are_either_a_record_or_faults(raw: dict[str, Any]) -> None:
    faults: list[str] = []
    plain = plain_fields(Fact, raw, faults)
    if faults:
        assert all(": " in fault for fault in faults)
        return
    if plain["share"] <= 100:
        fact = build(Fact, plain)
        assert all(getattr(fact, name) is not None or plain[name] is None for name in plain)
