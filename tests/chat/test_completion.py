"""What a half-typed line may go on with."""

import pytest

from assistant.talk.completion import MOST, continued

LINES = ("24 rolls of 80 g at 66 %", "why is it dense?")
VOCABULARY = {
    "rye flour": (("ingredient", "flour_rye"),),
    "rye flours": (("ingredient", "flour_rye"),),
    "rye": (("ingredient", "flour_rye"),),
    "rye bread": (("bread", "rye_loaf"),),
    "dark rye flour": (("ingredient", "flour_rye_dark"),),
    "ride": (("filler", "ride"),),
}


@pytest.mark.parametrize(
    ("typed", "likely", "offered"),
    [
        ("", (), list(LINES)),
        ("24", (), ["24 rolls of 80 g at 66 %"]),
        ("WHY", (), ["why is it dense?"]),
        ("20 % ry", (), ["20 % rye", "20 % rye bread"]),
        ("20 % ry", ("rye flour, dark",), ["20 % rye flour, dark", "20 % rye", "20 % rye bread"]),
        ("20 % dark rye fl", (), ["20 % dark rye flour", "20 % dark rye flours"][:1]),
        ("ri", (), []),
        ("20 % ", (), []),
    ],
)
def test_the_likeliest_comes_first_and_each_thing_once(typed: str, likely: tuple[str, ...], offered: list[str]) -> None:
    found = continued(typed, LINES, likely, VOCABULARY)
    assert [typed[: len(typed) - length] + text for length, text in found][: len(offered)] == offered
    assert len(found) == len({text for _, text in found}) and (offered or not found)


def test_a_long_list_is_cut() -> None:
    many = {f"flour {n}": (("ingredient", f"flour_{n}"),) for n in range(200)}
    assert len(continued("flour", (), (), many)) == MOST
