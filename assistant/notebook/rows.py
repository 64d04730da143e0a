"""The rows of the notebook as they are read: each against its check sum, with the state that stood after it."""

from __future__ import annotations

import json
import sqlite3
import zlib
from collections.abc import Iterator, Mapping
from typing import Any

from assistant.notebook import states
from assistant.notebook.event import Entry, NotKept, State

COLUMNS = "seq, said_at, text, kind, change, state, stands, undoes, redoes, undo_next, redo_next, schema, knowledge"


def as_text(value: Mapping[str, Any]) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def check_sum(row: tuple[Any, ...]) -> int:
    return zlib.crc32(repr(row).encode("utf-8", "surrogatepass"))


def sound(row: sqlite3.Row) -> bool:
    values = tuple(row)
    return bool(check_sum(values[:-1]) == values[-1])


def entry_of(row: Mapping[str, Any], *, taken_back: bool) -> Entry:
    change = None if row["change"] is None else json.loads(row["change"])
    return Entry(row["seq"], row["said_at"], row["text"], row["kind"], change, taken_back)


class Damaged(NotKept):
    """A row is missing or not what was written."""

    def __init__(self, what: str) -> None:
        super().__init__(f"the notebook is damaged ({what})")
        self.what = what


class Rows:
    """The events on a connection, read only."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def last(self) -> Mapping[str, Any] | None:
        """The last row; None in an empty notebook."""
        return self._read("ORDER BY seq DESC LIMIT 1", ())

    def event(self, seq: int) -> Mapping[str, Any]:
        """The row of an event. Damaged where it is missing or not what was written."""
        row = self._read("WHERE seq = ?", (seq,))
        if row is None:
            raise Damaged(f"event {seq} is missing")
        return row

    def taken_back(self) -> frozenset[int]:
        """The events that an undo took back and no redo brought again."""
        moves = self.matching("WHERE undoes IS NOT NULL OR redoes IS NOT NULL ORDER BY seq", ())
        undone: dict[int, int] = {}
        for move in moves:
            if move["undoes"] is not None:
                undone[move["seq"]] = move["undoes"]
            else:
                undone.pop(move["redoes"], None)
        return frozenset(undone.values())

    def state_standing_after(self, row: Mapping[str, Any]) -> State:
        """The state that stands once this row is written."""
        text = self.state_text(row["stands"])
        return {} if text is None else json.loads(text)

    def state_text(self, seq: int) -> str | None:
        """The state kept with an event, as text; None for 0, the empty bench."""
        return None if seq == 0 else self._state_after(seq)

    def _state_after(self, seq: int) -> str:
        try:
            return states.unpacked(self.event(seq)["state"], self._state_after)
        except (ValueError, TypeError) as error:
            raise Damaged(f"event {seq} holds no state") from error

    def packed(self, state: str, standing: int) -> bytes:
        """A state for the file, leaning on what the one that stands leans on, or else on that one itself."""
        base = (states.leans_on(self.event(standing)["state"]) or standing) if standing else 0
        return states.packed(state, base, self.state_text(base))

    def _read(self, where: str, values: tuple[Any, ...]) -> Mapping[str, Any] | None:
        try:
            row = self._connection.execute(f"SELECT {COLUMNS}, check_sum FROM events {where}", values).fetchone()
        except sqlite3.DatabaseError as error:
            raise Damaged(str(error)) from error
        if row is None:
            return None
        if not sound(row):
            raise Damaged(f"event {row['seq']} does not match its check sum")
        return dict(row)

    def matching(self, where: str, values: tuple[Any, ...]) -> Iterator[Mapping[str, Any]]:
        """The rows that meet a condition; one that does not match its check sum is left out."""
        try:
            for row in self._connection.execute(f"SELECT {COLUMNS}, check_sum FROM events {where}", values):
                if sound(row):
                    yield dict(row)
        except sqlite3.DatabaseError as error:
            raise NotKept(f"the notebook could not be read ({error})") from error
