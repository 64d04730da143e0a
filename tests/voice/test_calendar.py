"""A plan's calendar file, read back by a parser of the standard."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from assistant.voice.calendar import Entry, as_calendar

MADE = datetime(2026, 3, 14, 7, 30)
START = datetime(2026, 3, 15, 6, 30)
texts = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=120).map(str.strip)


def read_back(entries: list[Entry], title: str = "24 rings") -> list[object]:
    return list(Calendar.from_ical(as_calendar(entries, title, MADE)).walk("VEVENT"))


def test_a_step_keeps_its_hours_words_and_reminder() -> None:
    end = START + timedelta(minutes=9)
    entry = Entry("boil 12; mind the steam, please", START, end, "they float\nskin tight", remind=True)
    (event,) = read_back([entry])
    assert event["SUMMARY"] == entry.summary and event["DESCRIPTION"] == entry.note  # type: ignore[index]
    assert (event["DTSTART"].dt, event["DTEND"].dt) == (entry.start, entry.end)  # type: ignore[index]
    (alarm,) = event.walk("VALARM")  # type: ignore[attr-defined]
    assert alarm["TRIGGER"].dt == timedelta(0)


def test_what_need_not_ring_does_not() -> None:
    (event,) = read_back([Entry("cool", START, START + timedelta(hours=1))])
    assert not event.walk("VALARM")  # type: ignore[attr-defined]


def test_the_same_plan_has_the_same_ids_and_two_steps_never_share_one() -> None:
    steps = [Entry(f"step {n}", START + timedelta(minutes=n), START + timedelta(minutes=n + 1)) for n in range(20)]
    ids = [str(event["UID"]) for event in read_back(steps)]  # type: ignore[index]
    assert ids == [str(event["UID"]) for event in read_back(steps)]  # type: ignore[index]
    assert len(set(ids)) == len(steps)


@given(texts, texts, texts)
def test_any_words_come_back_as_they_went_in(summary: str, note: str, title: str) -> None:
    (event,) = read_back([Entry(summary, START, START, note, remind=True)], title)
    assert (str(event["SUMMARY"]), str(event["DESCRIPTION"])) == (summary, note)  # type: ignore[index]


@given(texts)
def test_no_line_is_longer_than_the_standard_lets_it(summary: str) -> None:
    text = as_calendar([Entry(summary, START, START)], summary, MADE)
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode("utf-8")) <= 75 for line in text.split("\r\n"))
