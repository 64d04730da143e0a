"""A terminal that can only take one line after another: no cursor, no colour."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from assistant.command.lines import LEAVING
from assistant.command.log import fault_line
from assistant.command.plain import harmless
from assistant.terminal.at_work import sign_of_work
from assistant.terminal.looks import spelled
from assistant.voice.page import rendered

if TYPE_CHECKING:
    from assistant.talk.chat import Chat

_WIDTH = 72


def bare_rounds(chat: Chat, home: Path, typed: TextIO, shown: TextIO) -> int:
    """Prompt, read, answer until the input ends. An interrupt drops the line and asks again."""

    def show(text: str) -> None:
        shown.write(spelled(harmless(text), shown.encoding) + "\n")
        shown.flush()

    show(rendered(chat.opening(), _WIDTH))
    while True:
        try:
            shown.write("> ")
            shown.flush()
            line = typed.readline()
            if not line or line.strip().lower() in LEAVING:
                return 0
            if line.strip():
                with sign_of_work(lambda: show("working ..."), lambda: None):
                    text = _answer(chat, home, line.rstrip("\r\n"))
                show(text)
        except KeyboardInterrupt:
            show("")


def _answer(chat: Chat, home: Path, line: str) -> str:
    try:
        return chat.reply(harmless(line)).render(_WIDTH)
    except Exception as fault:
        return fault_line(home, line, fault)
