"""Ingredient lines in every form people write them, read and weighed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from assistant.engine.measures import measure_book
from assistant.engine.recipe import weigh_line
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from grammar.recipe.line import read_line
from knowledge import load

KB = load()
WORDS, BOOK = recipe_words(KB), measure_book(KB)
LINES: list[dict[str, Any]] = yaml.safe_load((Path(__file__).parent / "lines.yaml").read_text(encoding="utf-8"))


def test_there_are_a_hundred_forms_and_none_twice() -> None:
    assert len({row["line"] for row in LINES}) == len(LINES) >= 100


@pytest.mark.parametrize("row", LINES, ids=lambda row: row["line"])
def test_line(row: dict[str, Any]) -> None:
    line = read_line(row["line"], WORDS)
    found = weigh_line(stated(line), "us", BOOK)
    assert found.item == row["item"], found
    if "unread" in row:
        assert not found.read and row["unread"] in "; ".join(found.remarks), found
        return
    assert found.read, found
    if row["g"] is None:
        assert found.g is None
    else:
        assert found.g == pytest.approx(row["g"], rel=0.005, abs=0.6 if row["g"] > 20 else 0.06), found
        assert found.low_g is not None and found.high_g is not None and found.low_g <= found.g <= found.high_g
    if "also" in row:
        assert list(line.others) == row["also"]
