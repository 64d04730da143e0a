"""What baking soda weighs once it is baked, by the weights of its parts."""

from __future__ import annotations

from assistant.answers import answers
from assistant.answers.in_the_bowl import notes, weight
from assistant.engine.bath import BAKED_SHARE
from assistant.engine.cautions import Scene
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.baked_soda import BakedSodaRequest

HOW = "Spread it on baking paper on a steel tray, an hour at 120-150 °C: done when a third of its weight is gone."
HARM = "Baked soda is a strong alkali: no bare hands, no dust in the eyes, no aluminium; keep it closed and labelled."


@answers(BakedSodaRequest)
def answer(request: BakedSodaRequest, room: Room) -> Outcome:
    """Grams out of the oven, or grams to start with."""
    soda_g = request.soda_g if request.soda_g is not None else (request.wanted_g or 0.0) / BAKED_SHARE
    baked_g = soda_g * BAKED_SHARE
    told, lines = notes(Scene("bath", f"{room.text} baked soda", frozenset({"baked_soda"})), room)
    answer_ = {
        "from": {"amount": soda_g, "unit": "g"},
        "to": {"amount": baked_g, "unit": "g"},
        "item": "baked_soda",
        "g": baked_g if request.soda_g is not None else soda_g,
        "basis": "2 NaHCO3 -> Na2CO3 + H2O + CO2: 168.0 g give 106.0 g",
    }
    stays = f"{100 * BAKED_SHARE:.0f} % stays, water and gas leave"
    head = f"{weight(soda_g)} baking soda bakes to {weight(baked_g)}: {stays}."
    page = Page((Line(head, role="head"), Line(HOW), Line(HARM, role="warn"), *lines))
    return Outcome(
        "conversion", answer_, f"{weight(soda_g)} baking soda, baked", page, cautions=(HARM, *told),
        sources=("weights of the parts",),
    )  # fmt: skip
