"""A plan drawn in characters: one row a kind of work, the hours along the top. Readable without colour."""

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

_HOUR_STEPS = (1, 2, 3, 4, 6, 12, 24)
_LABEL = 8


@dataclass(frozen=True, slots=True)
class Bar:
    """One step: its id, start and end."""

    step: str
    start: datetime
    end: datetime


def timeline(bars: Sequence[Bar], width: int) -> list[str]:
    """Lines of at most `width` columns (at least 24): an hour scale, then a row for each kind of work that occurs."""
    if not bars:
        return []
    columns = max(24, width) - _LABEL
    begin = min(bar.start for bar in bars).replace(minute=0, second=0, microsecond=0)
    end = max(bar.end for bar in bars)
    minutes = max(60.0, (end - begin).total_seconds() / 60)

    def place(moment: datetime) -> int:
        return min(columns - 1, int((moment - begin).total_seconds() / 60 / minutes * columns))

    lines = [" " * _LABEL + _scale(begin, minutes, columns)]
    for name, steps, mark in _ROWS:
        cells = [" "] * columns
        found = False
        for bar in bars:
            if bar.step not in steps:
                continue
            found = True
            first, last = place(bar.start), max(place(bar.start), place(bar.end) - (bar.end != end))
            for column in range(first, last + 1):
                cells[column] = mark
        if found:
            lines.append((name.ljust(_LABEL) + "".join(cells)).rstrip())
    return lines


def _scale(begin: datetime, minutes: float, columns: int) -> str:
    """Hours at their places, as many as leave room between them."""
    cells = [" "] * columns
    step = next(
        (hours for hours in _HOUR_STEPS if columns * hours * 60 / minutes >= 5), _HOUR_STEPS[-1]
    )
    at = begin
    while at.hour % step:
        at += timedelta(hours=1)
    while (at - begin).total_seconds() / 60 < minutes:
        column = int((at - begin).total_seconds() / 60 / minutes * columns)
        text = f"{at.hour:02d}"
        if column + len(text) <= columns:
            cells[column : column + len(text)] = text
        at += timedelta(hours=step)
    return "".join(cells).rstrip()
