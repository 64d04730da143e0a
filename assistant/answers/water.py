"""Water temperature by heat balance, with the trade's rule beside it; ice; tap and kettle."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.fermentation_models import models
from assistant.answers.water_balance import balance, predicted
from assistant.answers.water_mixed import mixed_water, warmed_up
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.spans import degrees_said
from grammar.requests.water import WaterRequest


@answers(WaterRequest)
def answer(request: WaterRequest, room: Room) -> Outcome:
    """The water's temperature, grams and ice."""
    _refuse_unlikely(request)
    if request.predicts and request.was_water_c is not None:
        return predicted(request, room, models(room.kb))
    if request.cold_g is not None and request.need_c is not None:
        return warmed_up(request, room, models(room.kb))
    if request.need_c is not None and (request.tap_c is not None or request.no_thermometer or request.ice):
        return mixed_water(request, room, models(room.kb))
    found = balance(request, room, models(room.kb))
    if request.tap_c is None or not request.no_thermometer:
        return found
    # "tap is 12, how much kettle": the water the dough wants, poured from the two.
    need_c, water_g = float(found.answer["water_c"]), float(found.answer["water_g"])
    poured = mixed_water(replace(request, need_c=need_c, water_g=water_g), room, models(room.kb))
    fields = {**poured.answer, "dough_c": found.answer["dough_c"], "friction_c": found.answer["friction_c"]}
    assumed = tuple(dict.fromkeys((*found.assumed, *poured.assumed)))
    return replace(poured, answer=fields, assumed=assumed, focus=found.focus)


_LIKELY_C = {
    "flour": (-25.0, 60.0), "kitchen": (-15.0, 50.0), "starter": (-2.0, 45.0), "tap": (0.0, 60.0),
    "water": (0.0, 100.0),
}  # fmt: skip
"""What each thing can be, degrees Celsius; outside it a figure was misheard."""


def _refuse_unlikely(request: WaterRequest) -> None:
    """Refuse a temperature that no flour, kitchen, starter or tap has."""
    said = {
        "flour": request.flour_c, "kitchen": request.room_c, "starter": request.starter_c, "tap": request.tap_c,
        "water": request.need_c,
    }  # fmt: skip
    for name, temp_c in said.items():
        low, high = _LIKELY_C[name]
        if temp_c is not None and not low <= temp_c <= high:
            raise Refused(
                f"{degrees_said(temp_c)} is no temperature for {'a kitchen' if name == 'kitchen' else name}",
                "say each thing with its own figure: flour 20, kitchen 22, tap 14",
            )
