"""A real pseudo-terminal with the program in it, and the screen it draws."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pyte
import pytest

PATIENCE_S = 30.0
NOW = ("--now", "2026-03-15T06:30")
_QUICK = """
import sys, time
from datetime import timedelta
from assistant.command import opening, run as command
begun, pace = time.monotonic(), int(sys.argv[1])
opening._clock = lambda at: lambda: at + timedelta(seconds=int((time.monotonic() - begun) * pace))
sys.exit(command.run(sys.argv[2:]))
"""
"""The program by a clock that runs so many times as fast."""


class Desk:
    """The program on a terminal of its own: type, wait for words on the screen, look at the screen."""

    def __init__(
        self,
        home: Path,
        elsewhere: Path,
        columns: int,
        rows: int,
        quick: int,
        environment: dict[str, str],
        leads: bool = True,
    ) -> None:
        self._screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self._screen)
        self.raw = b""
        self._end, theirs = pty.openpty()
        self._size(columns, rows)
        # The terminal answers where its cursor is, as real ones do.
        self._screen.write_process_input = lambda answer: os.write(self._end, answer.encode())
        kept = {name: value for name, value in os.environ.items() if name not in ("BENCHSIDE_HOME", "NO_COLOR")}
        program = [sys.executable, *(["-c", _QUICK, str(quick)] if quick else ["-m", "assistant"])]
        self._process = subprocess.Popen(
            [*program, *NOW, "--home", str(home)],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            cwd=elsewhere,
            env={**kept, "PYTHONSAFEPATH": "1", "TERM": "xterm-256color", **environment},
            start_new_session=True,
            preexec_fn=(lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0)) if leads else None,
        )
        os.close(theirs)

    def _size(self, columns: int, rows: int) -> None:
        fcntl.ioctl(self._end, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    @property
    def lines(self) -> list[str]:
        return [line.rstrip() for line in self._screen.display]

    @property
    def text(self) -> str:
        return "\n".join(self.lines)

    def type(self, keys: str) -> None:
        os.write(self._end, keys.encode())

    def wait(self, settled: Callable[[], bool], what: str) -> None:
        """Draw what comes until `settled`; the patience is only there so that a failure ends."""
        until = time.monotonic() + PATIENCE_S
        while not settled():
            if time.monotonic() > until:
                raise AssertionError(f"waited in vain for {what}; the screen:\n{self.text}")
            self._draw(0.05)

    def wait_for(self, words: str) -> None:
        self.wait(lambda: words in self.text, repr(words))

    def ready(self) -> None:
        """Wait for an empty prompt with the cursor on it."""
        self.wait(lambda: self._here() == ">" and self._screen.cursor.x == 2, "an empty prompt")

    def say(self, line: str) -> None:
        """Type a line at an empty prompt, press Enter, and wait for the next empty prompt."""
        self.ready()
        self.type(line)
        self.wait(lambda: self._typed(line), f"{line!r} at the cursor")
        self.type("\r")
        self.wait(lambda: not self._typed(line), "the line to be taken")
        self.ready()

    def _typed(self, line: str) -> bool:
        """Whether the cursor stands behind the end of the line, also where the screen breaks it."""
        last = self.lines[max(0, self._screen.cursor.y - 1) : self._screen.cursor.y + 1]
        return "".join("".join(last).split()).endswith("".join(line[-12:].split()))

    def _here(self) -> str:
        """The line the cursor is on."""
        return self.lines[self._screen.cursor.y]

    def resize(self, columns: int, rows: int) -> None:
        self._screen.resize(rows, columns)
        self._size(columns, rows)
        self._process.send_signal(signal.SIGWINCH)

    @property
    def echoes(self) -> bool:
        """Whether the terminal shows what is typed by itself, as a shell expects of it."""
        return bool(termios.tcgetattr(self._end)[3] & termios.ECHO)

    def terminate(self) -> None:
        self._process.terminate()

    def ended(self) -> int:
        """Wait for the program to end; its status."""
        self.wait(lambda: self._process.poll() is not None, "the end")
        return self._process.returncode

    def close(self) -> None:
        if self._process.poll() is None:
            self._process.kill()
        self._process.wait()
        os.close(self._end)

    def _draw(self, seconds: float) -> None:
        if select.select([self._end], [], [], seconds)[0]:
            try:
                drawn = os.read(self._end, 65536)
            except OSError:  # the other end is closed
                return
            self.raw += drawn
            self._stream.feed(drawn)


Open = Callable[..., Desk]


@pytest.fixture
def open_desk(tmp_path: Path) -> Iterator[Open]:
    """Opens the program on terminals over one home."""
    desks: list[Desk] = []
    elsewhere = tmp_path / "boathouse"
    elsewhere.mkdir()

    def opened(columns: int = 60, rows: int = 30, quick: int = 0, leads: bool = True, **environment: str) -> Desk:
        """leads: the program is the leader of its terminal, which is reset when that one ends."""
        desks.append(Desk(tmp_path / "home", elsewhere, columns, rows, quick, environment, leads))
        return desks[-1]

    yield opened
    for desk in desks:
        desk.close()
