"""Numbers as people write and say them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar.number_words import ONES, PARTS, TENS, spelled
from grammar.numbers import digits


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


@pytest.mark.parametrize(
    ("text", "value", "words"),
    [
        ("two point two five percent", 2.25, 4),
        ("point five", 0.5, 2),
        ("nought point oh five", 0.05, 4),
        ("sixty two point five", 62.5, 4),
        ("one point seventy five", 1.75, 4),
        ("two points", 2, 1),
    ],
)
def test_a_decimal_spoken(text: str, value: float, words: int) -> None:
    said = spelled(text.split())
    assert said is not None
    assert (said.value, said.words) == (pytest.approx(value), words)


def in_words(whole: int) -> str:
    """A whole number below a thousand as it is said."""
    if whole >= 100:
        rest = whole % 100
        return f"{in_words(whole // 100)} hundred" + (f" and {in_words(rest)}" if rest else "")
    if whole < 20:
        return next(word for word, value in ONES.items() if value == whole)
    tens = next(word for word, value in TENS.items() if value == whole - whole % 10)
    return tens if whole % 10 == 0 else f"{tens} {in_words(whole % 10)}"


@given(st.integers(0, 999))
def test_a_number_in_words_is_itself(whole: int) -> None:
    said = spelled(in_words(whole).split())
    assert said is not None
    assert (said.value, said.words) == (whole, len(in_words(whole).split()))


@given(st.integers(0, 99), st.text("0123456789", min_size=1, max_size=5))
def test_a_spoken_decimal_is_the_written_one(whole: int, behind: str) -> None:
    words = f"{in_words(whole)} point {' '.join(in_words(int(digit)) for digit in behind)}".split()
    said = spelled(words)
    assert said is not None
    assert said.words == len(words)
    assert said.value == pytest.approx(digits(f"{whole}.{behind}"))


@given(st.integers(1, 20), st.sampled_from(["half", "third", "quarter", "fifth", "eighth"]))
def test_a_whole_and_a_part_in_words(whole: int, part: str) -> None:
    said = spelled(f"{in_words(whole)} and a {part}".split())
    assert said is not None and not said.fraction
    assert said.value == pytest.approx(whole + 1 / PARTS[part])
