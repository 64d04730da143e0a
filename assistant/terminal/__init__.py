"""The conversation on a terminal. The one corner that knows prompt_toolkit, and it knows nothing of dough.

Modules: `rounds` asks and shows until the baker leaves; `desk` is the line that is typed on; `looks` has the colours;
`bare` serves a terminal that can only take one line after another.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.talk.chat import Chat


def converse(chat: Chat, home: Path) -> int:
    """Talk until the baker leaves; the exit status comes back (0). Told to end, it leaves the terminal as it was."""
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), _leave)
    if os.environ.get("TERM", "") in ("dumb", "unknown", "") and sys.platform != "win32":
        from assistant.terminal.bare import bare_rounds

        return bare_rounds(chat, home, sys.stdin, sys.stdout)
    from assistant.terminal.at_work import as_it_was
    from assistant.terminal.desk import desk_for
    from assistant.terminal.rounds import rounds

    with as_it_was():  # a signal may come where prompt_toolkit has no time to do so
        try:
            return rounds(chat, home, desk_for(chat))
        except SystemExit as told:
            status = told.code
        gc.collect()  # what the signal left half done puts back what it found now, and not after us
    raise SystemExit(status)


def _leave(number: int, _: FrameType | None) -> None:
    raise SystemExit(128 + number)
