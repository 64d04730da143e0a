"""What an oven's dial is set to where the oven is hotter or cooler than it says."""

from __future__ import annotations

from assistant.talk.room import Room
from assistant.voice.spans import degrees_said

SETTING = "oven_off_c"
"""How many °C the oven is above its dial; below it where negative."""


def off_c(room: Room) -> float:
    """How much hotter the oven is than its dial says, °C; 0 where nothing was told of it."""
    return float(room.setting(SETTING) or 0.0)


def on_the_dial(oven_c: float, room: Room) -> tuple[str, ...]:
    """What to set the dial to for so many °C in the oven; nothing where the dial is right."""
    off = off_c(room)
    if not off:
        return ()
    side = "hot" if off > 0 else "cool"
    return (f"set the dial to {degrees_said(oven_c - off)} for {degrees_said(oven_c)}: "
            f"your oven runs {degrees_said(abs(off))} {side}",)  # fmt: skip
