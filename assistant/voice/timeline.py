"""Work drawn in characters along a clock: a plan of one dough or of several, a run through pot and oven.

Readable without colour: each kind of work has its own row or its own character.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

_ROWS = (
    ("starter", ("feed_starter",), "."),
    ("dough", ("autolyse", "bulk", "bench_rest", "warm_up"), "-"),
    ("hands", ("mix", "knead", "fold", "divide", "preshape", "shape", "score", "boil"), "#"),
    ("fridge", ("retard",), "~"),
    ("proof", ("proof",), "-"),
    ("heat", ("preheat", "heat_pot"), ":"),
    ("oven", ("bake", "refresh"), "="),
    ("rack", ("cool", "thaw"), "."),
)
"""Row name, the steps drawn in it, and the character they are drawn with."""
_SHARED = ("hands", "oven")
"""Rows that several doughs have in common, drawn below them."""

_SCALE_MIN = (5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440)
_LABEL, _NAME = 8, 14


@dataclass(frozen=True, slots=True)
class Bar:
    """One step: its id, start and end."""

    step: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of a drawing: its name and (start, end, character) of what stands in it, the later over the earlier."""

    name: str
    spans: tuple[tuple[datetime, datetime, str], ...]


def timeline(bars: Sequence[Bar], width: int) -> list[str]:
    """Lines of at most `width` columns (at least 24): an hour scale, then a row for each kind of work that occurs."""
    return drawn(lanes(bars), width)


def timelines(doughs: Sequence[tuple[str, Sequence[Bar]]], width: int) -> list[str]:
    """Several doughs on one scale, (name, steps) each: a row a dough, then hands and oven, then the key."""
    if not any(bars for _, bars in doughs):
        return []
    marks = {step: mark for _, steps, mark in _ROWS for step in steps}
    rows = [Lane(name, tuple((bar.start, bar.end, marks[bar.step]) for bar in bars)) for name, bars in doughs]
    shared = [lane for lane in lanes([bar for _, bars in doughs for bar in bars]) if lane.name in _SHARED]
    key = "# hands  - rises  ~ fridge  = oven"
    return [*drawn([*rows, *shared], width), key[:width]]


def lanes(bars: Sequence[Bar]) -> list[Lane]:
    """A row for each kind of work that occurs."""
    found = (
        Lane(name, tuple((bar.start, bar.end, mark) for bar in bars if bar.step in steps))
        for name, steps, mark in _ROWS
    )
    return [lane for lane in found if lane.spans]


def drawn(rows: Sequence[Lane], width: int) -> list[str]:
    """The rows under an hour scale, at most `width` columns (at least 24) wide; nothing where no row has a span."""
    spans = [span for row in rows for span in row.spans]
    if not spans:
        return []
    label = min(_NAME, max(_LABEL, *(len(row.name) + 1 for row in rows)))
    columns = max(24, width) - label
    end = max(stop for _, stop, _ in spans)
    begin = min(start for start, _, _ in spans)
    whole = 0 if end - begin > timedelta(hours=3) else begin.minute // 5 * 5
    begin = begin.replace(minute=whole, second=0, microsecond=0)
    minutes = max(30.0, (end - begin).total_seconds() / 60)

    def place(moment: datetime) -> int:
        return min(columns - 1, int((moment - begin).total_seconds() / 60 / minutes * columns))

    lines = [" " * label + _scale(begin, minutes, columns)]
    for row in rows:
        cells = [" "] * columns
        for start, stop, mark in row.spans:
            first, last = place(start), max(place(start), place(stop) - (stop != end))
            cells[first : last + 1] = mark * (last + 1 - first)
        lines.append((row.name[: label - 1].ljust(label) + "".join(cells)).rstrip())
    return lines


def _scale(begin: datetime, minutes: float, columns: int) -> str:
    """The clock at its places, as many labels as leave room between them; with minutes where hours are too coarse."""
    step = next((one for one in _SCALE_MIN if columns * one / minutes >= (5 if one >= 60 else 8)), _SCALE_MIN[-1])
    cells = [" "] * columns
    midnight = begin.replace(hour=0, minute=0)
    at = midnight + timedelta(minutes=-(-(begin - midnight).total_seconds() // 60 // step) * step)
    while (at - begin).total_seconds() / 60 < minutes:
        column = int((at - begin).total_seconds() / 60 / minutes * columns)
        text = at.strftime("%H" if step >= 60 else "%H:%M")
        if column + len(text) <= columns:
            cells[column : column + len(text)] = text
        at += timedelta(minutes=step)
    return "".join(cells).rstrip()
