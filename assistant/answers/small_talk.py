"""Small talk answered: one honest line, and nothing changed."""

from __future__ import annotations

from assistant.answers import answers
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.small_talk import SmallTalkRequest
from knowledge.records.small_talk import SmallTalk


@answers(SmallTalkRequest)
def answer(request: SmallTalkRequest, room: Room) -> Outcome:
    """The line that belongs to what was said first."""
    reply = room.kb.get(SmallTalk, request.about[0]).reply
    return Outcome("help", {"topics": []}, "small talk", Page((Line(reply),)))
