"""A danger answered: what to do first, why, whom to call; no odds, and nothing else beside it."""

from __future__ import annotations

from assistant.answers import answers
from assistant.answers.diagnosis import of_danger
from assistant.answers.explanation_told import told
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.peril import PerilRequest
from knowledge.records.diagnosis_dangers import Danger
from knowledge.records.explanations import Explanation


@answers(PerilRequest)
def answer(request: PerilRequest, room: Room) -> Outcome:
    """The gravest danger told; one of a starter or bread is a diagnosis, the others are questions of health."""
    danger = room.kb.get(Danger, request.dangers[0])
    if danger.cause is not None:
        return of_danger(danger, request.symptoms, room)
    if danger.topic is not None:
        return told(room.kb.get(Explanation, danger.topic), None, room)
    return _first_aid(danger)


def _first_aid(danger: Danger) -> Outcome:
    """What to do, why, whom to call, each on a line of its own."""
    why = danger.why[:1].upper() + danger.why[1:] + "."
    lines = [line for line in (danger.act, why, danger.whom, danger.harmless or "") if line]
    blocks = [Line(line, role="head" if n == 0 else "plain") for n, line in enumerate(lines)]
    blocks.append(Line(f"From: {danger.source}.", more=True))
    fields = {"topic": danger.id, "title": danger.title, "text": "\n".join(lines)}
    return Outcome("explanation", fields, danger.title, Page(tuple(blocks)), (), (danger.act,), (danger.source,))
