"""The doughs on the bench."""

from __future__ import annotations

from dataclasses import replace

from assistant import answers as registry
from assistant.answers import answers
from assistant.memory import recalled
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.doughs import BackRequest


@answers(BackRequest)
def back(request: BackRequest, room: Room) -> Outcome:
    """Another bake of the bench in hand."""
    others = [bake for bake in room.bench.bakes if bake.id != room.bench.in_hand]
    if request.bread is not None:
        others = [
            bake
            for bake in others
            if bake.said.get("bread") == request.bread or bake.said.get("piece") == request.bread
        ]
    if not others:
        text = "There is no other dough on the bench."
        return Outcome("explanation", {"topic": "back", "text": text}, "back to another dough", Page((Line(text),)))
    chosen = others[0] if request.which == "first" else others[-1]
    bench = replace(room.bench, in_hand=chosen.id)
    dough = recalled(chosen.said)
    there = replace(room, bench=bench)
    outcome = registry.answer(dough, there)
    return replace(
        outcome,
        bench=bench,
        change={"what": "in_hand", "bake": chosen.id},
        focus=dough,
        read_as=f"back to {chosen.name or 'the other dough'}, {outcome.read_as}",
    )
