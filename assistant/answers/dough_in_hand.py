"""The dough in hand, solved."""

from __future__ import annotations

from assistant.answers.dough_said import solved
from assistant.engine.dough import Formula
from assistant.engine.refusal import Refused
from assistant.talk.room import Room


def formula_in_hand(room: Room) -> Formula | None:
    """The dough in hand, solved; None without one or where it cannot be solved."""
    said = room.formula_said
    if said is None:
        return None
    try:
        return solved(said, room)
    except Refused:
        return None
