"""A step of the bake that was left out."""

from __future__ import annotations

from assistant.answers.in_the_bowl import bowl_in_hand, notes
from assistant.answers.mended import mend_fields
from assistant.engine.cautions import Scene
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.mend_request import MendRequest
from knowledge.records.lapses import Lapse


def step_left_out(request: MendRequest, room: Room) -> Outcome:
    """A step left out: nothing to add, something to do."""
    stage = request.stage or "mixing"
    lapses = [
        lapse
        for lapse in room.kb.all(Lapse).values()
        if lapse.mistake == "step_forgotten"
        and request.step in lapse.of
        and (request.stage is None or stage in lapse.stages)
    ]
    if not lapses:
        raise Refused("I know no remedy for that step.", "Say which step was left out and how far the bake is.")
    shown = lapses if request.stage is None else lapses[:1]
    advice = " ".join(lapse.advice for lapse in shown)
    clock = " ".join(lapse.clock for lapse in shown if lapse.clock)
    bowl = bowl_in_hand(room)
    fields = mend_fields((), bowl, bowl, True, room) if bowl is not None else {"add": [], "dough_g": None}
    said, lines = notes(Scene("mend", room.text, steps=frozenset({request.step or ""})), room)
    blocks = (Line(advice), *((Line(clock),) if clock else ()), *lines)
    name = (request.step or "").replace("_", " ")
    return Outcome(
        "mend",
        fields | {"advice": advice},
        f"{name} left out",
        Page(blocks),
        (),
        said,
        tuple(one.source for one in shown),
    )
