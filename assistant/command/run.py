"""The command: reads the call, asks the conversation, hands back each reply before the next line is read."""

from __future__ import annotations

import gc
import json
import os
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO, Protocol

from assistant import __version__
from assistant.command.folders import NoHome, cache_folder, home_folder
from assistant.command.lines import beyond_bounds, requests_in, unwrapped
from assistant.command.log import fault_line
from assistant.command.options import HELP, Call, Misread, read_call
from assistant.command.plain import TURNING, harmless

if TYPE_CHECKING:
    from assistant.talk.chat import Chat
    from assistant.talk.conversation import Conversation

CONTRACT = 1

ANSWERED, FAULT, NOT_ANSWERED = 0, 1, 2

STANDARD_INPUT = Path("-")
"""The file that stands for standard input."""

_CONTROL = re.compile(rf"[\x7f-\x9f{TURNING}]")


class Reply(Protocol):
    """What the command needs of a reply (`assistant.talk.reply.Reply`)."""

    @property
    def kind(self) -> str: ...

    def as_json(self) -> dict[str, Any]: ...

    def render(self, width: int | None, more: bool = False) -> str: ...


class Talk(Protocol):
    """What the command needs of a conversation (`assistant.talk.conversation.Conversation`)."""

    def reply(self, text: str) -> Reply: ...

    def close(self) -> None: ...


class _Unsaid(Exception):
    """Standard output takes nothing more, and not because its reader went away."""


Opener = Callable[[Call, Path], Talk]


def run(arguments: Sequence[str], opened: Opener | None = None) -> int:
    """Answer one call of the command; its exit status comes back.

    0 answered, 2 not understood or refused, 1 a fault of ours or of a file. opened: makes the conversation; the real
    one where None.
    """
    try:
        call = read_call(arguments)
    except Misread as misread:
        _speak_utf8()
        _complain(str(misread))
        return NOT_ANSWERED
    if not _is_chat(call):  # a chat keeps to the characters the terminal has
        _speak_utf8()
    home = Path()
    try:
        if call.help:
            _say(HELP)
            return ANSWERED
        home = home_folder(call.home)
        return _answer(call, home, opened or open_conversation)
    except NoHome as nowhere:
        _complain(str(nowhere))
        return FAULT
    except BrokenPipeError:
        _let_go_of_the_pipe()
        return ANSWERED
    except _Unsaid as unsaid:
        _complain(f"The answer could not be written ({unsaid}).")
        _let_go_of_the_pipe()
        return FAULT
    except KeyboardInterrupt:
        return 130
    except Exception as fault:
        _complain(fault_line(home, " ".join(arguments), fault))
        return FAULT


def open_conversation(call: Call, home: Path) -> Talk:
    """The conversation over the notebook in `home`; what is at fault with files there is said on standard error."""
    from assistant.notebook import Notebook
    from assistant.papers.cards import Cards
    from assistant.talk.conversation import Conversation
    from knowledge import load

    kb = load(overlay=home / "knowledge", cache=cache_folder())
    notebook = Notebook.open(home, knowledge=kb.version)
    for trouble in (*kb.troubles, *filter(None, [notebook.trouble])):
        _complain(trouble)
    return Conversation(kb, notebook, now=_clock(call.now), fresh=call.fresh, cards=Cards(home / "cards"))


def open_chat(call: Call, home: Path) -> Chat:
    """The same with what a terminal shows around it; the reader and the facts are made ready behind the first page."""
    from assistant.command.examples import examples
    from assistant.notebook import Notebook
    from assistant.talk.chat import Chat

    cache = cache_folder()
    notebook = Notebook.open(home)
    own = home / "knowledge"
    if own.is_dir():
        from knowledge import load

        for trouble in load(overlay=own, cache=cache).troubles:
            _complain(trouble)
    if notebook.trouble:
        _complain(notebook.trouble)

    def ready() -> Conversation:
        from assistant.papers.cards import Cards
        from assistant.talk.conversation import Conversation
        from knowledge import load

        kb = load(overlay=own, cache=cache)
        notebook.knowledge = kb.version
        return Conversation(kb, notebook, now=_clock(call.now), fresh=call.fresh, cards=Cards(home / "cards"))

    return Chat(notebook, ready, _clock(call.now), lambda: examples(cache), call.fresh)


