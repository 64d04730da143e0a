"""The conversation over a home folder, opened for a call or for a terminal."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command.folders import cache_folder
from assistant.command.options import Call
from assistant.command.replies import Talk
from assistant.command.streams import complain

if TYPE_CHECKING:
    from assistant.notebook import Notebook
    from assistant.talk.chat import Chat
    from assistant.talk.conversation import Conversation
    from knowledge import Knowledge


def open_conversation(call: Call, home: Path) -> Talk:
    """The conversation over the notebook in `home`; what is at fault with files there is said on standard error."""
    from assistant.notebook import Notebook
    from knowledge import load

    kb = load(overlay=home / "knowledge", cache=cache_folder())
    notebook = Notebook.open(home, knowledge=kb.version)
    for trouble in (*kb.troubles, *filter(None, [notebook.trouble])):
        complain(trouble)
    return _conversation(call, home, kb, notebook)


def _conversation(call: Call, home: Path, kb: Knowledge, notebook: Notebook) -> Conversation:
    from assistant.papers.cards import Cards
    from assistant.talk.conversation import Conversation

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
            complain(trouble)
    if notebook.trouble:
        complain(notebook.trouble)

    def ready() -> Conversation:
        from knowledge import load

        kb = load(overlay=own, cache=cache)
        notebook.knowledge = kb.version
        return _conversation(call, home, kb, notebook)

    return Chat(notebook, ready, _clock(call.now), lambda: examples(cache), call.fresh)


def _clock(fixed: datetime | None) -> Callable[[], datetime]:
    if fixed is not None:
        return lambda: fixed
    return lambda: datetime.now().replace(microsecond=0)
