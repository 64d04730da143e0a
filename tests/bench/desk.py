"""The conversation on a pseudo-terminal: until the prompt is there, and from Enter to the next prompt. Run as a script.

    python tests/bench/desk.py [rounds]
"""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import tempfile
import termios
import time
from collections.abc import Mapping
from statistics import median

LINES = (
    "24 ring rolls of 85 g at 58 %, 18 % starter",
    "and for 40?",
    "make it 62",
    "3 % honey",
    "undo",
    "why",
    "set salt to 2.2 %",
    "show again",
    "without honey",
    "18 rolls of 90 g at 65 %, 20 % rye flour, 2 % malt",
)
PROMPT = b"\x1b[?2004h"  # pasted text is asked for in brackets: the line editor is at work


class Desk:
    def __init__(self, environment: Mapping[str, str]) -> None:
        self._end, theirs = pty.openpty()
        fcntl.ioctl(self._end, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 80, 0, 0))
        self.process = subprocess.Popen(
            [sys.executable, "-m", "assistant"], stdin=theirs, stdout=theirs, stderr=theirs, env=environment
        )
        os.close(theirs)

    def until_prompt(self) -> float:
        """Seconds until the next prompt is drawn and takes typing."""
        start = time.perf_counter()
        drawn = b""
        while not (PROMPT in drawn and b"> " in drawn[drawn.index(PROMPT) :]):
            if select.select([self._end], [], [], 30)[0]:
                part = os.read(self._end, 65536)
                if b"\x1b[6n" in part:
                    os.write(self._end, b"\x1b[10;1R")
                drawn += part
        return time.perf_counter() - start

    def say(self, line: str) -> float:
        """Seconds from Enter to the next prompt."""
        os.write(self._end, line.encode())
        time.sleep(0.05)
        self._drain()
        os.write(self._end, b"\r")
        return self.until_prompt()

    def leave(self) -> None:
        time.sleep(0.05)
        self._drain()
        os.write(self._end, b"\x04")
        self.process.wait(30)
        os.close(self._end)

    def _drain(self) -> None:
        while select.select([self._end], [], [], 0.02)[0]:
            os.read(self._end, 65536)


def main(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as home:
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        environment = {**kept, "TERM": "xterm-256color", "HOME": home, "XDG_CACHE_HOME": home + "/cache"}
        environment["BENCHSIDE_HOME"] = home + "/home"
        library = [sys.executable, "-c", "import prompt_toolkit"]
        subprocess.run(library, check=True, env=environment)
        ratios, opened, imported, answered = [], [], [], []
        for turn in range(rounds + 1):
            start = time.perf_counter()
            subprocess.run(library, check=True, env=environment)
            imports_s = time.perf_counter() - start
            start = time.perf_counter()
            desk = Desk(environment)
            desk.until_prompt()
            opens_s = time.perf_counter() - start
            said = [desk.say(line) for line in LINES]
            desk.leave()
            if turn:  # the first one fills the kept tables
                ratios.append(opens_s / imports_s)
                opened.append(opens_s)
                imported.append(imports_s)
                answered += said
    answered.sort()
    opens_ms, imports_ms = 1000 * median(opened), 1000 * median(imported)
    print(f"prompt visible: p50 {opens_ms:.0f} ms; import prompt_toolkit: p50 {imports_ms:.0f} ms")
    print(f"prompt visible / import prompt_toolkit: {median(ratios):.2f} ({min(ratios):.2f} to {max(ratios):.2f})")
    print(f"Enter to the next prompt, {len(answered)} lines: p50 {1000 * median(answered):.0f} ms, "
          f"p99 {1000 * answered[int(len(answered) * 0.99)]:.0f} ms, worst {1000 * answered[-1]:.0f} ms")  # fmt: skip


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
