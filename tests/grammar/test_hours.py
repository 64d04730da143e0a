"""Bare numbers that are hours, and those that are not."""

from __future__ import annotations

from functools import cache

import pytest

from assistant.talk.lexicon import lexicon
from grammar.hours import as_hours
from grammar.lexicon import Lexicon
from grammar.moments import Moment, Window
from grammar.phrases import phrases
from grammar.scanner import scan
from knowledge import load


@cache
def words() -> Lexicon:
    return lexicon(load())


def moments(line: str) -> list[object]:
    found = phrases(scan(line, words()))
    return [phrase.window or phrase.moment for phrase in found if phrase.moment or phrase.window]


def window(start: int, end: int) -> Window:
    return Window(Moment(minute=start * 60), Moment(minute=end * 60))


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("asleep 11 to 7", [window(11, 7)]),
        ("i sleep 11-7", [window(11, 7)]),
        ("at work from 8 to 5", [window(8, 5)]),
        ("asleep 22:30 to 6", [Window(Moment(minute=1350), Moment(minute=360))]),
        ("out 9 to 12:30", [Window(Moment(minute=540), Moment(minute=750))]),
        ("ready at 9 on sunday", [Moment(minute=540, day="6")]),
        ("ready for 8 tomorrow morning", [Moment(minute=480, day="tomorrow", part="morning")]),
        ("ready by 9", [Moment(minute=540)]),
        ("im out till 5", [Moment(minute=300)]),
        ("start boiling at 8", [Moment(minute=480)]),
        ("fed 1:2:2 at 8", [Moment(minute=480)]),
        ("when do i feed for 6", [Moment(minute=360)]),
        ("200 g starter by 7", [Moment(minute=420)]),
        ("9:30 am next saturday", [Moment(minute=570, half="am", day="5", weeks=1)]),
    ],
)
def test_hours(line: str, wanted: list[object]) -> None:
    assert moments(line) == wanted


@pytest.mark.parametrize(
    "line",
    ["24 rolls of 80 g", "enough for 8", "for 12 rolls", "pot takes 5", "kitchen 22", "2 to 3 tbsp",
     "rolls for 14 people", "how long at 24 instead", "6 in the pot, 12 in the oven", "feed for 8 rolls",
     "feed 1:3:3 at 24", "starter for 12", "18 x 95 g at 60"],
)  # fmt: skip
def test_counts_stay_counts(line: str) -> None:
    assert moments(line) == []


def test_nothing_comes_of_nothing() -> None:
    assert as_hours([]) == []
