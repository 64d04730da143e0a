"""So much water at so many degrees from tap, kettle and ice, and hot water into cold that is there already."""

from __future__ import annotations

from typing import Any

from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import Models
from assistant.engine.heat import ice_g, tap_and_kettle_g
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from grammar.requests.water import WaterRequest

OFF_BOIL_C = 95.0
"""Water in a kettle a moment after it has boiled."""


def mixed_water(request: WaterRequest, room: Room, m: Models) -> Outcome:
    """So many grams of water at so many degrees from tap, kettle and ice."""
    assert request.need_c is not None
    need_c = request.need_c
    assumed: list[str] = []
    tap_c = request.tap_c if request.tap_c is not None else room.setting("tap_c")
    if tap_c is None:
        tap_c = m.heat.usual_tap_c
        assumed.append(f"tap {degrees_said(tap_c)}")
    tap_c = float(tap_c)
    water_g = request.water_g
    if water_g is None:
        formula = formula_in_hand(room)
        water_g = formula.poured_g if formula else 1000.0
        if formula is None:
            assumed.append("1000 g of water")
    fields: dict[str, Any] = {"water_c": need_c, "dough_c": None, "friction_c": None, "tap_c": tap_c}
    if need_c < tap_c:
        ice = ice_g(m.heat, water_g, tap_c, need_c)
        if ice > water_g * m.heat.ice_largest_share:
            raise Refused(
                f"{degrees_said(need_c)} from a {degrees_said(tap_c)} tap takes {ice:.0f} g of ice in "
                f"{water_g:.0f} g, more than a third",
                "chill the water or the flour in the fridge first, then less ice does it",
            )
        fields |= {"water_g": water_g - ice, "ice_g": ice}
        lines = [
            f"{ice:.0f} g of ice and {water_g - ice:.0f} g of tap water ({degrees_said(tap_c)}): together "
            f"{water_g:.0f} g that act like {degrees_said(need_c)}.",
            "Crush the ice and weigh it as part of the water.",
        ]
    else:
        limit = m.heat.water_most_c
        if need_c > 60:
            raise Refused(
                f"water of {degrees_said(need_c)} kills yeast and starter",
                f"at most {degrees_said(limit)}, {degrees_said(m.heat.starter_most_c)} where starter is "
                "dissolved in it",
            )
        tap_g, hot_g = tap_and_kettle_g(water_g, need_c, tap_c, OFF_BOIL_C)
        fields |= {"water_g": water_g, "ice_g": 0.0, "hot_g": hot_g, "tap_g": tap_g}
        lines = [
            f"{hot_g:.0f} g of water just off the boil and {tap_g:.0f} g from the tap ({degrees_said(tap_c)}): "
            f"{water_g:.0f} g at about {degrees_said(need_c)}.",
            "Pour the tap water first; the bowl takes 1-2 °C off. Before flour or starter goes in it should feel "
            "no warmer than your wrist.",
        ]
        if need_c > limit:
            lines.append(f"Above {degrees_said(limit)} it harms the yeast: let it cool to that before it meets any.")
        assumed.append(f"kettle a moment off the boil, {degrees_said(OFF_BOIL_C)}")
    blocks = [Line(lines[0], role="head"), *(Line(line) for line in lines[1:])]
    said = (*assumed, *request.degrees_said)
    if said:
        blocks.append(Line("Assumed: " + "; ".join(said) + ".", role="note"))
    return Outcome(
        "water", fields, f"{water_g:.0f} g of water at {degrees_said(need_c)}, tap {degrees_said(tap_c)}",
        Page(tuple(blocks)),
        assumed=said, cautions=_scald(fields), sources=(m.records["ice_melting"].source,
        m.records["water_limits"].source),
    )  # fmt: skip


def warmed_up(request: WaterRequest, room: Room, m: Models) -> Outcome:
    """Hot water into so much cold that is there already, until it is as warm as wished."""
    assert request.need_c is not None and request.cold_g is not None
    need_c, cold_g = request.need_c, request.cold_g
    cold_c = request.tap_c if request.tap_c is not None else room.setting("tap_c")
    assumed: list[str] = []
    if cold_c is None:
        cold_c = m.heat.usual_tap_c
        assumed.append(f"the cold water {degrees_said(cold_c)}")
    cold_c = float(cold_c)
    if not cold_c < need_c <= 60:
        raise Refused(
            f"no hot water makes {degrees_said(need_c)} of water at {degrees_said(cold_c)}",
            "a wished temperature above the cold water's and below 60 °C",
        )
    hot_g = cold_g * (need_c - cold_c) / (OFF_BOIL_C - need_c)
    assumed.append(f"kettle a moment off the boil, {degrees_said(OFF_BOIL_C)}")
    fields: dict[str, Any] = {
        "water_c": need_c, "dough_c": None, "friction_c": None, "tap_c": cold_c, "water_g": cold_g + hot_g,
        "ice_g": 0.0, "hot_g": hot_g, "tap_g": cold_g,
    }  # fmt: skip
    said = (*assumed, *request.degrees_said)
    blocks = [
        Line(
            f"{hot_g:.0f} g of water just off the boil into the {cold_g:.0f} g at {degrees_said(cold_c)}: "
            f"{cold_g + hot_g:.0f} g at about {degrees_said(need_c)}.",
            role="head",
        ),
        Line("Assumed: " + "; ".join(said) + ".", role="note"),
    ]
    read_as = f"hot water into {cold_g:.0f} g at {degrees_said(cold_c)}, for {degrees_said(need_c)}"
    return Outcome(
        "water", fields, read_as, Page(tuple(blocks)), assumed=said, cautions=_scald(fields),
        sources=(m.records["water_limits"].source,),
    )  # fmt: skip


def _scald(fields: dict[str, Any]) -> tuple[str, ...]:
    return (
        ("Water off the boil scalds: pour it from the kettle into the cold water, not the other way.",)
        if fields.get("hot_g")
        else ()
    )
