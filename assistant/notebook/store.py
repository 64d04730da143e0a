"""The notebook itself: append-only events in SQLite, written through to the disk before anybody is told."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from assistant.notebook import file
from assistant.notebook.event import Entry, Event, Moved, NotKept, State, Tail, Target
from assistant.notebook.rows import COLUMNS, Damaged, Rows, as_text, check_sum, entry_of


class Notebook:
    """Everything said and decided, in sequence.

    `trouble` is None, or one clear line on why the file in the home folder could not be used; the notebook then stands
    in memory for this run, `on_disk` is False and the file is left as it is. `knowledge` is the version of the trade
    facts that each event is noted with.
    """

    def __init__(self, connection: sqlite3.Connection, *, trouble: str | None, knowledge: str) -> None:
        self._connection = connection
        self._rows = Rows(connection)
        self.knowledge = knowledge
        self.trouble = trouble

    @classmethod
    def open(cls, home: Path, *, knowledge: str = "") -> Notebook:
        """The notebook in `home` (made with 0700 where missing); `knowledge` is its version, kept per event.

        Never raises for a file at fault: see `trouble`.
        """
        path = home / file.NAME
        try:
            home.mkdir(mode=0o700, parents=True, exist_ok=True)
            if not path.exists():
                file.make(path)
            file.look_over(path)
            notebook = cls(_writing(path), trouble=None, knowledge=knowledge)
            notebook.tail()
            return notebook
        except file.Unfit as unfit:
            return _standing_in(path, unfit.why, unfit.readable, knowledge)
        except Damaged as damage:
            notebook.close()
            return _standing_in(path, f"is damaged ({damage.what})", False, knowledge)
        except (OSError, sqlite3.Error) as error:
            why = getattr(error, "strerror", None) or str(error)
            why = "another program is at work in it" if _is_locked(error) else why
            return _standing_in(path, f"cannot be used ({why})", False, knowledge)

    @classmethod
    def in_memory(cls) -> Notebook:
        """A notebook that ends with the run: for trials and tests."""
        return cls(_blank_in_memory(), trouble=None, knowledge="")

    @property
    def on_disk(self) -> bool:
        """False where a notebook in memory stands in for a file at fault, and nothing said outlives this run."""
        return self.trouble is None

    def close(self) -> None:
        """Let go of the file; the last to do so leaves everything in it, and nothing beside it."""
        self._connection.close()

    def tail(self) -> Tail:
        """The last event's number and the state that stands; {} on an empty bench. The same cost at any length."""
        last = self._rows.last()
        return Tail(0, {}) if last is None else Tail(last["seq"], self._rows.state_standing_after(last))

    def append(self, event: Event, after: int) -> int:
        """Put one event on disk behind event `after`; its number comes back once it is there.

        Raises: Moved where the notebook has grown since; NotKept where the disk would not take it.
        """
        asks = event.change is None and event.undoes is None and event.redoes is None
        try:
            self._wait(file.GLANCE_S if asks else file.WAIT_S)
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                last = self._rows.last()
                if (last["seq"] if last else 0) != after:
                    raise Moved(f"event {after} is no longer the last")
                row = self._row(event, after + 1, last)
                marks = ", ".join("?" * (len(row) + 1))
                self._connection.execute(f"PRAGMA user_version = {file.SCHEMA}")
                self._connection.execute(
                    f"INSERT INTO events ({COLUMNS}, check_sum) VALUES ({marks})", (*row, check_sum(row))
                )
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise
        except sqlite3.Error as error:
            if _is_locked(error):
                raise NotKept("another program is writing in the notebook") from error
            raise NotKept(f"the notebook could not be written ({error})") from error
        return after + 1

    def _wait(self, longest_s: float) -> None:
        """How long another call's write is waited for from now on."""
        self._connection.execute(f"PRAGMA busy_timeout = {round(1000 * longest_s)}")

    def undo_target(self) -> Target | None:
        """The last change that stands and the state without it; None where there is nothing to take back."""
        last = self._rows.last()
        if last is None or not last["undo_next"]:
            return None
        change = self._rows.event(last["undo_next"])
        return Target(change["seq"], self.before(change["seq"]), entry_of(change, taken_back=False))

    def before(self, seq: int) -> State:
        """The state that stood before an event."""
        return self._rows.state_standing_after(self._rows.event(seq - 1)) if seq > 1 else {}

    def redo_target(self) -> Target | None:
        """The undo that a redo would take back and the state with its change; None after any new change."""
        last = self._rows.last()
        if last is None or not last["redo_next"]:
            return None
        undo = self._rows.event(last["redo_next"])
        change = self._rows.event(undo["undoes"])
        return Target(undo["seq"], self._rows.state_standing_after(change), entry_of(change, taken_back=True))

    def entries(
        self, kind: str | None = None, limit: int | None = None, *, taken_back: bool = False
    ) -> tuple[Entry, ...]:
        """Events newest first, of one kind or of all, at most `limit`; those taken back only where asked for.

        A row that no longer matches its check sum is left out.
        """
        gone = self._rows.taken_back()
        rows = self._rows.matching("WHERE (?1 IS NULL OR kind = ?1) ORDER BY seq DESC", (kind,))
        found: list[Entry] = []
        for row in rows:
            if limit is not None and len(found) >= limit:
                break
            if taken_back or row["seq"] not in gone:
                found.append(entry_of(row, taken_back=row["seq"] in gone))
        return tuple(found)

    def _row(self, event: Event, seq: int, last: Mapping[str, Any] | None) -> tuple[Any, ...]:
        standing = last["stands"] if last else 0
        undo_next, redo_next = (last["undo_next"], last["redo_next"]) if last else (0, 0)
        if event.undoes is not None:
            undo_next, redo_next = self._undo_next_before(event.undoes), seq
        elif event.redoes is not None:
            undo = self._rows.event(event.redoes)
            undo_next = undo["undoes"]
            redo_next = self._rows.event(undo["seq"] - 1)["redo_next"]
        elif event.change is not None:
            undo_next, redo_next = seq, 0
        change = None if event.change is None else as_text(event.change)
        state = None if event.state is None else as_text(event.state)
        if state is not None and last and state == self._rows.state_text(standing):
            state = None
        kept = None if state is None else self._rows.packed(state, standing)
        return (
            seq, event.said_at, event.text, event.kind, change, kept, standing if kept is None else seq,
            event.undoes, event.redoes, undo_next, redo_next, file.SCHEMA, self.knowledge,
        )  # fmt: skip

    def _undo_next_before(self, seq: int) -> int:
        return int(self._rows.event(seq - 1)["undo_next"]) if seq > 1 else 0


def _writing(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, isolation_level=None, timeout=file.GLANCE_S)
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def _blank_in_memory() -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None)
    connection.row_factory = sqlite3.Row
    file.lay_out(connection)
    return connection


def _standing_in(path: Path, why: str, readable: bool, knowledge: str) -> Notebook:
    """A notebook in memory, beginning where a file that can still be read stands."""
    connection = _blank_in_memory()
    left = "what is said now is answered, but not kept"
    if readable:
        try:
            with file.reading(path) as source:
                rows = source.execute(f"SELECT {COLUMNS}, check_sum FROM events").fetchall()
            marks = ", ".join("?" * (COLUMNS.count(",") + 2))
            connection.executemany(f"INSERT INTO events ({COLUMNS}, check_sum) VALUES ({marks})", rows)
        except sqlite3.Error:
            left = "what is said now is answered from an empty bench, but not kept"
    trouble = f"The notebook {path} {why}; it is left as it is, and {left}."
    return Notebook(connection, trouble=trouble, knowledge=knowledge)


def _is_locked(error: BaseException) -> bool:
    return isinstance(error, sqlite3.OperationalError) and "locked" in str(error)