def _answer(call: Call, home: Path, opened: Opener) -> int:
    if call.version:
        _say(_versions(home))
        return ANSWERED
    if call.request is not None:
        return _one_request(call, home, opened)
    if call.file is not None and call.file != STANDARD_INPUT:
        try:
            stream = call.file.open("rb")
            stream.peek(1)
        except OSError as error:
            _complain(f"The file {call.file} cannot be read ({error.strerror or error}).")
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
        (status,) = _replies([request], call, home, talk)
    return status


def _lines(call: Call, home: Path, opened: Opener, stream: BinaryIO) -> int:
    with closing(opened(call, home)) as talk:
        statuses = set(_replies(requests_in(stream), call, home, talk))
    return FAULT if FAULT in statuses else NOT_ANSWERED if NOT_ANSWERED in statuses else ANSWERED


def _replies(requests: Iterable[str], call: Call, home: Path, talk: Talk) -> Iterator[int]:
    """Say the reply to each request, flushed before the next one is taken; the status of each comes back."""
    for count, request in enumerate(requests):
        too_big = beyond_bounds(request)
        status = NOT_ANSWERED
        if too_big is not None:
            fields = _refusal(request, too_big)
            text = too_big
        else:
            try:
                reply = talk.reply(harmless(request))
                fields = reply.as_json() if call.json else {}
                text = "" if call.json else reply.render(_screen_width())
                status = NOT_ANSWERED if reply.kind in ("unread", "refused") else ANSWERED
            except Exception as fault:
                text = fault_line(home, request, fault)
                fields = _refusal(request, text)
                status = FAULT
        if call.json:
            _say(_one_line({**fields, "request": request}))
        else:
            _say(("\n" if count else "") + harmless(text).rstrip("\n"))
        yield status
        gc.enable()  # a run of many requests tidies up after itself


def _refusal(request: str, why: str) -> dict[str, Any]:
    return {
        "request": request,
        "read_as": "",
        "kind": "refused",
        "answer": {"why": why, "nearest": None},
        "assumed": [],
        "cautions": [],
        "sources": [],
        "unread": [],
        "text": why,
    }


def _one_line(fields: dict[str, Any]) -> str:
    """Compact JSON; characters that JSON allows and a terminal might obey are written as escapes."""
    text = json.dumps(fields, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return _CONTROL.sub(lambda found: json.dumps(found[0])[1:-1], text)


def _clock(fixed: datetime | None) -> Callable[[], datetime]:
    if fixed is not None:
        return lambda: fixed
    return lambda: datetime.now().replace(microsecond=0)


def _screen_width() -> int | None:
    """Columns of the terminal that reads us; None where none does."""
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns or None if sys.stdout is not None else None
    except (OSError, ValueError):
        return None


def _versions(home: Path) -> str:
    from assistant.notebook.file import SCHEMA
    from knowledge import load

    kb = load(overlay=home / "knowledge", cache=cache_folder())
    return f"benchside {__version__} (contract {CONTRACT}, notebook {SCHEMA}, knowledge {kb.version})"


def _as_utf8(argument: str) -> str:
    """An argument as UTF-8 whatever the locale took its bytes for."""
    return os.fsencode(argument).decode("utf-8", "replace") if os.name == "posix" else argument


def _speak_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        if stream is not None and hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _say(text: str) -> None:
    if sys.stdout is None:
        return
    try:
        sys.stdout.write(text.removesuffix("\n") + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise _Unsaid(error.strerror or str(error)) from error


def _complain(line: str) -> None:
    if sys.stderr is not None:
        sys.stderr.write("benchside: " + " ".join(harmless(line).split("\n")) + "\n")
        sys.stderr.flush()


def _let_go_of_the_pipe() -> None:
    """Point standard output nowhere, so that the interpreter's last flush has nothing to complain about."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
