"""The one table of roles: kept as written, each row whole, each owner a word somebody can say."""

from __future__ import annotations

import pytest

from assistant.talk.lexicon import lexicon
from grammar.lexicon import patterns_of
from grammar.phrases import phrases
from grammar.roles import KEPT, Role, compiled, roles
from grammar.scanner import scan
from knowledge import load


def test_the_kept_table_is_the_written_one() -> None:
    assert KEPT.read_text(encoding="utf-8") == compiled(), "run: python -m grammar.roles"


KNOWN = lexicon(load())


@pytest.mark.parametrize("role", roles().values(), ids=lambda role: role.name)
def test_an_example_holds_an_amount_the_role_measures(role: Role) -> None:
    amounts = [one for one in phrases(scan(role.example, KNOWN)) if one.kind == "amount"]
    assert any(one.dim in role.measures for one in amounts), [one.dim for one in amounts]


@pytest.mark.parametrize("role", roles().values(), ids=lambda role: role.name)
def test_what_is_plausible_is_possible(role: Role) -> None:
    if role.plausible and role.possible:
        assert role.possible[0] <= role.plausible[0] and role.plausible[1] <= role.possible[1]
    assert not role.plausible or role.plausible[0] < role.plausible[1]


def test_every_owner_is_a_word_somebody_can_say() -> None:
    ids: dict[str, set[str]] = {}
    for meanings in set(KNOWN.phrases.values()):
        for kind, id in meanings:
            ids.setdefault(kind, set()).add(id)
    for role in roles().values():
        for owner in (*role.owners, *role.not_of):
            kind = owner.partition(":")[0]
            known = any(owner in patterns_of(((kind, id),)) for id in ids.get(kind, ()))
            assert known, f"{role.name}: nothing is said as {owner}"
