"""Days gone by, as they are said of a bake."""

from __future__ import annotations

import re
from datetime import date

import pytest

from grammar.past import DAY, span_of

TODAY = date(2026, 3, 14)


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("a fortnight back", date(2026, 2, 28)),
        ("two weeks ago", date(2026, 2, 27)),
        ("a couple of weeks back", date(2026, 3, 1)),
        ("a few days ago", date(2026, 3, 10)),
        ("the other week", date(2026, 2, 24)),
        ("the other day", date(2026, 3, 6)),
        ("before christmas", date(2025, 12, 10)),
        ("last month", date(2026, 2, 20)),
        ("back in january", date(2026, 1, 9)),
        ("in november", date(2025, 11, 30)),
    ],
)
def test_a_day_within_what_is_said(said: str, day: date) -> None:
    found = re.fullmatch(DAY, said)
    assert found is not None
    span = span_of(found)
    assert span is not None
    first, last = span.days(TODAY)
    assert first <= day <= last < TODAY


def test_days_that_are_counted_are_those_days() -> None:
    found = re.fullmatch(DAY, "2 days ago")
    assert found is not None
    span = span_of(found)
    assert span is not None
    assert span.days(TODAY) == (date(2026, 3, 12), date(2026, 3, 12))
