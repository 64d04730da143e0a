"""While an answer is worked out: a sign that it is, and keys typed meanwhile kept, not echoed."""

from __future__ import annotations

import contextlib
import sys
import threading
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

Attributes: TypeAlias = list[Any]
"""What a terminal does by itself, as `termios` tells it."""
SOON_S = 0.3
"""What takes longer shows that it is being worked at."""


@contextlib.contextmanager
def sign_of_work(shown: Callable[[], None], gone: Callable[[], None]) -> Iterator[None]:
    """Calls `shown` if the block takes longer than a moment, and `gone` after it if so."""
    done = threading.Event()
    told = threading.Event()

    def wait() -> None:
        if not done.wait(SOON_S):
            told.set()
            shown()

    waiting = threading.Thread(target=wait, name="sign of work", daemon=True)
    waiting.start()
    try:
        yield
    finally:
        done.set()
        waiting.join()
        if told.is_set():
            gone()


@contextlib.contextmanager
def as_it_was() -> Iterator[Attributes | None]:
    """The terminal has after the block, however that ends, what it had before; the block is given that."""
    try:
        import termios

        keyboard = sys.stdin.fileno()
        before = termios.tcgetattr(keyboard)
    except (ImportError, OSError, ValueError, termios.error):  # no terminal, or none of that sort
        yield None
        return
    try:
        yield before
    finally:
        termios.tcsetattr(keyboard, termios.TCSANOW, before)


@contextlib.contextmanager
def keys_kept() -> Iterator[None]:
    """Keys wait unseen in the terminal's own queue until the next prompt reads them; Control-C still interrupts."""
    with as_it_was() as before:
        if before is not None:
            import termios

            held = [*before]
            held[0] = before[0] & ~(termios.ICRNL | termios.IXON)
            held[3] = before[3] & ~(termios.ECHO | termios.ICANON)
            termios.tcsetattr(sys.stdin.fileno(), termios.TCSANOW, held)
        yield
