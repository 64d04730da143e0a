"""Ask, answer, show, until the baker leaves."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from prompt_toolkit import PromptSession
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.shortcuts import print_formatted_text

from assistant.lines import LEAVING, beyond_bounds
from assistant.log import fault_line
from assistant.plain import harmless
from assistant.terminal.looks import spelled
from assistant.voice.page import Line, Page, laid_out

if TYPE_CHECKING:
    from assistant.chat import Chat


def rounds(chat: Chat, home: Path, desk: PromptSession[str]) -> int:
    """Control-C drops the line or the answer under way, Control-D leaves; any fault is told and the talk goes on."""
    show(desk, chat.opening())
    while True:
        try:
            line = desk.prompt(pre_run=chat.warm)
        except KeyboardInterrupt:
            continue
        except EOFError:
            return 0
        if not line.strip():
            continue
        if line.strip().lower() in LEAVING:
            return 0
        try:
            show(desk, _answer(chat, home, line))
        except KeyboardInterrupt:
            show(desk, Page((Line("Dropped.", role="note"),)))


def show(desk: PromptSession[str], page: Page) -> None:
    """A page at the width the screen has now, and a blank line after it."""
    columns = desk.output.get_size().columns
    lines = [*laid_out(page, columns), ("plain", "")]
    print_formatted_text(_styled(lines, desk.output.encoding()), style=desk.style, output=desk.output, end="")


def _styled(lines: Iterable[tuple[str, str]], encoding: str) -> FormattedText:
    return FormattedText(
        (f"class:{role}" if role != "plain" else "", spelled(harmless(line), encoding) + "\n") for role, line in lines
    )


def _answer(chat: Chat, home: Path, line: str) -> Page:
    too_big = beyond_bounds(line)
    if too_big is not None:
        return Page((Line(too_big, role="warn"),))
    try:
        return chat.reply(harmless(line)).page
    except Exception as fault:
        return Page((Line(fault_line(home, line, fault), role="warn"),))
