"""Text to tokens: units, clock times, slips, and nothing thrown away."""

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.talk.lexicon import lexicon
from grammar.lexemes import MOST_FIGURES, MOST_LEXEMES
from grammar.lexicon import Lexicon
from grammar.moments import Moment, Window, resolve
from grammar.phrases import phrases
from grammar.scanner import scan
from knowledge import load

NOW = datetime(2026, 3, 14, 7, 30)  # a Saturday


def kinds(text: str, words: Lexicon) -> list[str]:
    return [token.kind for token in scan(text, words) if token.kind != "FILL"]


@pytest.mark.parametrize(
    ("text", "base", "dim"),
    [
        ("80g", 80, "mass"),
        ("1 lb 4 oz", 566.99, "mass"),
        ("2 1/2 kg", 2500, "mass"),
        ("1h30", 90, "time"),
        ("2 hours and 15 min", 135, "time"),
        ("an hour and a half", 90, "time"),
        ("half an hour", 30, "time"),
        ("3 days", 4320, "time"),
        ("60%", 60, "pct"),
        ("60 per cent", 60, "pct"),
        ("9 inches", 22.86, "length"),
        ("a cup", 236.588, "volume"),
        ("22 C", 22, "temperature"),
        ("two dozen", 24, "num"),
        ("2 doz less 2", 22, "num"),
        ("-5", -5, "num"),
        ("30 minus 4", 26, "num"),
        ("1 h 40", 100, "time"),
        ("2 lb 3 oz", 992.23, "mass"),
        ("1.5k of flour", 1500, "mass"),
        ("1 kilo 200 of flour", 1200, "mass"),
        ("half a percent", 0.5, "pct"),
        ("3 quarters", 0.75, "num"),
        ("minus 18 C", -18, "temperature"),
        ("3 K", 3, "warming"),
        ("one to two to two", 2, "ratio"),
    ],
)
def test_a_quantity_with_its_unit(text: str, base: float, dim: str, words: Lexicon) -> None:
    token = next(t for t in scan(text, words) if t.kind != "FILL")
    assert token.quantity is not None
    assert token.quantity.dim == dim
    assert token.quantity.base == pytest.approx(base, rel=1e-4)


def test_run_together(words: Lexicon) -> None:
    assert kinds("16x90g@63%salt2%", words) == ["NUM", "JUNK", "MASS", "LINK", "PCT", "TERM", "PCT"]


def test_18_c_is_a_temperature_and_3_c_flour_are_cups(words: Lexicon) -> None:
    assert scan("dough 18 C", words)[-1].kind == "TEMP"
    assert scan("3 c flour", words)[0].kind == "VOLUME"


def test_a_spaced_dash_is_no_minus(words: Lexicon) -> None:
    token = scan("salt - 2 %", words)[-1]
    assert token.quantity is not None and token.quantity.value == 2


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("strater", "starter"),
        ("hydraton", "hydration"),
        ("rols", "rolls"),
        ("flor", "flour"),
        ("yaest", "yeast"),
        ("wholmeal", "wholemeal"),
    ],
)
def test_a_slip_is_repaired_and_echoed(typed: str, meant: str, words: Lexicon) -> None:
    (token,) = scan(typed, words)
    assert token.text == typed
    assert token.repaired == meant


@pytest.mark.parametrize("word", ["table", "laws", "cat", "xq", "road", "brown", "monday"])
def test_an_ordinary_or_short_word_is_left_alone(word: str, words: Lexicon) -> None:
    assert all(token.repaired is None for token in scan(word, words))


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("by 9am sunday", "2026-03-15T09:00"),
        ("sunday at 9am", "2026-03-15T09:00"),
        ("tomorrow 9:30", "2026-03-15T09:30"),
        ("by 7pm", "2026-03-14T19:00"),
        ("at noon", "2026-03-14T12:00"),
        ("by half seven tomorrow", "2026-03-15T07:30"),
        ("quarter to nine tomorrow morning", "2026-03-15T08:45"),
        ("tomorrow breakfast", "2026-03-15T08:00"),
        ("sat 9:30", "2026-03-14T09:30"),
        ("2026-03-16T06:15", "2026-03-16T06:15"),
        ("monday 6pm", "2026-03-16T18:00"),
        ("by 18:45", "2026-03-14T18:45"),
        ("on the 16th of march at 8am", "2026-03-16T08:00"),
        ("tonight", "2026-03-14T21:00"),
    ],
)
def test_a_moment(text: str, wanted: str, words: Lexicon) -> None:
    (moment,) = [p.moment for p in phrases(scan(text, words)) if p.moment is not None]
    assert resolve(moment, NOW).isoformat(timespec="minutes") == wanted


def test_a_window(words: Lexicon) -> None:
    (window,) = [p.window for p in phrases(scan("asleep 10pm to 6am", words)) if p.window is not None]
    assert window == Window(Moment(minute=600, half="pm"), Moment(minute=360, half="am"))


WORDS = lexicon(load())


@given(st.text(max_size=200))
def test_every_sign_ends_in_a_token_and_nothing_raises(text: str) -> None:
    tokens = scan(text, WORDS)
    places = [(token.start, token.end) for token in tokens]
    assert places == sorted(places)
    covered = {i for start, end in places for i in range(start, end)}
    assert all(i in covered or not text[i].isalnum() for i in range(len(text)))
    phrases(tokens)


@pytest.mark.parametrize(
    "piece",
    ["12 ", "12 g ", "½", ".", "(", "1", "2% ", "one ", "rye 1150 c ", "and a half ", "1-", "2x", "glorp ", "sunday ",
     "half past ", "no wait 26 ", "a quarter of the flour ", "1/", "1:", "a'", "23 x 13 x 7 cm ", "from 1 l to 1.5 "],
)  # fmt: skip
def test_the_pieces_of_a_line_are_bound_however_long_it_is(piece: str) -> None:
    text = (piece * 10_000)[:10_000]
    tokens = scan(text, WORDS)
    assert len(tokens) <= MOST_LEXEMES + 1
    assert sum(token.quantity is not None for token in tokens) <= MOST_FIGURES
    assert max(token.end for token in tokens) >= len(text.rstrip())


@pytest.mark.parametrize(
    "text", ["1" * 5000, "2 1/" + "3" * 5000, "at " + "9" * 5000 + " past 7", "0." + "0" * 400 + "1 g"]
)
def test_a_figure_beyond_all_bounds_is_not_read(text: str) -> None:
    assert any(token.kind == "JUNK" for token in scan(text, WORDS))
    assert all(token.quantity is None or token.quantity.value < 1e15 for token in scan(text, WORDS))
