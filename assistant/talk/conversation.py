"""One line in, one reply out: reads, merges what leans on earlier lines, answers, and notes it before it is said."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from assistant import answers
from assistant.answers.talk import first_examples
from assistant.command.safety import for_refusal, passed
from assistant.engine.possible import bad_settings
from assistant.engine.refusal import Refused
from assistant.notebook import Entry, Event, Moved, Notebook, NotKept, Target
from assistant.papers.cards import Cards
from assistant.talk.aim import SHOWN, Aim, aimed
from assistant.talk.bench import ASIDE, Bench
from assistant.talk.dough_line import corrects, meant_instead, of_its_rows, rows_of, step_again
from assistant.talk.doughs import all_names, under_way
from assistant.talk.echo import echoed
from assistant.talk.kitchen import places
from assistant.talk.lexicon import lexicon, with_places
from assistant.talk.memory import kept, recalled
from assistant.talk.named_doughs import Scene, mentions_a_day
from assistant.talk.offers import MOST, OFFERED, Offer, chosen, completed, number_left, offered, offering
from assistant.talk.reply import Outcome, Reply, Unclear
from assistant.talk.room import Room
from assistant.talk.takeback import redone, says, undone
from assistant.voice.page import Line, Page
from assistant.voice.unread import asked_page, number_page, tie_page, unread_page
from grammar.frames import Context, Known
from grammar.lexicon import Lexicon
from grammar.reader import CLEAR, Read, Reading, read
from grammar.requests import frames
from grammar.requests.card import CardRequest
from grammar.requests.doughs import DoughCalled, DoughsAsked, DoughsTogether
from grammar.requests.formula import FormulaRequest
from grammar.requests.keeping import CompareRequest, KeepRequest, KeptAsked, KeptForgotten
from grammar.requests.notes import NoteRequest
from grammar.requests.picture import PictureRequest
from grammar.requests.recall import RecallRequest
from grammar.requests.setting import SettingsAsked
from grammar.requests.show import ShowRequest
from grammar.requests.talk import MoreRequest
from grammar.requests.timers import RUNNING, TimerRequest, TimersRequest, TimersSet
from grammar.requests.undo import RedoRequest, UndoRequest
from grammar.requests.verdict import VerdictRequest, VerdictsAsked
from grammar.requests.why import WhyRequest
from knowledge import Knowledge
from knowledge.vocabulary import choices

_NOT_OF_A_DOUGH = frozenset({"recall", "note", "timer", "conversion", "explanation", "help", "setting", "undo"})
"""Topics in which a dough may be named without being meant to be taken in hand."""
_STEERING = (
    UndoRequest, RedoRequest, MoreRequest, PictureRequest, ShowRequest, WhyRequest, NoteRequest, RecallRequest,
    TimerRequest, TimersRequest, TimersSet, CardRequest, SettingsAsked, DoughsAsked, DoughCalled, DoughsTogether,
    KeepRequest, KeptAsked, KeptForgotten, VerdictRequest, VerdictsAsked, CompareRequest,
)  # fmt: skip
"""Requests after which the talk goes on with what it was about before."""


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
        self._ignored: tuple[str, ...] = ()  # settings once kept that cannot be, and why

    @property
    def bench(self) -> Bench:
        """The bench as it stands, other hands' lines included."""
        return self._standing()[1]

    def close(self) -> None:
        """Let go of the notebook."""
        self.notebook.close()

    def reply(self, text: str) -> Reply:
        """The reply to one line (or one pasted text). Any text gets one; several changes are taken back one by one."""
        times = self._undone_at_once(text)
        if times == 1:
            return self._replied(text)
        found = [self._replied("undo") for _ in range(times)]
        undone = [one for one in found if one.read_as.startswith("undone")] or found[:1]
        told = tuple(Line(f"{one.read_as[:1].upper()}{one.read_as[1:]}.") for one in undone[:-1])
        heard = "; ".join(one.read_as for one in undone)
        last = replace(undone[-1], request=text, read_as=heard)
        self._last = replace(last, page=Page((*told, *last.page.blocks)))
        return self._last

    def _undone_at_once(self, text: str) -> int:
        """How many changes a line wants taken back."""
        try:
            best = self.read(text).best if "undo" in text.lower() else None
        except NotKept:
            return 1
        return best.request.times if best is not None and isinstance(best.request, UndoRequest) else 1

    def _replied(self, text: str) -> Reply:
        while True:
            seq, bench = self._standing()
            try:
                reply, event = self._answered(text, seq + 1, bench)
            except NotKept as trouble:  # what it leans on cannot be read back
                return _refused_for(Reply(text, "", "refused", {}, Page(())), trouble.why)
            reply = self._with_due(reply, bench)
            if not self.notebook.on_disk and _records(reply, event):
                reply = _not_kept(reply, event, "the notebook cannot be used")
                self._last = reply
                return reply
            try:
                self.notebook.append(event, after=seq)
            except Moved:
                continue
            except NotKept as trouble:
                reply = _not_kept(reply, event, trouble.why)
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
        if not new:
            return reply
        lines = (Line(once(one, now), role="warn") for one in new)
        return replace(reply, page=Page((*lines, *reply.page.blocks)))

    def read(self, text: str) -> Read:
        """What the reader makes of a line in this conversation."""
        bench = self.bench
        return read(text, self._lexicon(bench), frames(), self._context(bench))

    def _lexicon(self, bench: Bench) -> Lexicon:
        """The words known: the trade's, and the places of this kitchen."""
        own = frozenset(place.name for place in places(bench.settings))
        if own != self._words[0]:
            self._words = (own, with_places(lexicon(self.kb), own))
        return self._words[1]

    def _standing(self) -> tuple[int, Bench]:
        tail = self.notebook.tail()
        bench = Bench.from_json(tail.state)
        bad = bad_settings(bench.kitchen.values, self.kb)
        self._ignored = tuple(bad.values())
        if bad:
            bench = replace(bench, kitchen=bench.kitchen.told(dict.fromkeys(bad), ""))
        bench = replace(bench, kitchen=bench.kitchen.on(self._now().date()))
        if self._fresh:
            bench = replace(bench, in_hand=None, focus=None, focus_topic=None, asked=(), notes={})
        return tail.seq, bench

    def _context(self, bench: Bench) -> Context:
        known = Known(
            tuple(bench.settings),
            all_names(under_way(bench, self._now()), self.kb),
            tuple(one.name for one in bench.kept),
            any("plan" in (bake.facts.get(ASIDE) or {}) for bake in bench.bakes),
            bench.bake.said.get("pieces") if bench.bake is not None else None,
            bench.ready_minute,
            *rows_of(bench),
        )
        last = bench.focus or {}
        dangers = tuple(last.get("dangers", ()))
        of = last.get("subject") if bench.focus_topic == "diagnosis" else None
        return Context(bench.focus_topic, bench.in_hand is not None, bench.asked, bench.standing, known, dangers, of)

    def _answered(self, text: str, number: int, stood: Bench) -> tuple[Reply, Event]:
        bench = stood.with_notes(OFFERED, None) if OFFERED in stood.notes else stood
        now = self._now()
        stamp = now.replace(tzinfo=None).isoformat(timespec="seconds")
        found = self._heard(text, stood, bench, now)
        aim, found = self._aimed(text, found, bench) if found.text == text else (None, found)
        if aim is not None and aim.missing is not None:
            page = Page((Line(f"{aim.missing}.", role="warn"), Line("“my bakes” lists what is.")))
            reply = Reply(text, "", "refused", {"why": aim.missing, "nearest": "my bakes"}, page)
            return reply, Event(text=text, kind="refused", change=None, state=None, said_at=stamp)
        plain, bench = bench, aim.bench if aim is not None else bench
        found, bench = self._meant(found, bench)
        best = found.best
        if best is None and _only_kind_words(found):
            examples = (Line(one, indent=2) for one in first_examples())
            page = Page((Line("Say what you want to bake, or ask."), *examples))
            reply = Reply(text, "a greeting", "help", {"topics": []}, page)
            return reply, Event(text=text, kind="help", change=None, state=None, said_at=stamp)
        if best is None or not _worth_answering(found, best):
            offers = self._offers(found.readings[:MOST], bench, now, text)
            near = [one.said for one in offers]
            reply = Reply(text, "", "unread", {"near": near}, unread_page(found, near), unread=_all_words(found))
            return reply, _asked(text, plain, offers, stamp)
        if found.margin < CLEAR:
            tied = [one for one in found.readings[:MOST] if one.score > best.score - CLEAR]
            offers = self._offers(tied, bench, now, text)
            if len(offers) > 1:
                near = [one.said for one in offers]
                reply = Reply(text, "", "unread", {"near": near}, tie_page(near), unread=best.unread)
                return reply, _asked(text, plain, offers, stamp)
            best = next((one for one in tied if offers and one.frame.topic == offers[0].topic), best)
            found = replace(found, readings=(best,))
        request = best.request
        if isinstance(request, UndoRequest | RedoRequest):
            reply, event = self._taken_back(text, request, now, stamp)
            return reply.with_unread(best.unread), event
        if isinstance(request, MoreRequest) and self._last is not None and self._last.page.has_more:
            reply = replace(self._last, request=text, page=self._last.page.rest)
            return reply, Event(text=text, kind=reply.kind, change=None, state=None, said_at=stamp)
        try:
            best, room, request, outcome = self._tried(found, bench, now, text, number)
        except Refused as refused:
            room = self._room(best, bench, now, text, number)
            state = None
            if refused.question is not None and aim is None:
                # no dough and no setting changes: only what the next line may lean on
                state = replace(bench, focus=kept(refused.question), focus_topic=best.frame.topic, asked=()).as_json()
            return self._refused(text, refused, found, best, room), Event(
                text=text, kind="refused", change=None, state=state, said_at=stamp
            )
        except Unclear as unclear:
            page = asked_page(unclear.question, unclear.near)
            reply = Reply(text, _repairs(found), "unread", {"near": list(unclear.near)}, page, unread=best.unread)
            return reply, _asked(text, plain, [Offer(one, one) for one in unclear.near], stamp)
        left = self._number_left(outcome, best, bench, now)
        if left is not None:
            figure, at, offers = left
            near = [one.said for one in offers]
            reply = Reply(text, "", "unread", {"near": near}, number_page(figure, near), unread=best.unread)
            return reply, _asked(found.text, plain, offers, stamp, at)
        reply = _reply(text, outcome, found, best, _of_another_day(room, best, now))
        if self._ignored:
            told = Line("A setting kept before is left out from now on: " + "; ".join(self._ignored) + ".", role="note")
            reply = replace(reply, page=Page((*reply.page.blocks, told)))
        after, change = outcome.bench or bench, outcome.change
        if aim is not None and aim.fetched and change is None and aim.text != SHOWN:
            after = stood  # a question about a dough of the notebook does not bring it back
        elif aim is not None and (change is None or aim.fetched):
            change = {**(change or {}), **(aim.change or {})} if aim.text == SHOWN or aim.fetched else change
            if after.bake is not None and change is not None and aim.fetched:
                change = {**change, "dough": after.bake.name, "said": dict(after.bake.said)}
        if aim is not None and aim.told and after is not stood:
            reply = replace(reply, page=Page((Line(f"{aim.told}.", role="note"), *reply.page.blocks)))
        if aim is not None and aim.text == SHOWN and after.bake is not None:
            after = replace(after, focus=dict(after.bake.said), focus_topic="formula", asked=())
        elif not isinstance(request, _STEERING):
            focus = outcome.focus if outcome.focus is not None else request
            after = replace(after, focus=kept(focus), focus_topic=best.frame.topic, asked=outcome.asked)
        state = after.as_json()
        return reply, Event(
            text=text, kind=outcome.kind, change=change or None, said_at=stamp, state=state if after != stood else None
        )

    def _heard(self, text: str, stood: Bench, bench: Bench, now: datetime) -> Read:
        """What the reader makes of a line; after an offer, the reading it chooses, or the line it completes."""
        words, context = self._lexicon(bench), self._context(bench)
        alone = read(text, words, frames(), context)
        waiting = offered(stood)
        if waiting is None:
            return alone
        choice = chosen(text, waiting, choices(self.kb), words)
        if choice is not None:
            found = read(choice.line, words, frames(), context)
            named = [one for one in found.readings if choice.topic in (None, one.frame.topic)]
            return replace(found, readings=tuple(named[:1]) or found.readings[:1])
        whole = completed(text, waiting)
        if whole is not None and not (alone.best is not None and isinstance(alone.best.request, _STEERING)):
            found = read(whole, words, frames(), context)
            clear = found.best is not None and found.margin >= CLEAR and not found.best.unread
            if clear and self._offers(found.readings[:1], bench, now, whole):
                return found
        return alone

    def _offers(self, readings: Sequence[Reading], bench: Bench, now: datetime, line: str) -> list[Offer]:
        """The readings that can be answered, in words: each is tried, and nothing is kept."""
        out: dict[str, Offer] = {}
        for reading in readings:
            if isinstance(reading.request, _STEERING) or reading.score <= 0:
                continue
            room = replace(self._room(reading, bench, now, line, 0), cards=None)
            try:
                said = answers.answer(self._merged(reading, bench), room).read_as
            except (Refused, Unclear):
                continue
            if said:
                out.setdefault(said, Offer(said, line, reading.frame.topic))
        return list(out.values())

    def _number_left(
        self, outcome: Outcome, best: Reading, bench: Bench, now: datetime
    ) -> tuple[str, int, list[Offer]] | None:
        """A bare number that a dough or a feed left over, and the readings in which it has its place."""
        left = number_left(best.bound, best.unread) if outcome.kind in ("formula", "feed") else None
        if left is None:
            return None
        at, lines = left
        offers: dict[str, Offer] = {}
        for line in lines:
            found = read(line, self._lexicon(bench), frames(), self._context(bench))
            if found.best is None or found.margin < CLEAR or len(found.best.unread) >= len(best.unread):
                continue
            for one in self._offers(found.readings[:1], bench, now, line):
                offers.setdefault(one.said, one)
        offers.pop(outcome.read_as, None)
        figure = next(word for word in best.unread if best.bound.text[:at].endswith(word))
        return (figure, at, list(offers.values())[:MOST]) if offers else None

    def _tried(
        self, found: Read, bench: Bench, now: datetime, text: str, number: int
    ) -> tuple[Reading, Room, Any, Outcome]:
        """The best reading answered; where it is refused or unclear, one about as good that leaves no more unread.

        Raises Refused or Unclear of the best one where none of those computes; a refusal with a caution stands.
        """
        trouble: Refused | Unclear | None = None
        for reading in found.about_as_good:
            room = self._room(reading, bench, now, text, number)
            try:
                request = self._merged(reading, bench)
                return reading, room, request, passed(answers.answer(request, room), room)
            except (Refused, Unclear) as told:
                trouble = trouble or told
                if getattr(told, "cautions", ()):
                    break
        assert trouble is not None
        raise trouble

    def _aimed(self, text: str, found: Read, bench: Bench) -> tuple[Aim | None, Read]:
        """The dough the line is about, where that is not simply the one in hand, and the line as said of it."""
        if found.best is not None and _of_no_dough(found.best, "\n" in text):
            return None, found
        entries = self.notebook.entries() if mentions_a_day(text, self.kb) else ()
        aim = aimed(text, Scene(self.kb, self._now(), bench, entries, self._lexicon(bench)))
        if aim is None or aim.missing is not None:
            return aim, found
        again = read(aim.text, self._lexicon(aim.bench), frames(), self._context(aim.bench))
        if again.best is None or again.best.frame.topic in _NOT_OF_A_DOUGH:
            return None, found
        return aim, again

    def _meant(self, found: Read, bench: Bench) -> tuple[Read, Bench]:
        """The readings with general words for the rows of the dough in hand, and the bench as it stood before the last
        change where the line replaces that one."""
        earlier = recalled(bench.bake.said) if bench.bake is not None else None
        if not isinstance(earlier, FormulaRequest) or found.best is None:
            return found, bench
        readings = tuple(
            replace(one, request=of_its_rows(one.request, earlier, self.kb))
            if isinstance(one.request, FormulaRequest) else one
            for one in found.readings
        )
        best = readings[0]
        last = self.notebook.entries(limit=1) if corrects(best) else ()
        target = self.notebook.undo_target() if last and meant_instead(best, last[0]) else None
        if target is not None and target.seq == last[0].seq:
            bench = replace(bench, bakes=Bench.from_json(target.state).bakes)
            readings = (replace(best, request=step_again(best, recalled((last[0].change or {}).get("step")))),)
        return replace(found, readings=readings), bench

    def _room(self, best: Reading, bench: Bench, now: datetime, text: str, number: int) -> Room:
        earlier = recalled(bench.focus) if bench.focus_topic == best.frame.topic else None
        cards, line = self._cards, best.request
        return Room(self.kb, now, bench, best.bound, text, earlier, self.notebook.entries, number, cards, line)

    def _merged(self, best: Reading, bench: Bench) -> Any:
        """The request with what it leaves unsaid taken from the one it continues, where its topic says so."""
        request = best.request
        if not hasattr(request, "onto"):
            return request
        in_focus = bench.focus_topic in (best.frame.topic, *best.frame.follows)
        earlier = recalled(bench.focus) if in_focus else recalled(bench.stood(best.frame.topic))
        bake = bench.bake
        if best.frame.topic == "formula":
            earlier = recalled(bake.said) if bake else None
        return request.onto(earlier, best.bound) if earlier is not None else request

    def _taken_back(
        self, text: str, request: UndoRequest | RedoRequest, now: datetime, stamp: str
    ) -> tuple[Reply, Event]:
        undo = isinstance(request, UndoRequest)
        target = self.notebook.undo_target() if undo else self.notebook.redo_target()
        if target is None:
            word = "undo" if undo else "redo"
            reply = Reply(
                text,
                f"{word}",
                "explanation",
                {"topic": word, "text": f"There is nothing to {word}."},
                Page((Line(f"There is nothing to {word}."),)),
            )
            return reply, Event(text=text, kind="explanation", change=None, state=None, said_at=stamp)
        if isinstance(request, UndoRequest) and request.about and not says(target.what, request.about):
            why = f"The last change was “{' '.join(target.what.text.split())[:60]}”; “undo” takes that back first."
            reply = Reply(text, "undo", "refused", {"why": why, "nearest": "undo"}, Page((Line(why, role="warn"),)))
            return reply, Event(text=text, kind="refused", change=None, state=None, said_at=stamp)
        standing = Bench.from_json(target.state)
        room = Room(self.kb, now, standing, None, text, None, self._entries_with(target, undo), 0, self._cards)
        outcome = (undone if undo else redone)(target.what, room)
        reply = Reply(
            text,
            outcome.read_as,
            outcome.kind,
            outcome.answer,
            outcome.page,
            outcome.assumed,
            outcome.cautions,
            outcome.sources,
        )
        event = Event(
            text=text,
            kind=outcome.kind,
            change=None,
            state=standing.as_json(),
            said_at=stamp,
            undoes=target.seq if undo else None,
            redoes=None if undo else target.seq,
        )
        return reply, event

    def _entries_with(self, target: Target, undo: bool) -> Callable[..., tuple[Entry, ...]]:
        """The notebook's entries as they stand once the target's change is taken back, or made again."""

        def entries(kind: str | None = None, limit: int | None = None) -> tuple[Entry, ...]:
            found = [
                replace(one, taken_back=False)
                for one in self.notebook.entries(kind, taken_back=True)
                if (not undo if one.seq == target.what.seq else not one.taken_back)
            ]
            return tuple(found[:limit])

        return entries

    def _refused(self, text: str, refused: Refused, found: Read, best: Reading, room: Room) -> Reply:
        answer: dict[str, Any] = {"why": refused.why, "nearest": refused.nearest_answer or refused.nearest}
        blocks = [Line(_sentence(refused.why), role="warn")]
        if refused.nearest:
            blocks.append(Line(_sentence(refused.nearest)))
        told = tuple(dict.fromkeys((*getattr(refused, "cautions", ()), *for_refusal(room))))
        understood = echoed(refused.read_as, best.bound, best.unread)
        heard = "; ".join(part for part in (understood, _repairs(found)) if part)
        reply = Reply(text, heard, "refused", answer, Page(tuple(blocks)), cautions=told)
        return reply.with_unread(best.unread)


