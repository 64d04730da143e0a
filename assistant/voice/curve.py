"""Rise and dough temperature over time as a picture in characters: any width, no colour needed.

`#` is the rise (scale on the left), `o` the temperature of the dough (scale on the right), `*` both in one place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

_RISE, _WARMTH, _BOTH = "#", "o", "*"


def curve(
    minutes: Sequence[float],
    rise_pct: Sequence[float],
    dough_c: Sequence[float],
    width: int,
    height: int = 8,
) -> tuple[str, ...]:
    """Lines of a picture at most `width` characters wide, `height` rows of plot and two of time axis, then the key.

    Args:
        minutes, rise_pct, dough_c: samples over the same times, in order; at least two.
        width: 24 or more.
        height: rows of the plot, 3 or more.
    Raises:
        ValueError: too few samples, samples of different number, or too little room.
    """
    if not len(minutes) == len(rise_pct) == len(dough_c) >= 2:
        raise ValueError("a curve needs two samples or more of each")
    if width < 24 or height < 3:
        raise ValueError("a curve needs 24 columns and 3 rows")
    top_pct = max(10.0, math.ceil(max(rise_pct) / 10) * 10)
    low_c, high_c = math.floor(min(dough_c)), math.ceil(max(dough_c))
    if high_c - low_c < 4:
        middle = (high_c + low_c) / 2
        low_c, high_c = math.floor(middle - 2), math.ceil(middle + 2)
    left, right = len(f"{top_pct:.0f}%"), max(len(f"{high_c}"), len(f"{low_c}")) + 2
    columns = width - left - right - 2
    begin, end = minutes[0], minutes[-1]
    plot = [[" "] * columns for _ in range(height)]
    for column in range(columns):
        at = begin + (end - begin) * column / (columns - 1)
        rise_row = _row(_between(minutes, rise_pct, at), 0.0, top_pct, height)
        warm_row = _row(_between(minutes, dough_c, at), low_c, high_c, height)
        plot[warm_row][column] = _WARMTH
        plot[rise_row][column] = _BOTH if rise_row == warm_row else _RISE
    lines = []
    for row, cells in enumerate(plot):
        pct, warmth = "", ""
        if row == 0:
            pct, warmth = f"{top_pct:.0f}%", f"{high_c}°C"
        elif row == height - 1:
            pct, warmth = "0%", f"{low_c}°C"
        lines.append(f"{pct:>{left}}|{''.join(cells)}|{warmth:>{right}}".rstrip())
    lines.append(" " * left + "+" + "-" * columns + "+")
    lines.append(_hours(begin, end, left + 1, columns))
    lines.append(f"{_RISE} rise  {_WARMTH} dough °C"[:width])
    return tuple(lines)


def _row(value: float, low: float, high: float, height: int) -> int:
    share = (value - low) / (high - low)
    return min(height - 1, max(0, height - 1 - round(share * (height - 1))))


def _between(xs: Sequence[float], ys: Sequence[float], at: float) -> float:
    """The value at a point between samples, on the straight line between its neighbours."""
    for index in range(1, len(xs)):
        if at <= xs[index]:
            span = xs[index] - xs[index - 1]
            share = (at - xs[index - 1]) / span if span else 1.0
            return ys[index - 1] + share * (ys[index] - ys[index - 1])
    return ys[-1]


def _hours(begin: float, end: float, left: int, columns: int) -> str:
    """The time axis: whole hours, as many labels as fit."""
    hours = (end - begin) / 60
    fitting = max(1, columns // 8)
    step = next((s for s in (0.5, 1, 2, 3, 4, 6, 12, 24, 48, 96) if hours / s <= fitting), 168)
    line = [" "] * (left + columns + 1)
    at = 0.0
    while at <= hours + 1e-9:
        label = f"{at:g}h"
        place = left + round(at / hours * (columns - 1)) if hours else left
        if place + len(label) <= len(line):
            line[place : place + len(label)] = label
        at += step
    return "".join(line).rstrip()
