"""The kept table is the grammar's own, and following it is the same as letting lark parse."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lark import Lark, Token, Tree
from lark.lexer import Lexer

from grammar import phrase_table
from grammar.phrase_table import GRAMMAR, KEPT, NoPhrase, follow, made

TERMINALS = (
    "NUM", "PCT", "MASS", "VOLUME", "TIME", "TEMP", "EACH", "LENGTH", "CLOCK", "DAY", "PART", "LABEL", "LINK", "SEP",
    "JUNK", "NEG", "TIMES", "RANGE", "INSTEAD", "GLUE",
)  # fmt: skip
RULES = (
    "start", "amount", "batch", "sizes", "span", "instead", "moment", "window", "without", "label", "link", "sep",
    "junk",
)  # fmt: skip


def test_the_kept_table_belongs_to_the_grammar_and_no_rules_are_in_conflict() -> None:
    """If this fails after a change of the grammar: python -m grammar.phrase_table"""
    assert json.loads(KEPT.read_text()) == made(GRAMMAR.read_text(encoding="utf-8"), strict=True)


class Given(Lexer):
    def __init__(self, lexer_conf: Any) -> None:
        del lexer_conf

    def lex(self, data: Any) -> Any:  # type: ignore[override]
        for name, place in data:
            yield Token(name, str(place))


def nested(tree: Any) -> Any:
    return (str(tree.data), *map(nested, tree.children)) if isinstance(tree, Tree) else (tree.type, tree.value)


class Nest:
    """Builds every rule as (its name, its parts …)."""

    def __getattr__(self, name: str) -> Callable[[list[Any]], Any]:
        if name not in RULES:
            raise AttributeError(name)
        return lambda parts: (name, *((p.type, p.value) if hasattr(p, "type") else p for p in parts))


LARK = Lark(GRAMMAR.read_text(encoding="utf-8"), parser="lalr", lexer=Given)


@given(st.lists(st.sampled_from(TERMINALS), max_size=10))
def test_following_the_table_is_what_lark_does(names: list[str]) -> None:
    tokens = [(name, str(place)) for place, name in enumerate(names)]
    try:
        parsed: Any = nested(LARK.parse(tokens))  # type: ignore[arg-type]
    except Exception:
        parsed = None
    try:
        followed = follow(tokens, Nest())
    except NoPhrase:
        followed = None
    assert followed == parsed


def test_a_table_of_another_grammar_is_made_anew(tmp_path: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    changed = tmp_path / "phrases.lark"
    changed.write_text(GRAMMAR.read_text(encoding="utf-8") + "\n// changed\n")
    monkeypatch.setattr(phrase_table, "GRAMMAR", changed)
    phrase_table.table.cache_clear()
    try:
        assert phrase_table.table()["grammar"] != json.loads(KEPT.read_text())["grammar"]
        assert follow([("NUM", "1")], Nest()) == ("start", ("amount", ("NUM", "1")))
    finally:
        phrase_table.table.cache_clear()
