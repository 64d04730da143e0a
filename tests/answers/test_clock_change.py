"""The nights the clocks change: hours are local, lengths are real minutes."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from assistant.talk.local_time import later, minutes_until, zoned
from knowledge import load

MIDDLE_EUROPE = "CET-1CEST,M3.5.0/2,M10.5.0/3"
SPRING, AUTUMN = datetime(2026, 3, 28, 20, 0), datetime(2026, 10, 24, 20, 0)


@pytest.fixture(autouse=True)
def by_the_rules(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("TZ", MIDDLE_EUROPE)
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def reply(line: str, now: datetime) -> dict[str, object]:
    return Conversation(load(), Notebook.in_memory(), now=lambda: now).reply(line).as_json()["answer"]


@pytest.mark.parametrize(("now", "hours"), [(SPRING, 11), (AUTUMN, 13), (datetime(2026, 6, 6, 20, 0), 12)])
def test_a_night_has_its_real_hours(now: datetime, hours: int) -> None:
    morning = later(now, hours * 60)
    assert (morning.hour, morning.minute) == (8, 0)
    assert minutes_until(now, morning) == hours * 60


def test_a_month_without_a_change_stays_as_it_is() -> None:
    assert zoned(datetime(2026, 6, 6, 20, 0)).tzinfo is None
    assert zoned(SPRING).tzinfo is not None


@pytest.mark.parametrize(("now", "hours"), [(SPRING, 11), (AUTUMN, 13)])
def test_a_timer_to_an_hour(now: datetime, hours: int) -> None:
    entry = reply("timer at 8:00", now)["entry"]
    assert isinstance(entry, dict)
    assert entry["minutes"] == hours * 60


def bulk_min(answer: dict[str, object], around: datetime) -> float:
    steps = answer["steps"]
    assert isinstance(steps, list)
    bulk = next(one for one in steps if one["step"] == "bulk")
    start, end = (datetime.fromisoformat(bulk[at]) for at in ("start", "end"))
    return minutes_until(around, end) - minutes_until(around, start)


@pytest.mark.parametrize(("now", "hour_more"), [(SPRING, -60), (AUTUMN, 60)])
def test_a_plan_reckons_the_night_as_long_as_it_is(now: datetime, hour_more: int) -> None:
    """The bulk ends at the same hour of the morning, and is that much shorter or longer: the leaven has to fit."""
    wish = "2 loaves starting now, no fridge, ripe starter, kitchen 20: when will they be ready"
    summer = datetime(2026, 6, 6, 20)
    usual, changed = reply(wish, summer), reply(wish, now)
    assert bulk_min(changed, now) - bulk_min(usual, summer) == pytest.approx(hour_more, abs=15)
    assert (usual["starter_pct"], usual["dough_c"]) != (changed["starter_pct"], changed["dough_c"])


@pytest.mark.parametrize("now", [SPRING, AUTUMN])
def test_how_long_is_left_counts_real_minutes(now: datetime) -> None:
    told = reply("bulk with 10 % starter at 18, how long", now)
    minutes, ends = told["minutes"], told["ends_at"]
    assert isinstance(minutes, float) and isinstance(ends, str)
    assert abs(minutes_until(now, datetime.fromisoformat(ends)) - minutes) <= 1
