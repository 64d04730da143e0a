"""Faults of ours: the details go into a private rotating log in the home folder, never onto the baker's screen."""

from __future__ import annotations

import os
from pathlib import Path

NAME = "faults.log"
_BYTES = 256_000
_KEPT = 3


def note_fault(home: Path, while_doing: str, fault: BaseException) -> Path | None:
    """Write down a fault with its traceback; the log's path comes back, None where the folder takes none."""
    import logging
    from logging.handlers import RotatingFileHandler

    path = home / NAME
    try:
        home.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_CREAT | os.O_APPEND | os.O_WRONLY, 0o600))
        handler = RotatingFileHandler(path, maxBytes=_BYTES, backupCount=_KEPT, encoding="utf-8", errors="replace")
    except OSError:
        return None
    try:
        handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
        told = (type(fault), fault, fault.__traceback__)
        handler.handle(logging.LogRecord("benchside", logging.ERROR, __file__, 0, "%r", (while_doing,), told))
    finally:
        handler.close()
        path.chmod(0o600)  # a log just rotated in is a new file
    return path


def fault_line(home: Path, while_doing: str, fault: BaseException) -> str:
    """Note a fault and say so in the one line the baker gets."""
    path = note_fault(home, while_doing, fault)
    kept = f"; the details are in {path}" if path is not None else ""
    return f"Something in this program went wrong with that{kept}. Try it in other words."
