"""What bakes have taught of this kitchen: how fast its starter runs, shrunk toward the usual one."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.engine.course.pace import Pace, fitted
from assistant.talk.bench import Bench
from assistant.talk.room import Room

SEEN_PACE = "seen_pace"
"""Setting of the kitchen: how fast its starter ran in each bake, and what that comes to. It holds until forgotten."""


def pace_of(room: Room, without: str = "") -> Pace:
    """How fast this starter runs: said by the baker, else fitted to the bakes it was seen in.

    without: a bake that is not to count, being the one that is judged by it.
    """
    said = room.setting("culture_pace")
    if isinstance(said, int | float):
        return Pace(float(said), 1)
    return fitted([float(pace) for bake, pace in _seen(room.bench).items() if bake != without])


def with_pace(bench: Bench, bake: str, pace: float, on: str) -> Bench:
    """The bench with the pace seen in one bake; the last measurement of a bake stands for it."""
    seen = {**_seen(bench), bake: round(pace, 3)}
    return bench.with_settings({SEEN_PACE: {"fitted": fitted(list(seen.values())).value, "bakes": seen}}, on)


def pace_said(pace: Pace) -> str:
    """In words: "your starter runs 1.2 times as fast, from 5 bakes"."""
    bakes = f"{pace.count} bake" + ("" if pace.count == 1 else "s")
    return f"your starter runs {pace.value:.2g} times as fast as usual, from {bakes}"


def _seen(bench: Bench) -> Mapping[str, float]:
    return (bench.settings.get(SEEN_PACE) or {}).get("bakes") or {}
