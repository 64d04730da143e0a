"""Where a stage stops: the rise to look for, and how to see it in a straight glass."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from assistant.engine.growth import Constants


@dataclass(frozen=True, slots=True)
class Glass:
    """A sample of the dough in a straight glass: grams, and millilitres at the start and at the stop."""

    sample_g: float
    start_ml: float
    stop_ml: float


def bulk_stop_before_cold_pct(records: Mapping[str, Constants], dough_c: float) -> float:
    """Rise in percent at which a lean hearth dough of `dough_c` goes into the cold, interpolated in the chart."""
    points = sorted((float(name[1:]), pct) for name, pct in records["bulk_stop_before_cold"].values.items())
    if dough_c <= points[0][0]:
        return points[0][1]
    for (low_c, low_pct), (high_c, high_pct) in pairwise(points):
        if dough_c <= high_c:
            return low_pct + (high_pct - low_pct) * (dough_c - low_c) / (high_c - low_c)
    return points[-1][1]


def straight_glass(records: Mapping[str, Constants], rise_pct: float) -> Glass:
    """A sample to watch instead of the bowl: a third more is easy to see where the walls are straight."""
    glass = records["straight_glass"].values
    start_ml = glass["sample_g"] * glass["ml_per_g"]
    return Glass(glass["sample_g"], start_ml, start_ml * (1 + rise_pct / 100))
