"""The desk: the line that is typed on, with what was said before, words to complete, and a quiet line below."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from prompt_toolkit import PromptSession
from prompt_toolkit.auto_suggest import AutoSuggestFromHistory
from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.history import History
from prompt_toolkit.input import Input
from prompt_toolkit.output import Output
from prompt_toolkit.shortcuts import CompleteStyle
from prompt_toolkit.styles import Style

from assistant.terminal.looks import STYLES, spelled
from assistant.voice.width import cut

if TYPE_CHECKING:
    from assistant.talk.chat import Chat

PROMPT = "> "


def desk_for(chat: Chat, typed: Input | None = None, shown: Output | None = None) -> PromptSession[str]:
    """A desk for this conversation on the terminal, or on the input and output given."""
    desk: PromptSession[str] = PromptSession(
        [("class:mark", PROMPT)],
        history=Said(chat),
        auto_suggest=AutoSuggestFromHistory(),
        completer=Words(chat),
        complete_while_typing=False,
        complete_style=CompleteStyle.COLUMN,
        enable_history_search=True,
        reserve_space_for_menu=6,
        style=Style.from_dict(dict(STYLES)),
        include_default_pygments_style=False,
        input=typed,
        output=shown,
    )
    desk.bottom_toolbar = lambda: _below(chat, desk)
    desk.prompt_continuation = lambda width, line, wraps: " " * width
    return desk


def _below(chat: Chat, desk: PromptSession[str]) -> FormattedText:
    """The quiet line: what is under way, and what is wanted next."""
    columns = desk.output.get_size().columns - 1  # a sign in the last column makes some terminals wrap
    return FormattedText([("", cut(spelled(chat.glance(columns), desk.output.encoding()), columns))])


class Said(History):
    """What was said before, also in other calls and other runs; the notebook keeps it, nothing is written here."""

    def __init__(self, chat: Chat) -> None:
        super().__init__()
        self._chat = chat

    def load_history_strings(self) -> Iterable[str]:
        """Newest first, without repeats in a row."""
        before = None
        for line in self._chat.said_before():
            if line != before:
                yield line
            before = line

    def store_string(self, string: str) -> None:
        """The conversation has noted it already."""


class Words(Completer):
    """Whole lines that begin as typed, then words and names of several words that continue the last ones."""

    def __init__(self, chat: Chat) -> None:
        self._chat = chat

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterable[Completion]:
        """Completions for what stands before the cursor, the likeliest first."""
        typed = document.text_before_cursor.lstrip()
        for start, whole in self._chat.completions(typed):
            yield Completion(whole, start_position=-start)
