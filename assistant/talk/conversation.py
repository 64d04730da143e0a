"""The talk over one notebook: what stands, each line made into its reply, and noted before it is said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from assistant.engine.possible import bad_settings
from assistant.notebook import Moved, Notebook, NotKept
from assistant.papers.cards import Cards
from assistant.talk.bench import Bench
from assistant.talk.kitchen import places
from assistant.talk.lexicon import lexicon, with_places
from assistant.talk.replies import beginning, not_kept, records, unchanged
from assistant.talk.reply import Reply
from assistant.talk.told_apart import told_apart
from assistant.talk.trying import Trial
from assistant.talk.turn import Turn
from assistant.voice.page import Line, Page
from grammar.lexicon import Lexicon
from grammar.reader import Read
from grammar.requests.timers_running import RUNNING
from grammar.requests.undo import UndoRequest
from knowledge import Knowledge

_TELLS_HOURS = frozenset({"progress", "plan", "record", "recall", "refused", "unread"})
"""Kinds of reply beside which no step is called out: they tell of the hours themselves, or of what was done."""


class Conversation:
    """The talk over one notebook. Every line gets a reply; a change is acknowledged only when it is on disk.

    now: tells the local time; fresh: start with no bake in hand and nothing asked (settings still hold);
    cards: the folder of cards.
    """

    def __init__(
        self,
        kb: Knowledge,
        notebook: Notebook,
        now: Callable[[], datetime],
        fresh: bool = False,
        cards: Cards | None = None,
    ) -> None:
        self.kb = kb
        self._cards = cards
        self.notebook = notebook
        self._now = now
        self._fresh = fresh
        self._words = (frozenset[str](), lexicon(kb))
        self._last: Reply | None = None
        self.called_out: frozenset[str] = frozenset()  # what a screen has told of since the line before
        self._left_out: tuple[str, ...] = ()  # settings once kept that cannot be, and why

    @property
    def bench(self) -> Bench:
        """The bench as it stands, other hands' lines included."""
        return self._standing()[1]

    def close(self) -> None:
        """Let go of the notebook."""
        self.notebook.close()

    def read(self, text: str) -> Read:
        """What the reader makes of a line in this conversation."""
        return self._trial().read(text, self.bench)

    def reply(self, text: str) -> Reply:
        """The reply to one line (or one pasted text). Any text gets one; several changes are taken back one by one, and
        what is told of several doughs goes to each."""
        times = self._undone_at_once(text)
        if times == 1:
            parts = self._of_several(text)
            return self._told_of_each(text, parts) if parts else self._replied(text)
        found = [self._replied("undo") for _ in range(times)]
        undone = [one for one in found if one.read_as.startswith("undone")] or found[:1]
        told = (Line(f"{one.read_as[:1].upper()}{one.read_as[1:]}.") for one in undone[:-1])
        heard = "; ".join(one.read_as for one in undone)
        self._last = beginning(replace(undone[-1], request=text, read_as=heard), *told)
        return self._last

    def _undone_at_once(self, text: str) -> int:
        """How many changes a line wants taken back."""
        try:
            best = self.read(text).best if "undo" in text.lower() else None
        except NotKept:
            return 1
        return best.request.times if best is not None and isinstance(best.request, UndoRequest) else 1

    def _of_several(self, text: str) -> tuple[str, ...]:
        """What a line tells of each of several doughs; () where it does not."""
        try:
            return told_apart(text, self._trial(), self.bench)
        except NotKept:
            return ()

    def _told_of_each(self, text: str, parts: tuple[str, ...]) -> Reply:
        found = [self._replied(part) for part in parts]
        blocks = (block for one in found[:-1] for block in one.page.blocks)
        heard = "; ".join(one.read_as for one in found)
        last = replace(found[-1], request=text, read_as=heard)
        self._last = replace(last, page=Page((*blocks, *last.page.blocks)))
        return self._last

    def _replied(self, text: str) -> Reply:
        while True:
            seq, bench = self._standing()
            turn = Turn(self._trial(seq + 1), text, bench, self._last, self._left_out)
            try:
                reply, event = turn.said()
            except NotKept as trouble:  # what it leans on cannot be read back
                return unchanged(Reply(text, "", "refused", {}, Page(())), trouble.why)
            reply = self._with_due(reply, bench)
            if not self.notebook.on_disk and records(reply, event):
                self._last = not_kept(reply, event, "the notebook cannot be used")
                return self._last
            try:
                self.notebook.append(event, after=seq)
            except Moved:
                continue
            except NotKept as trouble:
                reply = not_kept(reply, event, trouble.why)
            if event.state is not None:
                self._fresh = False
            self._last = reply
            return reply

    def _with_due(self, reply: Reply, before: Bench) -> Reply:
        """The reply, with what came due since the line before told first, unless the screen has told it already.

        A timer is always told; a step only beside an answer that is not itself about where the bake stands.
        """
        last = self.notebook.entries(limit=1, taken_back=True)
        if not last or not before.has_hours:
            return reply
        from assistant.talk.agenda import agenda_of, once  # all that plans: a first line has nothing under way

        now = self._now().replace(tzinfo=None)
        entries = self.notebook.entries() if RUNNING in before.notes else ()
        due = agenda_of(self.kb, before, entries, datetime.fromisoformat(last[0].said_at)).due(now)
        told, self.called_out = self.called_out, frozenset()
        new = [one for one in due if one.id not in told and (one.timer or reply.kind not in _TELLS_HOURS)]
        if reply.kind == "recall" and "timers" in reply.read_as:
            new = [one for one in new if not one.timer]
        return beginning(reply, *(Line(once(one, now), role="warn") for one in new))

    def _trial(self, number: int = 0) -> Trial:
        """What a line said now is read with and tried on."""
        return Trial(self.kb, self.notebook, self._lexicon, self._now(), number, self._cards)

    def _lexicon(self, bench: Bench) -> Lexicon:
        """The words known: the trade's, and the places of this kitchen."""
        own = frozenset(place.name for place in places(bench.settings))
        if own != self._words[0]:
            self._words = (own, with_places(lexicon(self.kb), own))
        return self._words[1]

    def _standing(self) -> tuple[int, Bench]:
        """The number of the notebook's last event, and the bench after it as it holds today."""
        tail = self.notebook.tail()
        bench = Bench.from_json(tail.state)
        bad = bad_settings(bench.kitchen.values, self.kb)
        self._left_out = tuple(bad.values())
        if bad:
            bench = replace(bench, kitchen=bench.kitchen.told(dict.fromkeys(bad), ""))
        bench = replace(bench, kitchen=bench.kitchen.on(self._now().date()))
        if self._fresh:
            bench = replace(bench, in_hand=None, focus=None, focus_topic=None, asked=(), notes={})
        return tail.seq, bench
