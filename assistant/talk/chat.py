"""What a conversation on a terminal needs beside the replies: a first page, a quiet line, words to complete.

The first page and the prompt are there before the reader and the facts are: those are made ready in the background
while the baker reads and types.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from assistant.notebook import Notebook
from assistant.talk.bench import TOLD, Bake, Bench
from assistant.talk.completion import continued, names_in
from assistant.talk.kitchen import places
from assistant.voice.page import Line, Page
from assistant.voice.width import cut

if TYPE_CHECKING:
    from assistant.talk.agenda import Agenda
    from assistant.talk.conversation import Conversation
    from assistant.talk.reply import Reply

SAID_BEFORE = 300
"""How many lines of the past can be called up again."""
EXAMPLES = 3
AGAIN = timedelta(minutes=5)
"""What came due and was not answered is called out again after so long."""


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
        self._ahead: tuple[int, Agenda] | None = None  # the agenda, and the line after which it was made
        self._called: dict[str, datetime] = {}
        self._answered: set[str] = set()

    def close(self) -> None:
        """Let go of the notebook."""
        self._notebook.close()

    def warm(self) -> None:
        """Begin to make the conversation ready, if that has not begun; returns at once."""
        if self._conversation is None and self._warming is None:
            self._warming = threading.Thread(target=self._make, name="warming up", daemon=True)
            self._warming.start()

    def reply(self, text: str) -> Reply:
        """The reply to one line, or to one pasted text."""
        conversation = self._ready()
        conversation.called_out = frozenset(self._called)
        self._called.clear()
        self._answered.clear()
        return conversation.reply(text)

    def due(self) -> Page | None:
        """What came due and is to be called out now: once, and again until a line is said; None where nothing is."""
        agenda = self._agenda()
        if agenda is None:
            return None
        from assistant.talk.agenda import once

        now = self._now().replace(tzinfo=None)
        due = [one for one in agenda.due(now) if one.id not in self._answered]
        fresh = [one for one in due if one.id not in self._called or now - self._called[one.id] >= AGAIN]
        self._called |= {one.id: now for one in fresh}
        return Page(tuple(Line(once(one, now), role="warn") for one in fresh)) if fresh else None

    def seen(self) -> None:
        """The baker answered what was called out, without asking anything."""
        self._answered |= self._called.keys()

    @property
    def quiet(self) -> bool:
        """Whether the bell stays silent."""
        return bool(self._bench().settings.get("bell") == "off")

    def opening(self) -> Page:
        """The first page: what is in hand and what comes next, else lines that can be said."""
        bench = self._bench()
        if bench.bake is not None:
            known = (Line(said) for said in _in_hand(bench.bake, bench.notes.get("plan") or {}, self._now()))
            return Page((*known, Line("“show again” for its weights, “start over” for another dough.", role="note")))
        shown = self._examples()[:EXAMPLES]
        return Page((Line("Say what you want to bake, or ask:"), *(Line(said, role="ask", indent=2) for said in shown)))

    def glance(self, columns: int) -> str:
        """One line of at most `columns`: the doughs' stages and next steps, the timers, the kitchen; "" on an empty
        bench with nothing set. Until the facts are there, what is in hand."""
        bench, agenda = self._bench(), self._agenda()
        kitchen_c = bench.settings.get("kitchen_c")
        kitchen = f"kitchen {kitchen_c:g} °C" if kitchen_c is not None else ""
        if agenda is not None:
            return cut(agenda.glance(self._now().replace(tzinfo=None), columns, kitchen), columns)
        return cut((bench.bake.name or "a dough") if bench.bake is not None else kitchen, columns)

    def said_before(self) -> Iterator[str]:
        """Lines said in this notebook, newest first."""
        for entry in self._notebook.entries(limit=SAID_BEFORE, taken_back=True):
            yield entry.text

    def completions(self, typed: str) -> Iterable[tuple[int, str]]:
        """(characters before the cursor that are replaced, what replaces them), the likeliest first."""
        conversation = self._ready()
        bench = self._bench()
        likely = names_in(bench.bake.said, conversation.kb) if bench.bake is not None else ()
        named = (*(bake.called for bake in bench.bakes), *(one.name for one in bench.kept))
        likely = (*filter(None, named), *(place.name for place in places(bench.settings)), *likely)
        if not self._vocabulary:
            from knowledge.vocabulary import vocabulary

            self._vocabulary = vocabulary(conversation.kb)
        return continued(typed, tuple(self._examples()), likely, self._vocabulary)

    def _agenda(self) -> Agenda | None:
        """The agenda as of the last line said; None until the facts are there."""
        if self._conversation is None:
            return None
        seq = self._notebook.tail().seq
        if self._ahead is None or self._ahead[0] != seq:
            from assistant.talk.agenda import agenda_of
            from assistant.talk.bench import RUNNING_TIMERS

            bench, last = self._bench(), self._notebook.entries(limit=1, taken_back=True)
            made = datetime.fromisoformat(last[0].said_at) if last else self._now()
            entries = self._notebook.entries() if RUNNING_TIMERS in bench.notes else ()
            self._ahead = (seq, agenda_of(self._conversation.kb, bench, entries, made))
        return self._ahead[1]

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
    by_plan = plan.get("dough") == bake.name and TOLD not in bake.facts  # what was told since has moved the plan
    following = _next_step(plan.get("steps") or (), now) if by_plan else None
    if following:
        yield f"Next: {following}."


def _next_step(steps: Sequence[Mapping[str, Any]], now: datetime) -> str | None:
    """The first step of a kept plan that is still to come, with its hour."""
    for step in steps:
        start = datetime.fromisoformat(str(step["start"]))
        if start >= now:
            day = "" if start.date() == now.date() else f"{start:%A} "
            return f"{step['label']} at {day}{start:%H:%M}"
    return None
