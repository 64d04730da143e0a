"""Readings tried on the bench: what each leans on, which can be answered, and which are offered to choose from."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from assistant import answers
from assistant.command.safety import passed
from assistant.engine.course.told import is_raw
from assistant.engine.refusal import Refused
from assistant.notebook import Notebook
from assistant.papers.cards import Cards
from assistant.talk.bench import ASIDE, RUNNING_TIMERS, TOLD, Bench
from assistant.talk.dough_line import figures_of, in_tins, rows_of
from assistant.talk.doughs import all_names, under_way
from assistant.talk.memory import recalled
from assistant.talk.offers import MOST, Offer, number_left
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.talk.thing_talked_of import thing_of
from grammar.context import Context, Known
from grammar.follow import gone_on
from grammar.lexicon import Lexicon
from grammar.moments import minute_of_day
from grammar.reader import CLEAR, Read, Reading, read
from grammar.requests import follow_of, frames
from grammar.requests.card import CardRequest
from grammar.requests.doughs import DoughCalled, DoughsAsked, DoughsTogether
from grammar.requests.feed import FeedRequest
from grammar.requests.keeping import CompareRequest, KeepRequest, KeptAsked, KeptForgotten
from grammar.requests.notes import NoteRequest
from grammar.requests.picture import PictureRequest
from grammar.requests.plan import PlanRequest
from grammar.requests.recall import RecallRequest
from grammar.requests.setting_asked import SettingsAsked
from grammar.requests.show import ShowRequest
from grammar.requests.talk import MoreRequest
from grammar.requests.timers import TimerRequest, TimersSet
from grammar.requests.timers_running import TimersRequest
from grammar.requests.undo import RedoRequest, UndoRequest
from grammar.requests.verdict import VerdictRequest, VerdictsAsked
from grammar.requests.why import WhyRequest
from knowledge import Knowledge
from knowledge.records.explanations import Explanation

STEERING = (
    UndoRequest, RedoRequest, MoreRequest, PictureRequest, ShowRequest, WhyRequest, NoteRequest, RecallRequest,
    TimerRequest, TimersRequest, TimersSet, CardRequest, SettingsAsked, DoughsAsked, DoughCalled, DoughsTogether,
    KeepRequest, KeptAsked, KeptForgotten, VerdictRequest, VerdictsAsked, CompareRequest,
)  # fmt: skip
"""Requests after which the talk goes on with what it was about before."""


def _wanted_minute(bench: Bench) -> int | None:
    """The minute of the day for which what was talked of last is wanted: a build, else the plan that stands, else the
    wish for one that could not be kept."""
    last = recalled(bench.focus) if bench.focus_topic in ("feed", "plan") and bench.focus else None
    if isinstance(last, FeedRequest) and last.ripe_at is not None:
        return minute_of_day(last.ripe_at)
    stands = bench.ready_minute
    wished = last.ready if stands is None and isinstance(last, PlanRequest) else None
    return stands if wished is None else minute_of_day(wished)


@dataclass(frozen=True, slots=True)
class Trial:
    """What a line is read with and tried on. words: the words known at a bench; number: what this line's own entry
    will be called in the notebook; cards: where cards go."""

    kb: Knowledge
    notebook: Notebook
    words: Callable[[Bench], Lexicon]
    now: datetime
    number: int = 0
    cards: Cards | None = None

    def read(self, line: str, bench: Bench) -> Read:
        """What the reader makes of a line said at that bench."""
        return read(line, self.words(bench), frames(), self._context(bench))

    def _context(self, bench: Bench) -> Context:
        known = Known(
            tuple(bench.settings),
            all_names(under_way(bench, self.now), self.kb),
            tuple(one.name for one in bench.kept),
            any("plan" in (bake.facts.get(ASIDE) or {}) for bake in bench.bakes),
            bench.bake.said.get("pieces") if bench.bake is not None else None,
            _wanted_minute(bench),
            *rows_of(bench),
            in_tins=in_tins(bench),
            figures=figures_of(bench),
            timers=tuple((bench.notes.get(RUNNING_TIMERS) or {}).get("labels", ())),
        )
        last = bench.focus or {}
        dangers = tuple(last.get("dangers", ()))
        of = last.get("subject") if bench.focus_topic == "diagnosis" else None
        told = (bench.bake.facts.get(TOLD) or {}) if bench.bake is not None else {}
        raw = is_raw(step for step, *_ in told.get("marks") or ())  # as it is kept: this is asked for every line
        in_hand = bench.in_hand is not None
        asked_of = (one.removeprefix("topic:") for of in last.get("subjects", ()) for one in of)
        explained = (*last.get("topics", ()), *asked_of) if bench.focus_topic == "explanation" else ()
        thing = thing_of(last) or ((known.newest,) if known.newest is not None else ())
        topics = self.kb.all(Explanation)
        safety = any(one in topics and topics[one].safety for one in explained)
        return Context(
            bench.focus_topic, in_hand, bench.asked, bench.standing, known, dangers, of, raw, explained, thing, safety
        )

    def room(self, best: Reading, bench: Bench, line: str) -> Room:
        """What the answer to a reading may look at."""
        earlier = recalled(bench.focus) if bench.focus_topic == best.frame.topic else None
        entries, said = self.notebook.entries, best.request
        return Room(self.kb, self.now, bench, best.bound, line, earlier, entries, self.number, self.cards, said)

    def merged(self, best: Reading, bench: Bench) -> Any:
        """The request with what it leaves unsaid taken from the one it continues, where its topic says so."""
        request, follow = best.request, follow_of(best.request)
        if follow is None:
            return request
        if best.frame.topic == "formula":
            earlier = recalled(bench.bake.said) if bench.bake else None
        else:
            in_focus = bench.focus_topic in (best.frame.topic, *best.frame.follows)
            earlier = recalled(bench.focus) if in_focus else recalled(bench.stood(best.frame.topic))
        return gone_on(follow, request, earlier, best.bound) if earlier is not None else request

    def tried(self, found: Read, bench: Bench, line: str) -> tuple[Reading, Room, Any, Outcome]:
        """The best reading answered; where it is refused or unclear, one about as good that leaves no more unread.

        Raises Refused or Unclear of the best one where none of those computes; a refusal with a caution stands.
        """
        trouble: Refused | Unclear | None = None
        for reading in found.about_as_good:
            room = self.room(reading, bench, line)
            try:
                request = self.merged(reading, bench)
                return reading, room, request, passed(answers.answer(request, room), room)
            except (Refused, Unclear) as told:
                trouble = trouble or told
                if getattr(told, "cautions", ()):
                    break
        assert trouble is not None
        raise trouble

    def offers(self, readings: Sequence[Reading], bench: Bench, line: str) -> list[Offer]:
        """The readings that can be answered, in words: each is tried, and nothing is kept."""
        out: dict[str, Offer] = {}
        aside = replace(self, number=0, cards=None)
        for reading in readings:
            if isinstance(reading.request, STEERING) or reading.score <= 0:
                continue
            try:
                said = answers.answer(aside.merged(reading, bench), aside.room(reading, bench, line)).read_as
            except (Refused, Unclear):
                continue
            if said:
                out.setdefault(said, Offer(said, line, reading.frame.topic))
        return list(out.values())

    def number_left(self, outcome: Outcome, best: Reading, bench: Bench) -> tuple[str, int, list[Offer]] | None:
        """A bare number that a dough or a feed left over, and the readings in which it has its place."""
        left = number_left(best.bound, best.unread) if outcome.kind in ("formula", "feed") else None
        if left is None:
            return None
        at, lines = left
        offers: dict[str, Offer] = {}
        for line in lines:
            found = self.read(line, bench)
            if found.best is None or found.margin < CLEAR or len(found.best.unread) >= len(best.unread):
                continue
            for one in self.offers(found.readings[:1], bench, line):
                offers.setdefault(one.said, one)
        offers.pop(outcome.read_as, None)
        figure = next(word for word in best.unread if best.bound.text[:at].endswith(word))
        return (figure, at, list(offers.values())[:MOST]) if offers else None
