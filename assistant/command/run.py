"""The command: reads the call, asks the conversation, hands back each reply before the next line is read."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import BinaryIO

from assistant import __version__
from assistant.command.folders import NoHome, cache_folder, home_folder
from assistant.command.lines import requests_in, unwrapped
from assistant.command.log import fault_line
from assistant.command.opening import open_chat, open_conversation
from assistant.command.options import HELP, Call, Misread, read_call
from assistant.command.replies import ANSWERED, FAULT, NOT_ANSWERED, Talk, replies_to
from assistant.command.streams import Unsaid, complain, let_go_of_the_pipe, say, speak_utf8

CONTRACT = 1

STANDARD_INPUT = Path("-")
"""The file that stands for standard input."""

Opener = Callable[[Call, Path], Talk]


def run(arguments: Sequence[str], opened: Opener | None = None) -> int:
    """Answer one call of the command; its exit status comes back.

    0 answered, 2 not understood or refused, 1 a fault of ours or of a file. opened: makes the conversation; the real
    one where None.
    """
    try:
        call = read_call(arguments)
    except Misread as misread:
        speak_utf8()
        complain(str(misread))
        return NOT_ANSWERED
    if not _is_chat(call):  # a chat keeps to the characters the terminal has
        speak_utf8()
    home = Path()
    try:
        if call.help:
            say(HELP)
            return ANSWERED
        home = home_folder(call.home)
        return _answer(call, home, opened or open_conversation)
    except NoHome as nowhere:
        complain(str(nowhere))
        return FAULT
    except BrokenPipeError:
        let_go_of_the_pipe()
        return ANSWERED
    except Unsaid as unsaid:
        complain(f"The answer could not be written ({unsaid}).")
        let_go_of_the_pipe()
        return FAULT
    except KeyboardInterrupt:
        return 130
    except Exception as fault:
        complain(fault_line(home, " ".join(arguments), fault))
        return FAULT


def _answer(call: Call, home: Path, opened: Opener) -> int:
    if call.version:
        say(_versions(home))
        return ANSWERED
    if call.request is not None:
        return _one_request(call, home, opened)
    if call.file is not None and call.file != STANDARD_INPUT:
        try:
            stream = call.file.open("rb")
            stream.peek(1)
        except OSError as error:
            complain(f"The file {call.file} cannot be read ({error.strerror or error}).")
            return FAULT
        with stream:
            return _lines(call, home, opened, stream)
    if sys.stdin is None:
        return ANSWERED
    if _is_chat(call):
        from assistant.terminal import converse

        gc.enable()
        with closing(open_chat(call, home)) as chat:
            return converse(chat, home)
    return _lines(call, home, opened, sys.stdin.buffer)


def _is_chat(call: Call) -> bool:
    """Whether this call opens the conversation: nothing asked, and a terminal at both ends."""
    if call.help or call.version or call.json or call.request is not None or call.file is not None:
        return False
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def _one_request(call: Call, home: Path, opened: Opener) -> int:
    assert call.request is not None
    request = unwrapped(_as_utf8(call.request))
    with closing(opened(call, home)) as talk:
        (status,) = replies_to([request], call, home, talk)
    return status


def _lines(call: Call, home: Path, opened: Opener, stream: BinaryIO) -> int:
    with closing(opened(call, home)) as talk:
        statuses = set(replies_to(requests_in(stream), call, home, talk))
    return FAULT if FAULT in statuses else NOT_ANSWERED if NOT_ANSWERED in statuses else ANSWERED


def _versions(home: Path) -> str:
    from assistant.notebook.file import SCHEMA
    from knowledge import load

    kb = load(overlay=home / "knowledge", cache=cache_folder())
    return f"benchside {__version__} (contract {CONTRACT}, notebook {SCHEMA}, knowledge {kb.version})"


def _as_utf8(argument: str) -> str:
    """An argument as UTF-8 whatever the locale took its bytes for."""
    return os.fsencode(argument).decode("utf-8", "replace") if os.name == "posix" else argument
