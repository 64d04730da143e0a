"""Requests out of a stream, their bounds, and text made harmless."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.command.lines import beyond_bounds, requests_in, unwrapped
from assistant.command.plain import harmless

STREAMS = {
    b"": [],
    b"18 rolls\nwhy?\n": ["18 rolls", "why?"],
    b"18 rolls": ["18 rolls"],
    b"\n  \n# a remark\n  # another\n18 rolls\r\n": ["18 rolls"],
    "\ufeffb\u00e2tard, 900 g".encode(): ["b\u00e2tard, 900 g"],
    b"b\xe2tard": ["b\ufffdtard"],
    b"<<<\n250 g flour\n\n# not a remark\n150 g water\n>>>\nwhy?\n": [
        "250 g flour\n\n# not a remark\n150 g water",
        "why?",
    ],
    b"<<<\n250 g flour\n150 g water": ["250 g flour\n150 g water"],
    b" <<< \n\n>>>\nwhy?": ["why?"],
    b">>>\n": [">>>"],
}


@pytest.mark.parametrize("stream", STREAMS)
def test_requests_come_one_a_line(stream: bytes) -> None:
    assert list(requests_in(io.BytesIO(stream))) == STREAMS[stream]


@pytest.mark.parametrize(
    ("request_", "says"),
    [
        ("roll " * 2001, "10,000 characters"),
        ("flour\n" * 40_000, "200 kB"),
        ("1234567890123 rolls", "12 digits"),
        ("1,234,567,890,123 rolls", "12 digits"),
        ("9" * 400 + " g flour", "12 digits"),
    ],
)
def test_a_request_beyond_bounds_is_told_why(request_: str, says: str) -> None:
    told = beyond_bounds(request_)
    assert told is not None and says in told


@pytest.mark.parametrize(
    "request_",
    ["roll " * 2000, "flour\n" * 30_000, "999999999999 g", "999,999,999,999 g", "0.3333333333333333 l", "20260315T0630",
     "12, 24, 36, 48, 60, 72, 84 and 96 rolls", "12,24,36,48,60,72,84,96 rolls", "600 200 100 500 g"],
)  # fmt: skip
def test_a_request_within_bounds_is_read(request_: str) -> None:
    assert beyond_bounds(request_) is None


def test_a_stream_without_line_ends_is_cut_past_the_bound() -> None:
    stream = io.BytesIO(b"x" * 900_000 + b"\nwhy?\n")
    long, short = requests_in(stream)
    assert beyond_bounds(long) is not None and len(long) <= 200_001 and short == "why?"


def test_a_recipe_without_an_end_is_cut_past_the_bound() -> None:
    (recipe,) = requests_in(io.BytesIO(b"<<<\n" + b"250 g flour\n" * 100_000))
    assert beyond_bounds(recipe) is not None and len(recipe) < 201_000


def test_a_request_given_whole_may_carry_its_marks() -> None:
    assert unwrapped("<<<\n250 g flour\n150 g water\n>>>") == "250 g flour\n150 g water"
    assert unwrapped("250 g flour\n150 g water") == "250 g flour\n150 g water"


@pytest.mark.parametrize(
    ("sent", "shown"),
    [
        ("18 rolls \x1b[31mat 90 g\x1b[0m", "18 rolls at 90 g"),
        ("\x1b]0;owned\x07why?", "why?"),
        ("\x1b]0;owned\x1b\\why?", "why?"),
        ("\x9b2Jwhy?", "why?"),
        ("\x1bcwhy?", "why?"),
        ("why\x00\x08?\x7f", "why?"),
        ("one\r\ntwo\rthree\tfour", "one\ntwo\nthree\tfour"),
        ("\u202eshguorh\u202c", "shguorh"),
        ("br\u00f6tchen, 20 °C, ½ l", "br\u00f6tchen, 20 °C, ½ l"),
    ],
)
def test_what_could_steer_a_terminal_is_taken_out(sent: str, shown: str) -> None:
    assert harmless(sent) == shown


@given(st.text())
def test_nothing_that_steers_a_terminal_is_left_in_any_text(text: str) -> None:
    left = harmless(text)
    assert not [character for character in left if ord(character) < 32 and character not in "\n\t"]
    assert not [character for character in left if 127 <= ord(character) < 160]
    left.encode("utf-8")
    assert harmless(left) == left
