"""Whether a rise that was measured is what is usual for its time and warmth, in words."""

from __future__ import annotations

from assistant.answers.course_kept import course_now
from assistant.engine.refusal import Refused
from assistant.talk.room import Room

_SLOW, _QUICK = 0.8, 1.25
"""From here on a dough rises more slowly, or faster, than the model's own scatter."""


def how_usual(room: Room) -> tuple[str, ...]:
    """One line about the rise told last against the one reckoned; none where that cannot be told."""
    try:
        pace = course_now(room).stands.seen_pace
    except Refused:
        return ()
    if pace is None:
        return ()
    if pace < _SLOW:
        return ("Slower than is usual for the time and warmth: it only needs longer, or somewhere warmer.",)
    if pace > _QUICK:
        return ("Faster than is usual for the time and warmth: look sooner.",)
    return ("That is about usual for the time and warmth.",)
