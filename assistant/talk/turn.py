"""One line made into its reply and the event the notebook keeps of it; nothing is kept here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from assistant.engine.refusal import Refused
from assistant.notebook import Event
from assistant.talk import replies
from assistant.talk.aim_taken import SHOWN, Aim
from assistant.talk.bench import Bench
from assistant.talk.hearing import INSTEAD_OF, heard, meant, of_a_dough
from assistant.talk.memory import kept
from assistant.talk.offers import MOST, OFFERED, Offer, offering, refusing
from assistant.talk.reply import Outcome, Reply, Unclear
from assistant.talk.takeback import taken_back
from assistant.talk.trying import STEERING, Trial
from assistant.voice.page import Line
from assistant.voice.unread import asked_page, number_page, tie_page, unread_page
from grammar.reader import CLEAR, Read, Reading
from grammar.requests.talk import MoreRequest
from grammar.requests.undo import RedoRequest, UndoRequest

Said = tuple[Reply, Event]


@dataclass(frozen=True, slots=True)
class Turn:
    """A line at the bench as it stood. last: the reply before, of which "more" shows the rest; left_out: settings once
    kept that cannot be, and why."""

    trial: Trial
    text: str
    stood: Bench
    last: Reply | None = None
    left_out: tuple[str, ...] = ()

    def said(self) -> Said:
        """The reply, and the event of it."""
        trial, text = self.trial, self.text
        plain = self.stood.with_notes(OFFERED, None) if OFFERED in self.stood.notes else self.stood
        aim, found = of_a_dough(trial, text, heard(trial, text, self.stood, plain), plain)
        if aim is not None and aim.missing is not None:
            return self._with_event(replies.no_such_dough(text, aim.missing))
        found, bench, first = meant(trial, found, aim.bench if aim is not None else plain)
        if found.best is None and replies.only_kind_words(found):
            return self._with_event(replies.greeted(text))
        if found.best is None or found.best.score <= 0:
            offers = trial.offers(found.readings[:MOST], bench, text)
            near = [one.said for one in offers]
            reply = replies.asked_back(text, near, unread_page(found, near), replies.all_words(found))
            return self._asked(reply, plain, text, offers)
        if found.margin < CLEAR:
            found, offers = self._nearest(found, bench)
            if offers:
                near = [one.said for one in offers]
                reply = replies.asked_back(text, near, tie_page(near), found.readings[0].unread)
                return self._asked(reply, plain, text, offers)
        best = found.readings[0]
        if isinstance(best.request, UndoRequest | RedoRequest):
            reply, event = taken_back(text, best.request, trial)
            return reply.with_unread(best.unread), event
        if isinstance(best.request, MoreRequest) and self.last is not None and self.last.page.has_more:
            return self._with_event(replace(self.last, request=text, page=self.last.page.rest))
        reply, event = self._answered(found, aim, plain, bench)
        again = first is not None and event.change is not None
        return reply, replace(event, change={**(event.change or {}), INSTEAD_OF: first}) if again else event

    def _nearest(self, found: Read, bench: Bench) -> tuple[Read, list[Offer]]:
        """Of readings too near each other, those that can be answered, to be asked about; with one left, that one."""
        best = found.readings[0]
        tied = [one for one in found.readings[:MOST] if one.score > best.score - CLEAR]
        offers = self.trial.offers(tied, bench, self.text)
        if len(offers) > 1:
            return found, offers
        best = next((one for one in tied if offers and one.frame.topic == offers[0].topic), best)
        return replace(found, readings=(best,)), []

    def _answered(self, found: Read, aim: Aim | None, plain: Bench, bench: Bench) -> Said:
        """The best reading answered, refused or asked back."""
        trial, text, best = self.trial, self.text, found.readings[0]
        try:
            best, room, request, outcome = trial.tried(found, bench, text)
        except Refused as why:
            reply = replies.refused(text, why, found, best, trial.room(best, bench, text))
            return self._refused(reply, why, found.text, best, aim, plain, bench)
        except Unclear as why:
            page = asked_page(why.question, why.near)
            reply = replies.asked_back(text, why.near, page, best.unread, replies.repaired(found))
            return self._asked(reply, plain, text, [Offer(one, one) for one in why.near])
        left = trial.number_left(outcome, best, bench)
        if left is not None:
            figure, at, offers = left
            near = [one.said for one in offers]
            reply = replies.asked_back(text, near, number_page(figure, near), best.unread)
            return self._asked(reply, plain, found.text, offers, at)
        reply = replies.answered(text, outcome, found, best, room)
        if self.left_out:
            told = "A setting kept before is left out from now on: " + "; ".join(self.left_out) + "."
            reply = replies.ending(reply, Line(told, role="note"))
        after, change = self._afterwards(outcome, aim, bench)
        if aim is not None and aim.told and after is not self.stood:
            reply = replies.beginning(reply, Line(f"{aim.told}.", role="note"))
        after = _leaning(after, outcome, request, best.frame.topic, aim)
        return self._with_event(reply, after if after != self.stood else None, change)

    def _refused(
        self, reply: Reply, why: Refused, line: str, best: Reading, aim: Aim | None, plain: Bench, bench: Bench
    ) -> Said:
        """A refusal: nothing changes but what the next line may lean on; a dough named beside the hour that cannot be
        kept is in hand all the same."""
        change: dict[str, Any] | None = None
        stands = why.kept if isinstance(why.kept, Bench) else bench
        if stands is not bench and stands.bake is not None:
            reply = replies.ending(reply, Line(f"{stands.bake.name} is in hand all the same: “show the dough”."))
            change = {"what": "formula", "new": True, "dough": stands.bake.name}
        if why.question is not None and aim is None:
            stands = replace(stands, focus=kept(why.question), focus_topic=best.frame.topic, asked=())
            return self._with_event(reply, stands, change)
        if change is not None:
            return self._with_event(reply, stands, change)
        return self._with_event(reply, refusing(plain, line, best) if aim is None else None)

    def _afterwards(self, outcome: Outcome, aim: Aim | None, bench: Bench) -> tuple[Bench, dict[str, Any] | None]:
        """The bench after an answer, and the change that made it so."""
        after = outcome.bench or bench
        change = dict(outcome.change) if outcome.change is not None else None
        if aim is None or (change is not None and not aim.fetched):
            return after, change
        if change is None and aim.fetched and aim.text != SHOWN:
            return self.stood, None  # a question about a dough of the notebook does not bring it back
        if aim.text == SHOWN or aim.fetched:
            change = {**(change or {}), **(aim.change or {})}
        if after.bake is not None and change is not None and aim.fetched:
            change = {**change, "dough": after.bake.name, "said": dict(after.bake.said)}
        return after, change

    def _with_event(self, reply: Reply, state: Bench | None = None, change: dict[str, Any] | None = None) -> Said:
        """The reply with its event; state: the bench afterwards where it is another."""
        stamp = self.trial.now.replace(tzinfo=None).isoformat(timespec="seconds")
        after = state.as_json() if state is not None else None
        return reply, Event(text=self.text, kind=reply.kind, change=change or None, said_at=stamp, state=after)

    def _asked(self, reply: Reply, plain: Bench, line: str, offers: Sequence[Offer], at: int | None = None) -> Said:
        """A question back: nothing changes but what the next line may choose from."""
        return self._with_event(reply, offering(plain, line, offers, at) if offers else None)


def _leaning(after: Bench, outcome: Outcome, request: Any, topic: str, aim: Aim | None) -> Bench:
    """The bench with what a follow-up to this line continues."""
    if aim is not None and aim.text == SHOWN and after.bake is not None:
        return replace(after, focus=dict(after.bake.said), focus_topic="formula", asked=())
    if isinstance(request, STEERING):
        return after
    focus = outcome.focus if outcome.focus is not None else request
    return replace(after, focus=kept(focus), focus_topic=topic, asked=outcome.asked)
