"""What comes in by a swap, in the cups, spoons, sticks or packets asked for."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.conversion import answer as converted
from assistant.answers.in_the_bowl import name_of
from assistant.engine.refusal import Refused
from assistant.engine.swaps import Swapped
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Page
from grammar.requests.conversion import ConversionRequest
from grammar.requests.measure_said import Measure
from grammar.requests.swap import SwapRequest


def in_unit(unit: str, swapped: Swapped, request: SwapRequest, room: Room) -> Outcome:
    """The things of the best choice in that unit, the first of them as a conversion; the next line goes on from the
    swap. Refused where none of them comes in it."""
    told: list[Outcome] = []
    why: Refused | None = None
    for part in swapped.choices[0].into:
        name = name_of(part.item, room)
        try:
            told.append(converted(ConversionRequest((Measure(part.g, "g"),), (part.item,), name, to=unit), room))
        except Refused as refused:
            why = why or refused
    if not told:
        assert why is not None
        raise why
    page = Page(tuple(block for one in told for block in one.page.blocks))
    return replace(told[0], page=page, focus=replace(request, to=None))
