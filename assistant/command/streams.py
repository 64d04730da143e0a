"""Standard output and error: said flushed and in UTF-8, whatever the terminal or the pipe does."""

from __future__ import annotations

import json
import os
import re
import sys
from typing import Any

from assistant.command.plain import TURNING, harmless

_CONTROL = re.compile(rf"[\x7f-\x9f{TURNING}]")


class Unsaid(Exception):
    """Standard output takes nothing more, and not because its reader went away."""


def one_line(fields: dict[str, Any]) -> str:
    """Compact JSON; characters that JSON allows and a terminal might obey are written as escapes."""
    text = json.dumps(fields, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return _CONTROL.sub(lambda found: json.dumps(found[0])[1:-1], text)


def screen_width() -> int | None:
    """Columns of the terminal that reads us; None where none does."""
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns or None if sys.stdout is not None else None
    except (OSError, ValueError):
        return None


def speak_utf8() -> None:
    """Standard output and error in UTF-8, whatever the locale says."""
    for stream in (sys.stdout, sys.stderr):
        if stream is not None and hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def say(text: str) -> None:
    """A text on standard output, flushed. Unsaid where it takes nothing more."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(text.removesuffix("\n") + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise Unsaid(error.strerror or str(error)) from error


def complain(line: str) -> None:
    """One line on standard error."""
    if sys.stderr is not None:
        sys.stderr.write("benchside: " + " ".join(harmless(line).split("\n")) + "\n")
        sys.stderr.flush()


def let_go_of_the_pipe() -> None:
    """Point standard output nowhere, so that the interpreter's last flush has nothing to complain about."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