def _of_no_dough(best: Reading, several_lines: bool) -> bool:
    """Whether a line was read as what no dough need be chosen for; one that shows a dough may name which."""
    if isinstance(best.request, ShowRequest):
        return False
    return best.frame.first or (best.frame.whole is not None and several_lines)


def _of_another_day(room: Room, best: Reading, now: datetime) -> str:
    """The bake an answer leans on, named with its date where it was begun on another day."""
    bake = room.bench.bake
    whole = getattr(best.request, "whole", False) or getattr(best.request, "stands_alone", False)
    if bake is None or whole or not (room.leaned or best.frame.topic == "formula"):
        return ""
    begun = datetime.fromisoformat(bake.begun)
    if begun.date() == now.date():
        return ""
    return f"for {bake.name or 'the dough'} of {begun.strftime('%a')} {begun.day} {begun.strftime('%b')}"


def _reply(text: str, outcome: Outcome, found: Read, best: Reading, dated: str) -> Reply:
    understood = echoed(outcome.read_as, best.bound, (*outcome.unread, *best.unread))
    read_as = "; ".join(part for part in (understood, dated, _repairs(found)) if part)
    page = outcome.page
    repairs = _repairs(found)
    if repairs:
        page = Page((*page.blocks, Line(repairs, role="note")))
    reply = Reply(
        text,
        read_as,
        outcome.kind,
        outcome.answer,
        page,
        outcome.assumed,
        outcome.cautions,
        outcome.sources,
        outcome.unread,
        margin=found.margin,
    )
    return reply.with_unread(best.unread)


