"""What is taken back inside a line: the value that stands is read as if it had been said at once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.talk.lexicon import lexicon
from grammar.lexicon import Lexicon
from grammar.scanner import scan
from knowledge import load

WORDS = lexicon(load())
PLAIN = sorted(phrase for phrase, classes in WORDS.takebacks.items() if "plain" in classes)
LINES = (
    ("24", " rolls at 80 g, 65 %"),
    ("80 g", " for 24 rolls at 65 %"),
    ("1.5 kg", " flour and 66 % water"),
    ("66 %", " water, 20 % starter"),
    ("26 C", " kitchen, how long does bulk take"),
    ("3 cups", " of flour in grams"),
    ("90 min", " in the oven"),
)


def meant(text: str) -> list[tuple[str, float | None]]:
    """The kinds and amounts of a line's tokens, small words and pauses apart."""
    tokens = (token for token in scan(text, WORDS) if token.kind not in ("FILL", "MARK"))
    return [(token.kind, token.quantity.base if token.quantity else None) for token in tokens]


@given(
    st.sampled_from(LINES),
    st.sampled_from(PLAIN),
    st.floats(0.5, 2).filter(lambda times: abs(times - 1) > 0.01),
    st.sampled_from([" {} ", ", {}, ", " - {} "]),
)
def test_a_value_taken_back_in_front_of_the_same_changes_nothing(
    line: tuple[str, str], phrase: str, times: float, pause: str
) -> None:
    value, rest = line
    number, _, unit = value.partition(" ")
    earlier = f"{float(number) * times:.2f} {unit}".strip()
    assert meant(f"{earlier}{pause.format(phrase)}{value}{rest}") == meant(value + rest)


@given(st.sampled_from(PLAIN), st.integers(10, 30), st.integers(10, 30))
def test_the_noun_may_be_said_with_both(phrase: str, first: int, second: int) -> None:
    assert meant(f"{first} rolls {phrase} {second} rolls 80 g") == meant(f"{second} rolls 80 g")


@given(st.text(max_size=60), st.sampled_from(PLAIN), st.text(max_size=60))
def test_nothing_gets_lost_of_any_line(before: str, phrase: str, behind: str) -> None:
    text = f"{before} {phrase} {behind}"
    tokens = scan(text, WORDS)
    covered = {i for token in tokens for i in range(token.start, token.end)}
    assert all(i in covered or not text[i].isalnum() for i in range(len(text)))


@pytest.mark.parametrize(
    "text",
    [
        "24 rolls 80 g, no salt",
        "500 g rye, sorry, no spelt",
        "30 rolls sorry 80 g each",
        "sorry, 20 pieces",
        "no, 18 of them",
        "dough should be 24 but is actually 22",
        "flour 500 g, actually water 300 g",
        "20 rolls 65 %, no 5 % honey",
        "rather sour",
    ],
)
def test_what_takes_nothing_back(text: str, words: Lexicon) -> None:
    assert not any(token.taken_back for token in scan(text, words))
