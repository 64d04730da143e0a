"""What gauge a figure of a report is read on, and what it may show there."""

from __future__ import annotations

from grammar.telling.told import Cut

_DOUGH_C, _ROOM_C, _CORE_C = (2.0, 45.0), (-10.0, 45.0), (40.0, 105.0)
_WARM_FROM = 17
"""A bare number from here on behind "mixed at" is a warmth, below it an hour."""
HOT_F = 55.0
"""A bare figure of dough or room from here on is in Fahrenheit."""


def as_warm(value: float) -> float | None:
    """A bare number as the warmth of a dough, °C; None where it is more likely an hour."""
    if _WARM_FROM <= value <= 35:
        return value
    return round((value - 32) / 1.8, 2) if HOT_F < value <= 100 else None


def gauge_of(cut: Cut, place: int) -> str | None:
    """What the figure is of: the gauge before it in its clause, else the one behind it."""
    item = cut.items[place]
    named = [
        (cut.items.index(one), name) for one in cut.clause(item.clause) for name in one.ids("gauge")
        if name != "starter"
    ]  # fmt: skip
    alone = all(one is item or one.ids("small") or one.ids("time") for one in cut.clause(item.clause))
    if not named and alone:  # "it's a bit cool, 21"
        named = [
            (cut.items.index(one), name) for one in cut.clause(item.clause - 1) for name in one.ids("gauge")
            if name == "temp_c"
        ]  # fmt: skip
    if any(name != "temp_c" for _, name in named):
        named = [(at, name) for at, name in named if name != "temp_c"]  # "fridge is back on and reading 5"
    before = [name for at, name in named if at < place]
    after = [name for at, name in named if at > place]
    return before[-1] if before else after[0] if after else None


def gauge_word_far(cut: Cut, place: int) -> bool:
    """Whether a deed stands between the word "dough" and the number: "dough mixed at 9"."""
    clause = cut.items[place].clause
    gauges = [cut.items.index(one) for one in cut.clause(clause) if one.ids("gauge")]
    between = [one.place for one in cut.made if one.clause == clause and one.told.what == "mark"]
    return any(at < mark < place for at in gauges for mark in between)


def possible(what: str, value: float) -> bool:
    low, high = {"dough_c": _DOUGH_C, "room_c": _ROOM_C, "core_c": _CORE_C}[what]
    return low <= value <= high
