"""Clock times and days: every way of saying an hour is the same minute, and small words give each its role."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from functools import cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assistant.talk.lexicon import lexicon
from grammar.days import NoSuchDay, date_of
from grammar.lexicon import Lexicon
from grammar.moments import Moment, Window, latest, readings, resolve
from grammar.phrases import Phrase, phrases
from grammar.scanner import scan
from knowledge import load

NOW = datetime(2026, 3, 14, 7, 30)  # a Saturday
HOURS = ("twelve", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
MINUTES = {5: "five", 10: "ten", 15: "a quarter", 20: "twenty", 25: "twenty-five"}


@cache
def words() -> Lexicon:
    return lexicon(load())


def timed(line: str) -> list[Phrase]:
    return [one for one in phrases(scan(line, words())) if one.moment or one.window]


def moment(line: str) -> Moment:
    (found,) = timed(line)
    assert found.moment is not None, line
    return found.moment


def ways_of_saying(minute: int) -> list[str]:
    """Ways of saying a minute of the day that leave its half open or tell it, with "at" before them."""
    hours, minutes = divmod(minute, 60)
    half = "am" if hours < 12 else "pm"
    face, following = HOURS[hours % 12], HOURS[(hours + 1) % 12]
    number = hours % 12 or 12
    out = [f"{hours:02d}:{minutes:02d}", f"{number}:{minutes:02d} {half}", f"{number}.{minutes:02d}{half}"]
    out += [f"{hours:02d}{minutes:02d}h", f"2026-03-15T{hours:02d}:{minutes:02d}"]
    if minutes == 0:
        out += [f"{number}{half}", f"{face} {half}", f"{number} {half[0]}.m.", f"{number} o'clock", f"{face} oclock"]
    if minutes == 30:
        out += [f"half past {face}", f"half {face}", f"half {number}", f"half past {number}{half}"]
    if minutes in MINUTES:
        out += [f"{MINUTES[minutes]} past {face}", f"{MINUTES[minutes]} past {number}", f"{minutes} past {number}"]
    if 60 - minutes in MINUTES:
        out += [f"{MINUTES[60 - minutes]} to {following}", f"{60 - minutes} minutes to {following}"]
    return out


@given(st.integers(min_value=0, max_value=287).map(lambda n: n * 5))
def test_every_way_of_saying_an_hour_is_the_same_minute(minute: int) -> None:
    for way in ways_of_saying(minute):
        said = moment(f"ready at {way}")
        assert minute in readings(said), way
        assert {one % 720 for one in readings(said)} == {minute % 720}, way


@given(st.integers(min_value=1, max_value=12), st.sampled_from(["morning", "evening", "night"]))
def test_a_part_of_the_day_only_narrows_the_half(hour: int, part: str) -> None:
    assume(part != "evening" or 3 <= hour < 12)
    found = moment(f"ready at {hour} {'at' if part == 'night' else 'in the'} {part}")
    assert len(readings(found)) == 1
    assert readings(found)[0] % 720 == hour * 60 % 720


@pytest.mark.parametrize(
    ("line", "minute"),
    [
        ("half five in the morning", 330),
        ("half six this evening", 1110),
        ("half eight tonight", 1230),
        ("half five this arvo", 1050),
        ("tomorrow half nine", 570),
        ("sunday morning at half ten", 630),
        ("brekkie time", 480),
        ("by tea time", 1020),
        ("at 12 noon", 720),
        ("quarter to midnight", 1425),
        ("ten to noon", 710),
        ("at ten to one in the afternoon", 770),
        ("ten past noon", 730),
        ("sunday at 1930", 1170),
        ("0630", 390),
        ("sunday lunch at one", 780),
    ],
)
def test_said_hours(line: str, minute: int) -> None:
    (found,) = timed(line)
    assert found.moment is not None
    assert [one % 1440 for one in readings(found.moment)][-1:] == [minute] or minute in readings(found.moment)


@pytest.mark.parametrize(
    "line",
    ["half 2 cups of milk", "half the flour", "up a quarter", "a quarter of the flour", "drops by 5 overnight",
     "cut it by 4", "twenty to thirty rolls", "bring it down by 6", "1930 g flour", "ten to twelve rolls",
     "half six rolls", "timer 2000 hours", "tea loaf", "9 by 5 tin", "kitchen at 9"],
)  # fmt: skip
def test_what_is_no_hour(line: str) -> None:
    assert timed(line) == []


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("asleep 10-6, away 9:00–10:00 and 14:00–15:00", [(600, 360), (540, 600), (840, 900)]),
        ("out 9 to 10 and 2 to 3", [(540, 600), (120, 180)]),
        ("away from 9 till 11, 2 until 4", [(540, 660), (120, 240)]),
        ("asleep quarter past ten to ten past six", [(615, 370)]),
        ("9-5 at work", [(540, 300)]),
        ("asleep from half ten till quarter to seven", [(630, 405)]),
        ("at work 8 to half four", [(480, 270)]),
        ("busy between 2 and 4", [(120, 240)]),
    ],
)
def test_stretches(line: str, wanted: list[tuple[int, int]]) -> None:
    windows = [one.window for one in timed(line)]
    assert [(w.start.minute, w.end.minute) for w in windows if w is not None] == wanted


@pytest.mark.parametrize(
    ("line", "lead"),
    [
        ("ready by 9:00", "by"), ("mixed at 9:00", "at"), ("not before 9:00", "not_before"), ("since 9:00", "since"),
        ("out until 9:00", "until"), ("no earlier than 9:00", "not_before"), ("bread before 9:00", "before"),
        ("free from 9:00", "from"), ("ready by about 9:00", "by"), ("rolls for 9:00", "for"), ("9:00", None),
    ],
)  # fmt: skip
def test_the_small_word_gives_the_role(line: str, lead: str | None) -> None:
    assert moment(line).lead == lead


def test_lengths_have_roles_too() -> None:
    leads = {}
    for line in ("in half an hour", "ten minutes ago", "for 20 min"):
        (leads[line],) = (one.lead for one in phrases(scan(line, words())) if one.kind == "amount")
    assert leads == {"in half an hour": "in", "ten minutes ago": "ago", "for 20 min": "for"}


@given(st.integers(0, 1439), st.sampled_from([None, "am", "pm"]), st.sampled_from([None, "today", "tomorrow", "3"]))
def test_ahead_is_ahead_and_behind_is_behind(minute: int, half: str | None, day: str | None) -> None:
    said = Moment(minute=minute, half=half if minute < 720 else None, day=day)
    if day is None:
        assert NOW < resolve(said, NOW) <= NOW + timedelta(days=1)
        assert NOW - timedelta(days=1) <= latest(said, NOW) <= NOW + timedelta(minutes=5)
    elif day == "3":
        assert NOW < resolve(said, NOW) <= NOW + timedelta(days=8)
        assert NOW - timedelta(days=8) <= latest(said, NOW) <= NOW


def test_the_next_such_minute() -> None:
    assert resolve(moment("at twenty past"), NOW) == datetime(2026, 3, 14, 8, 20)
    assert resolve(moment("at quarter to"), NOW) == datetime(2026, 3, 14, 7, 45)
    assert resolve(moment("on the hour"), NOW) == datetime(2026, 3, 14, 8, 0)
    assert latest(Moment(past_min=20), NOW) == datetime(2026, 3, 14, 7, 20)


def test_a_half_said_once_holds_for_both_ends() -> None:
    (found,) = timed("out 5 to 7 in the morning")
    assert found.window is not None
    assert readings(found.window.start) == (300,)
    (found,) = timed("asleep 11 to 7 in the morning")
    assert found.window is not None
    assert readings(found.window.start) == (660, 1380)


def test_a_list_of_stretches_is_of_one_day() -> None:
    found = [one.window for one in timed("tomorrow out 9:00-10:00 and 14:00-15:00") if one.window]
    assert all(isinstance(one, Window) for one in found)
    (day, *rest) = [one.window.start.day for one in timed("away sunday 9:00-10:00 and 14:00-15:00") if one.window]
    assert day == "6" and rest == ["6"]


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("ready the day after tomorrow", date(2026, 3, 16)),
        ("by the 21st", date(2026, 3, 21)),
        ("by the 3rd", date(2026, 4, 3)),
        ("on March 21st", date(2026, 3, 21)),
        ("on 21 march 2027", date(2027, 3, 21)),
        ("sunday week", date(2026, 3, 22)),
        ("next sunday", date(2026, 3, 22)),
        ("sunday", date(2026, 3, 15)),
        ("on 1 march", date(2027, 3, 1)),
    ],
)
def test_days(line: str, day: date) -> None:
    assert resolve(moment(line), NOW).date() == day


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        ("by 31 april", date(2026, 4, 30)),
        ("on 29 february", date(2027, 2, 28)),
        ("ready 2026-02-30", date(2026, 2, 28)),
        ("on the 30th of february 2028", date(2028, 2, 29)),
    ],
)
def test_days_no_calendar_has(line: str, nearest: date) -> None:
    with pytest.raises(NoSuchDay) as none:
        resolve(moment(line), NOW)
    assert none.value.nearest == nearest


def test_the_31st_of_a_month_without_one() -> None:
    with pytest.raises(NoSuchDay):
        date_of("---31", 0, datetime(2026, 4, 10), date(2026, 4, 10))
