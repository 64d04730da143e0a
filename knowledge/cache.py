"""Plain tables kept between runs, so that a short question need not read the YAML again.

A table is JSON in a private folder of the user's. It is never needed: whatever is wrong with it (damaged, stale,
foreign, unreadable, not writable) only means that the table is made anew. Nothing but plain values is stored, so a
planted file cannot run anything; a folder that others may write to is not used at all.
"""

from __future__ import annotations

import contextlib
import json
import os
import stat
from collections.abc import Callable
from hashlib import blake2b
from pathlib import Path
from typing import Any


def digest(*parts: bytes) -> str:
    """A short name for exactly these bytes in this order."""
    summed = blake2b(digest_size=16)
    for part in parts:
        summed.update(len(part).to_bytes(8, "big"))
        summed.update(part)
    return summed.hexdigest()


class TableCache:
    """Tables by name in one folder; with no folder, every table is made anew."""

    __slots__ = ("_folder",)

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder if folder is not None and _is_private(folder) else None

    def table(self, name: str, key: str, make: Callable[[], Any]) -> Any:
        """The table kept under `name` if it was made for `key`, else a new one from `make`, then kept."""
        kept = self._read(name, key)
        if kept is not None:
            return kept
        made = make()
        self._write(name, key, made)
        return made

    def _read(self, name: str, key: str) -> Any:
        if self._folder is None:
            return None
        try:
            head, _, body = (self._folder / f"{name}.json").read_bytes().partition(b"\n")
            if head.decode("ascii") != f"{key} {digest(body)}":
                return None
            return json.loads(body)
        except (OSError, ValueError, RecursionError):
            return None

    def _write(self, name: str, key: str, table: Any) -> None:
        if self._folder is None:
            return
        body = json.dumps(table, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
        beside = self._folder / f".{name}-{os.getpid()}-{os.urandom(4).hex()}"
        with contextlib.suppress(OSError):
            try:
                handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
                with os.fdopen(handle, "wb") as file:
                    file.write(f"{key} {digest(body)}\n".encode("ascii") + body)
                beside.replace(self._folder / f"{name}.json")
            except BaseException:
                with contextlib.suppress(OSError):
                    beside.unlink()
                raise


def _is_private(folder: Path) -> bool:
    """True when the folder is there (made when missing), is ours and is closed to everybody else."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        found = folder.lstat()
    except OSError:
        return False
    if not stat.S_ISDIR(found.st_mode):
        return False
    if os.name != "posix":
        return True
    return found.st_uid == os.getuid() and not found.st_mode & 0o077
