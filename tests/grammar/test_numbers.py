"""Numbers as people write and say them."""

import pytest

from grammar.numbers import digits, spelled


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12),
        ("62,5", 62.5),
        ("62.5", 62.5),
        ("1,200", 1200),
        ("12,000.5", 12000.5),
        ("1/2", 0.5),
        ("1 1/2", 1.5),
        ("1½", 1.5),
        ("½", 0.5),
        ("2 ¼", 2.25),
        (".5", 0.5),
        ("3 + 1/4", 3.25),
        ("1 and 1/2", 1.5),
        ("0,125", 0.125),
    ],
)
def test_digits(text: str, value: float) -> None:
    assert digits(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "value", "words"),
    [
        ("eighteen rolls", 18, 1),
        ("twenty five", 25, 2),
        ("a dozen and a half", 18, 5),
        ("two and a half dozen", 30, 5),
        ("half a dozen", 6, 3),
        ("a hundred and twenty grams", 120, 4),
        ("two hundred", 200, 2),
        ("a couple of loaves", 2, 3),
        ("one and a half", 1.5, 4),
        ("two thirds", 2 / 3, 2),
        ("three quarters rye", 0.75, 2),
        ("a fifth", 0.2, 2),
        ("dozen", 12, 1),
        ("two dozen", 24, 2),
        ("half", 0.5, 1),
        ("ninety nine", 99, 2),
        ("a thousand", 1000, 2),
    ],
)
def test_spelled(text: str, value: float, words: int) -> None:
    said = spelled(text.split())
    assert said is not None
    assert said.value == pytest.approx(value)
    assert said.words == words


@pytest.mark.parametrize("text", ["a roll", "rolls", "an oven", "and", ""])
def test_no_number(text: str) -> None:
    assert spelled(text.split()) is None


def test_a_part_is_marked_as_one() -> None:
    said = spelled(["a", "third", "rye"])
    assert said is not None and said.fraction
    whole = spelled(["one", "and", "a", "half"])
    assert whole is not None and not whole.fraction
