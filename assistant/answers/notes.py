"""Notes kept as they were said, with their hour and the bake in hand."""

from __future__ import annotations

from assistant.answers import answers
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.notes import NoteRequest


@answers(NoteRequest)
def answer(request: NoteRequest, room: Room) -> Outcome:
    """The note as an entry of the notebook; it is on disk before this is said. Refused where it has no words."""
    if not request.words:
        raise Refused(
            "There are no words to note. Say it in one line, for example “note: the rye starter was slow today”.",
            "note: the rye starter was slow today",
        )
    bake = room.bake
    name = (bake.name or "the dough") if bake is not None else None
    entry = {"id": room.number, "at": room.stamp(), "text": request.words, "bake": name, "kind": "note"}
    change = {
        "what": "note", "text": request.words, "bake": name, "bake_id": bake.id if bake is not None else None,
    }  # fmt: skip
    return Outcome(
        "record",
        {"entry": entry},
        f"a note{f' for {name}' if name else ''}: {request.words}",
        Page((Line(f"Noted {room.now:%H:%M}{f' for {name}' if name else ''}: {request.words}"),)),
        change=change,
    )
