"""What the notebook keeps: one event for each line said, and the tail that stands after the last of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

State: TypeAlias = dict[str, Any]
"""Plain JSON: the bench as it stands (bakes, the one in hand, settings, the last question)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line as it was said and what came of it.

    text: the line, raw; it is never read again. kind: the kind of the reply.
    change: the settled change as plain JSON, None where the line asked and changed nothing an undo could take back.
    state: the whole bench after the line as plain JSON, None where it is as before.
    said_at: local time, ISO 8601. undoes: the change this event takes back (from `Notebook.undo_target`).
    redoes: the undo this event takes back (from `Notebook.redo_target`).
    """

    text: str
    kind: str
    change: Mapping[str, Any] | None
    state: State | None
    said_at: str
    undoes: int | None = None
    redoes: int | None = None


@dataclass(frozen=True, slots=True)
class Tail:
    """Where the notebook stands: the number of its last event (0: none yet) and the state after it ({}: empty)."""

    seq: int
    state: State


@dataclass(frozen=True, slots=True)
class Entry:
    """An event read back. `taken_back` is true while an undo of it stands."""

    seq: int
    said_at: str
    text: str
    kind: str
    change: Mapping[str, Any] | None
    taken_back: bool


@dataclass(frozen=True, slots=True)
class Target:
    """What an undo or a redo said now would act on.

    seq: goes into `Event.undoes` or `Event.redoes`. state: the bench that stands afterwards.
    what: the change in question, as it was said and settled.
    """

    seq: int
    state: State
    what: Entry


class Moved(Exception):
    """Somebody else wrote since the tail was read; read it again and answer the line again."""


class NotKept(Exception):
    """The event could not be put on disk. `why` is one clause in plain words, without a full stop."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why
