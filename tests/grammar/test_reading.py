"""Laws of the reading: order of clauses, units, change of a figure, clear margins, honesty about what was not read."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.talk.lexicon import lexicon
from grammar.context import Context
from grammar.reader import CLEAR, Read, read
from grammar.requests import frames
from grammar.requests.formula import FormulaRequest
from knowledge import load

WORDS = lexicon(load())
TABLES = Path(__file__).parents[1] / "requests"


def said(line: str, context: Context | None = None) -> FormulaRequest:
    best = read(line, WORDS, frames(), context).best
    assert best is not None
    assert isinstance(best.request, FormulaRequest)
    assert best.unread == ()
    return best.request


counts = st.integers(2, 96)
masses = st.integers(25, 1200)
hydrations = st.integers(46, 90)
salts = st.sampled_from([1, 1.5, 1.8, 2, 2.2, 2.5])
starters = st.integers(5, 40)


@given(counts, masses, hydrations, salts, starters, st.randoms(use_true_random=False))
@settings(max_examples=60)
def test_the_order_of_clauses_does_not_matter(
    n: int, g: int, h: int, salt: float, starter: int, dice: random.Random
) -> None:
    clauses = [f"{n} rolls of {g} g", f"{h}% hydration", f"{salt}% salt", f"{starter}% starter"]
    plain = said(", ".join(clauses))
    assert (plain.pieces, plain.piece_g, plain.hydration_pct, plain.salt_pct, plain.starter_pct) == (
        n,
        g,
        h,
        salt,
        starter,
    )
    dice.shuffle(clauses)
    assert said(", ".join(clauses)) == plain


@given(counts, masses, hydrations)
@settings(max_examples=40)
def test_ounces_and_grams_read_alike(n: int, g: int, h: int) -> None:
    metric = said(f"{n} rolls of {g} g at {h}%")
    ounces = said(f"{n} rolls of {g / 28.349523125:.6f} oz at {h}%")
    assert ounces.piece_g == pytest.approx(metric.piece_g, rel=1e-4)
    assert (ounces.pieces, ounces.hydration_pct) == (metric.pieces, metric.hydration_pct)


@given(counts, masses, hydrations, st.integers(1, 9))
@settings(max_examples=40)
def test_another_figure_is_another_request(n: int, g: int, h: int, change: int) -> None:
    assert said(f"{n} rolls {g}g {h}%") != said(f"{n + change} rolls {g}g {h}%")
    assert said(f"{n} rolls {g}g {h}%") != said(f"{n} rolls {g}g {h + change}%")


def test_a_negation_is_another_request() -> None:
    assert said("24 rolls 80g 66% with malt") != said("24 rolls 80g 66% without malt")


@given(st.text(max_size=120))
@settings(max_examples=150)
def test_any_text_is_read_without_complaint(text: str) -> None:
    found = read(text, WORDS, frames())
    for reading in found.readings:
        assert all(isinstance(word, str) and word.strip() for word in reading.unread)


def corpus() -> Iterator[Any]:
    """Every line of the tables that stands alone and is answered with nothing unread."""
    for path in sorted(TABLES.glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")) or []:
            kinds = case["kind"] if isinstance(case["kind"], list) else [case["kind"]]
            if case.get("given") or "unread" in kinds or "\n" in str(case["say"]):
                continue
            for line in [case["say"]] if isinstance(case["say"], str) else case["say"]:
                yield pytest.param(line, id=f"{path.stem}: {line[:70]}")


@pytest.mark.parametrize("line", list(corpus()))
def test_every_corpus_line_is_read_with_a_clear_margin(line: str) -> None:
    found: Read = read(line, WORDS, frames())
    assert found.margin >= CLEAR, [(r.score, r.request) for r in found.readings[:2]]


def test_what_is_beyond_the_bounds_of_a_line_is_owned_up_to() -> None:
    line = "my bread is flat and sour, " * 60
    found = read(line, WORDS, frames())
    assert found.tokens[-1].beyond
    assert all(found.tokens[-1].text in reading.unread for reading in found.readings)
    assert any(reading.frame.topic == "diagnosis" for reading in found.readings)
