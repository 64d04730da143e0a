"""What a conversation on a terminal needs beside the replies: a first page, a quiet line, words to complete.

The first page and the prompt are there before the reader and the facts are: those are made ready in the background
while the baker reads and types.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from assistant.bench import Bake, Bench
from assistant.completion import continued, names_in
from assistant.notebook import Notebook
from assistant.voice.page import Line, Page

if TYPE_CHECKING:
    from assistant.conversation import Conversation
    from assistant.reply import Reply

SAID_BEFORE = 300
"""How many lines of the past can be called up again."""
EXAMPLES = 3


class Chat:
    """The conversation over one notebook, with what a terminal shows around it.

    open_conversation: makes the conversation, which takes a moment and is done once, in the background; it must not
    touch the notebook. examples: lines that can be asked, for the first page on an empty bench.
    """

    def __init__(
        self,
        notebook: Notebook,
        open_conversation: Callable[[], Conversation],
        now: Callable[[], datetime],
        examples: Callable[[], Sequence[str]],
        fresh: bool = False,
    ) -> None:
        self._notebook = notebook
        self._open = open_conversation
        self._now = now
        self._examples = examples
        self._fresh = fresh
        self._conversation: Conversation | None = None
        self._vocabulary: Mapping[str, tuple[tuple[str, str], ...]] = {}
        self._fault: Exception | None = None
        self._warming: threading.Thread | None = None

    def warm(self) -> None:
        """Begin to make the conversation ready, if that has not begun; returns at once."""
        if self._conversation is None and self._warming is None:
            self._warming = threading.Thread(target=self._make, name="warming up", daemon=True)
            self._warming.start()

    def reply(self, text: str) -> Reply:
        """The reply to one line, or to one pasted text."""
        return self._ready().reply(text)

    def opening(self) -> Page:
        """The first page: what is in hand and what comes next, else lines that can be said."""
        bench = self._bench()
        if bench.bake is not None:
            known = (Line(said) for said in _in_hand(bench.bake, bench.notes.get("plan") or {}, self._now()))
            return Page((*known, Line("“show again” for its weights, “start over” for another dough.", role="note")))
        shown = self._examples()[:EXAMPLES]
        return Page((Line("Say what you want to bake, or ask:"), *(Line(said, role="ask", indent=2) for said in shown)))

    def glance(self) -> str:
        """One line: the bake in hand, its stage, the kitchen. Empty on an empty bench with nothing set."""
        bench = self._bench()
        parts = []
        if bench.bake is not None:
            parts += [bench.bake.name or "a dough", _stage(bench, self._now())]
        kitchen_c = bench.settings.get("kitchen_c")
        if kitchen_c is not None:
            parts.append(f"kitchen {kitchen_c:g} °C")
        return " · ".join(filter(None, parts))

    def said_before(self) -> Iterator[str]:
        """Lines said in this notebook, newest first."""
        for entry in self._notebook.entries(limit=SAID_BEFORE, taken_back=True):
            yield entry.text

    def completions(self, typed: str) -> Iterable[tuple[int, str]]:
        """(characters before the cursor that are replaced, what replaces them), the likeliest first."""
        conversation = self._ready()
        bake = self._bench().bake
        likely = names_in(bake.said, conversation.kb) if bake is not None else ()
        if not self._vocabulary:
            from knowledge.vocabulary import vocabulary

            self._vocabulary = vocabulary(conversation.kb)
        return continued(typed, tuple(self._examples()), likely, self._vocabulary)

    def _bench(self) -> Bench:
        if self._conversation is not None:
            return self._conversation.bench
        state: Mapping[str, Any] = self._notebook.tail().state
        return Bench.from_json({"settings": state.get("settings")} if self._fresh else state)

    def _make(self) -> None:
        try:
            self._conversation = self._open()
        except Exception as fault:  # told where a line is answered: a thread has nobody to tell
            self._fault = fault

    def _ready(self) -> Conversation:
        self.warm()
        if self._warming is not None:
            self._warming.join()
        if self._conversation is None:
            fault, self._fault, self._warming = self._fault, None, None
            raise fault or RuntimeError("the conversation did not open")
        return self._conversation


def _in_hand(bake: Bake, plan: Mapping[str, Any], now: datetime) -> Iterator[str]:
    begun = datetime.fromisoformat(bake.begun)
    when = f"{begun:%H:%M}" if begun.date() == now.date() else f"{begun:%A} {begun.day} {begun:%B}, {begun:%H:%M}"
    yield f"In hand: {bake.name or 'a dough'}, since {when}."
    following = _next_step(plan.get("steps") or (), now) if plan.get("dough") == bake.name else None
    if following:
        yield f"Next: {following}."


def _stage(bench: Bench, now: datetime) -> str:
    """Where the kept plan of the bake in hand stands: its last step that has begun; "" before it and without one."""
    plan = bench.notes.get("plan") or {}
    if bench.bake is None or plan.get("dough") != bench.bake.name:
        return ""
    begun = [step for step in plan.get("steps") or () if datetime.fromisoformat(str(step["start"])) <= now]
    return str(begun[-1]["label"]) if begun else ""


def _next_step(steps: Sequence[Mapping[str, Any]], now: datetime) -> str | None:
    """The first step of a kept plan that is still to come, with its hour."""
    for step in steps:
        start = datetime.fromisoformat(str(step["start"]))
        if start >= now:
            day = "" if start.date() == now.date() else f"{start:%A} "
            return f"{step['label']} at {day}{start:%H:%M}"
    return None
