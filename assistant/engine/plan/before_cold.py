"""How long a dough stands in the kitchen before the fridge, so that the cold brings it to its mark."""

from __future__ import annotations

import math

from assistant.engine.fermentation import advance, minutes_to
from assistant.engine.plan.blocks import Line

_NEAR_MARK = 0.015
"""Share of the gas at the mark within which a dough comes out of the cold at its mark."""
_TO_MIN = 6


def minutes_before_cold(line: Line, mark: float, tau_h: float, cold_h: float) -> float:
    """Minutes in the kitchen after which `cold_h` in the fridge bring the dough to its mark, to about 3 minutes.

    tau_h: the lag of the dough behind the air. 0 where the cold alone goes past it; inf where it never rises.
    """
    day, dough = line.day, line.dough
    k = day.trade.kinetics
    path = line.path(tau_h)
    start = line.state
    gas = (mark / 100 + k.dissolved) * dough.pressure_ratio

    def past(before: float) -> float:
        into = advance(k, dough, start, path, before, with_acid=False)
        fridge = day.cold_path(path.temp_c(before), tau_h)
        risen = advance(k, dough, into._replace(at_min=0.0), fridge, cold_h * 60, with_acid=False)
        return math.log(max(risen.gas, 1e-9) / gas)  # growth is exponential: its logarithm is nearly straight

    low, at_low = 0.0, past(0.0)
    if at_low >= 0:
        return 0.0
    high = minutes_to(k, dough, path, mark, start)
    if not math.isfinite(high):
        return high
    at_high = past(high)
    while high - low > _TO_MIN and at_high > 0:
        share = at_low / (at_low - at_high)
        middle = low + min(max(share, 0.05), 0.95) * (high - low)
        at_middle = past(middle)
        if abs(at_middle) < _NEAR_MARK:
            return middle
        if at_middle < 0:
            low, at_low = middle, at_middle
        else:
            high, at_high = middle, at_middle
    return (low + high) / 2 if at_high > 0 else high