def _repairs(found: Read) -> str:
    return ", ".join(f"“{typed}” read as “{meant}”" for typed, meant in found.repairs)


def _worth_answering(found: Read, best: Reading) -> bool:
    """Whether the best reading fits well enough to be answered rather than asked back."""
    return best.score > 0


def _sentence(text: str) -> str:
    """A clause as a sentence: a capital at the front, a stop at the end."""
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!", ":")) else text + "."


def _only_kind_words(found: Read) -> bool:
    """Whether a line is nothing but "hello" or "thanks": no request, and nothing that was not understood."""
    kinds = {token.kind for token in found.tokens}
    return "FILL" in kinds and kinds <= {"FILL", "MARK"}


def _asked(text: str, bench: Bench, offers: Sequence[Offer], stamp: str, at: int | None = None) -> Event:
    """The event of a question: nothing changes but what the next line may choose from."""
    state = offering(bench, text, offers, at).as_json() if offers else None
    return Event(text=text, kind="unread", change=None, state=state, said_at=stamp)


def _all_words(found: Read) -> tuple[str, ...]:
    words = [t.text for t in found.tokens if t.kind not in ("FILL", "MARK", "LINK")]
    return tuple(words) or ((found.text.strip(),) if found.text.strip() else ())


def _records(reply: Reply, event: Event) -> bool:
    """Whether the reply says that something is kept from now on, rather than answering something."""
    return reply.kind in ("record", "setting") and event.change is not None


def _not_kept(reply: Reply, event: Event, why: str) -> Reply:
    """What is not on disk is not acknowledged as kept: a note is refused, an answer still comes and owns up to it."""
    if _records(reply, event):
        return _refused_for(reply, why)
    return replace(reply, page=Page((*reply.page.blocks, Line(f"Not kept: {why}.", role="warn"))))


def _refused_for(reply: Reply, why: str) -> Reply:
    said = f"Nothing was changed: {why}."
    return Reply(
        reply.request, reply.read_as, "refused", {"why": said, "nearest": None}, Page((Line(said, role="warn"),))
    )
