"""Ask, answer, show, until the baker leaves."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from contextlib import AbstractContextManager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from prompt_toolkit import PromptSession
from prompt_toolkit.application import run_in_terminal
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.shortcuts import print_formatted_text

from assistant.command.lines import LEAVING, beyond_bounds
from assistant.command.log import fault_line
from assistant.command.plain import harmless
from assistant.terminal.at_work import keys_kept, sign_of_work
from assistant.terminal.looks import spelled
from assistant.voice.page import Line, Page, laid_out

if TYPE_CHECKING:
    from assistant.talk.chat import Chat

Lines: TypeAlias = list[tuple[str, str]]
"""(role, line) from top to bottom."""
LOOKS_S = 1.0
"""How often the clock is looked at while a line is typed."""
_GOES_ON = frozenset({"more", "more please", "go on", "next page"})
_FEWEST_ROWS = 6
"""A screen of fewer rows is not worth breaking a page for."""


def rounds(chat: Chat, home: Path, desk: PromptSession[str]) -> int:
    """Control-C drops the line or the answer under way, Control-D leaves; any fault is told and the talk goes on."""
    show(desk, chat.opening())
    rest: Lines = []

    def begin() -> None:
        chat.warm()
        desk.app.create_background_task(_clock_watched(chat, home, desk))

    while True:
        try:
            line = desk.prompt(pre_run=begin)
        except KeyboardInterrupt:
            continue
        except EOFError:
            return 0
        said = line.strip().lower()
        if not said:
            chat.seen()
            continue
        if said in LEAVING:
            return 0
        if rest and said in _GOES_ON:
            rest = _screenful(desk, rest)
            continue
        try:
            with keys_kept(), _working(desk):
                page = _answer(chat, home, line)
            rest = _screenful(desk, [*laid_out(page, desk.output.get_size().columns), ("plain", "")])
        except KeyboardInterrupt:
            show(desk, Page((Line("Dropped.", role="note"),)))


async def _clock_watched(chat: Chat, home: Path, desk: PromptSession[str]) -> None:
    """Keeps the quiet line true, and calls out above the prompt what comes due; what is being typed stays as it is."""
    before = ""
    try:
        while True:
            page = chat.due()
            if page is not None:
                if not chat.quiet:
                    desk.output.bell()
                await run_in_terminal(partial(show, desk, page))
            now = chat.glance(desk.output.get_size().columns)
            if page is not None or now != before:
                before = now
                desk.app.invalidate()
            await asyncio.sleep(LOOKS_S)
    except Exception as fault:  # the talk goes on without the clock; the log says why
        fault_line(home, "the clock", fault)


def _working(desk: PromptSession[str]) -> AbstractContextManager[None]:
    output = desk.output

    def shown() -> None:
        output.write("working ...")
        output.flush()

    def gone() -> None:
        output.write_raw("\r")
        output.erase_end_of_line()
        output.flush()

    return sign_of_work(shown, gone)


def show(desk: PromptSession[str], page: Page) -> None:
    """A page at the width the screen has now, and a blank line after it."""
    _print(desk, [*laid_out(page, desk.output.get_size().columns), ("plain", "")])


def _screenful(desk: PromptSession[str], lines: Lines) -> Lines:
    """As much as one screen holds; what is left comes back, to be shown on "more"."""
    rows = max(_FEWEST_ROWS, desk.output.get_size().rows) - 4  # the line said, the prompt, the quiet line, the note
    if len(lines) <= rows + 2:
        _print(desk, lines)
        return []
    left = lines[rows:]
    _print(desk, [*lines[:rows], ("note", f"“more” goes on, {len(left) - 1} lines."), ("plain", "")])
    return left


def _print(desk: PromptSession[str], lines: Lines) -> None:
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
