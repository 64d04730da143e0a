"""The reply to each request of a call, said before the next one is read, and the status of each."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, Protocol

from assistant.command.lines import beyond_bounds
from assistant.command.log import fault_line
from assistant.command.options import Call
from assistant.command.plain import harmless
from assistant.command.streams import one_line, say, screen_width

ANSWERED, FAULT, NOT_ANSWERED = 0, 1, 2


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


def replies_to(requests: Iterable[str], call: Call, home: Path, talk: Talk) -> Iterator[int]:
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
                text = "" if call.json else reply.render(screen_width())
                status = NOT_ANSWERED if reply.kind in ("unread", "refused") else ANSWERED
            except Exception as fault:
                text = fault_line(home, request, fault)
                fields = _refusal(request, text)
                status = FAULT
        if call.json:
            say(one_line({**fields, "request": request}))
        else:
            say(("\n" if count else "") + harmless(text).rstrip("\n"))
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
