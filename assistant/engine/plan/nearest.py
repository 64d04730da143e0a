"""Where no plan keeps everything: the one that comes nearest, and which limit it breaks."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.plan.asked import EARLIEST_MIN
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.day import GRID_MIN
from assistant.engine.plan.limits import Window
from assistant.engine.plan.placing import Placing
from assistant.engine.plan.steps import Plan

_NEAREST_CHOICES = 8
_NEAREST_LATER_MIN, _NEAREST_SOONER_MIN = 36 * 60, 12 * 60
_NEAREST_STEP = 15


@dataclass(frozen=True, slots=True)
class Miss:
    """No plan keeps everything: which limit the nearest one breaks, by how many minutes, and that plan (or None).

    limit: "late" or "early" (ready after or before the hour), "past" (the hour is gone), "never" (this dough does not
    rise here), "taken" (the taken hours leave no room at all), "warm" (egg or milk dough would stand warm above 6 h),
    "fridge" (the dough does not fit where it was to go cold; minutes: the shaped pieces that would).
    """

    limit: str
    minutes: int
    nearest: Plan | None


def nearest_plan(placing: Placing, options: tuple[Choice, ...], deadline: int) -> Plan | Miss:
    """The plan ready nearest to the hour, later or sooner, over the choices most likely to get there."""
    first, last = max(GRID_MIN, deadline - _NEAREST_SOONER_MIN), deadline + _NEAREST_LATER_MIN
    readies = sorted(range(first, last, _NEAREST_STEP), key=lambda ready: abs(ready - deadline))
    window = placing.finishing(Window(tuple(readies), last, first, deadline))
    nearest: Plan | None = None
    for choice in _likely(options):
        found = placing.place(choice, window)
        if found is not None and (nearest is None or _off(found, deadline) < _off(nearest, deadline)):
            nearest = found
    if nearest is None:
        return Miss(hopeless(placing, options), 0, None)
    ready = nearest.ready_min
    if deadline - EARLIEST_MIN <= ready <= deadline:
        return nearest  # the coarse search had passed it over
    if ready > deadline:
        return Miss("late", ready - deadline, nearest)
    return Miss("early", deadline - ready - EARLIEST_MIN, nearest)


def hopeless(placing: Placing, options: tuple[Choice, ...]) -> str:
    """Why there is not even a nearest plan: the dough never rises here, or the taken hours leave no room."""
    return "never" if placing.least_min(options) == 0 else "taken"


def _off(found: Plan, deadline: int) -> int:
    return abs(found.ready_min - deadline)


def _likely(options: tuple[Choice, ...]) -> list[Choice]:
    """The usual ways and the fastest ones."""
    fast = sorted(options, key=lambda choice: (choice.cold != "none", -choice.leaven_pct, -choice.dough_c))
    some = [*options[: _NEAREST_CHOICES // 2], *fast[: _NEAREST_CHOICES // 2]]
    return list(dict.fromkeys(some))
