"""The notebook's file: made in one step, looked over before it is opened, never touched where it is not ours to write.

A file that is damaged, foreign, newer or read-only is found out by reading alone, so that it stays as it is to the
last byte for whoever comes to mend it.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
import stat
from collections.abc import Iterator
from pathlib import Path

NAME = "notebook.sqlite3"
SCHEMA = 2
"""The form of new notebooks. In form 1 states stand as JSON; it is read, and becomes form 2 with the next line."""
APPLICATION_ID = 0x42454E43  # "BENC", in the file's header, so that another program's database is known as such
CHECKED_WHOLE_BYTES = 4_000_000  # a notebook up to this size is checked from end to end; above, start-up must stay flat
WAIT_S = 10.0  # how long another call's write is waited for by a line that changes something
GLANCE_S = 0.5  # and by a question, or by opening: an answer is worth more at once than noted

_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100

_TABLE = """
CREATE TABLE events (
    seq INTEGER PRIMARY KEY,      -- 1, 2, 3 … without gaps
    said_at TEXT NOT NULL,        -- local time, ISO 8601
    text TEXT NOT NULL,           -- the line as it was said; never read again
    kind TEXT NOT NULL,           -- the kind of the reply
    change TEXT,                  -- the settled change (JSON); NULL for a question
    state BLOB,                   -- the bench afterwards (`states.py`); NULL where it is as before
    stands INTEGER NOT NULL,      -- the event whose state stands after this one; 0: the empty bench
    undoes INTEGER,               -- the change this event takes back
    redoes INTEGER,               -- the undo this event takes back
    undo_next INTEGER NOT NULL,   -- the change an undo said next would take back; 0: none
    redo_next INTEGER NOT NULL,   -- the undo a redo said next would take back; 0: none
    schema INTEGER NOT NULL,
    knowledge TEXT NOT NULL,
    check_sum INTEGER NOT NULL    -- CRC-32 of the row, so that damage inside a page is noticed
);
CREATE INDEX events_by_kind ON events (kind, seq);
CREATE INDEX events_taken_back ON events (undoes, redoes) WHERE undoes IS NOT NULL OR redoes IS NOT NULL;
CREATE TRIGGER events_are_kept BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events are kept'); END;
CREATE TRIGGER events_stay BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events stay as they are'); END;
"""


class Unfit(Exception):
    """The file cannot be used. `why` completes "The notebook … "; `readable`: its events can still be read."""

    def __init__(self, why: str, *, readable: bool = False) -> None:
        super().__init__(why)
        self.why = why
        self.readable = readable


def lay_out(connection: sqlite3.Connection) -> None:
    """Give an empty database the notebook's table."""
    connection.executescript(
        f"BEGIN; {_TABLE} PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {SCHEMA}; COMMIT;"
    )


def make(path: Path) -> None:
    """Create the notebook whole or not at all; where another call was quicker, its file is kept.

    Written aside under a name of our own first: a kill half-way, or two first calls at once, leave no half notebook.
    """
    aside = path.with_name(f"{path.name}.new-{os.getpid()}")
    aside.unlink(missing_ok=True)
    os.close(os.open(aside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    try:
        connection = sqlite3.connect(aside, isolation_level=None)
        try:
            connection.execute("PRAGMA synchronous = FULL")
            lay_out(connection)  # before WAL, so that the marks stand in the main file's own header
            connection.execute("PRAGMA journal_mode = WAL")
        finally:
            connection.close()
        _put_in_place(aside, path)
    finally:
        for leftover in (aside, aside.with_name(aside.name + "-wal"), aside.with_name(aside.name + "-shm")):
            leftover.unlink(missing_ok=True)


def _put_in_place(aside: Path, path: Path) -> None:
    try:
        os.link(aside, path)
    except FileExistsError:
        return
    except OSError:  # a file system without hard links
        if not path.exists():
            aside.replace(path)
    if os.name == "posix":
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


def look_over(path: Path) -> None:
    """Read the notebook without changing a byte of it.

    Raises: Unfit, with what is wrong in plain words.
    """
    try:
        with path.open("rb") as file:
            header = file.read(_HEADER_BYTES)
    except OSError as error:
        raise Unfit(f"cannot be read ({error.strerror or error})") from error
    if not header.startswith(_MAGIC[: len(header)]):
        raise Unfit("is a file of another kind")
    if len(header) < _HEADER_BYTES:
        raise Unfit("is damaged (it ends too early)")
    if int.from_bytes(header[68:72], "big") != APPLICATION_ID:
        raise Unfit("belongs to another program")
    version = int.from_bytes(header[60:64], "big")
    if version > SCHEMA:
        raise Unfit(f"was written by a newer version (its form is {version}, this one knows {SCHEMA})")
    if version < 1:
        raise Unfit("is damaged (its header makes no sense)")
    _look_inside(path)
    if not _may_write(path) or not _may_write(path.parent):
        raise Unfit("is read-only", readable=True)


def _look_inside(path: Path) -> None:
    try:
        with reading(path) as connection:
            columns = {row[1] for row in connection.execute("PRAGMA table_info(events)")}
            if "check_sum" not in columns:
                raise Unfit("is damaged (its table of events is missing)")
            if path.stat().st_size <= CHECKED_WHOLE_BYTES:
                found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
                if found != "ok":
                    raise Unfit("is damaged (its pages do not hold together)")
    except sqlite3.OperationalError as error:
        if "locked" in str(error) or "busy" in str(error):
            return  # another call is at work on it, which says that it is sound
        raise Unfit(f"cannot be opened ({error})") from error
    except sqlite3.DatabaseError as error:
        raise Unfit(f"is damaged ({error})") from error


@contextlib.contextmanager
def reading(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection that can only read, and that makes no files beside the notebook where it can be helped."""
    written_ahead = path.with_name(path.name + "-wal")
    alone = not written_ahead.exists() or written_ahead.stat().st_size == 0
    how = "immutable=1" if alone else "mode=ro"
    connection = sqlite3.connect(f"{path.absolute().as_uri()}?{how}", uri=True, isolation_level=None, timeout=GLANCE_S)
    try:
        yield connection
    finally:
        connection.close()


def _may_write(path: Path) -> bool:
    """Whether writing is allowed and meant to be: a file without any write mark is left alone even by root."""
    return os.access(path, os.W_OK) and bool(stat.S_IMODE(path.stat().st_mode) & 0o222)
