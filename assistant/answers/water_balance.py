"""The water for a dough by heat balance, and the dough from a water."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from assistant.answers.bread_meant import bread_of, process_of
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import Models
from assistant.answers.water_bowl import LARGEST_RISE_C, BowlHeat, bowl_of, bowl_said, milk_bowl, mixing_rise
from assistant.answers.water_measured import learned
from assistant.engine.heat import Warm, balance_dough_c, rise_measured_c, water_needed
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from assistant.voice.water_page import WaterTold, water_page
from grammar.requests.water import WaterRequest

TARGET_C = 25.0
"""The dough temperature where neither line nor bread says one."""
RYE_TARGET_C = 28.0
"""Rye-rich doughs are mixed warmer."""
BOWL_G, BOWL_CP = 1200.0, 0.5
"""A steel mixing bowl, and its heat capacity, kJ per kg and degree (glass: less mass, more capacity)."""
SOURCES = ("specific_heat", "ice_melting", "water_limits")


@dataclass(frozen=True, slots=True)
class _Mix:
    """All that meets in the bowl, °C and g. liquid, liquid_g: what is poured; rise_c: what mixing warms it by."""

    bowl: BowlHeat
    liquid: str
    liquid_g: float
    room_c: float
    flour_c: float
    starter_c: float | None
    others: tuple[Warm, ...]
    rise_c: float
    assumed: tuple[str, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """What it was worked out from, in words."""
        starter = () if self.starter_c is None else (f"starter {degrees_said(self.starter_c)}",)
        flour, room = f"flour {degrees_said(self.flour_c)}", f"kitchen {degrees_said(self.room_c)}"
        return flour, room, *starter, f"mixing warms it {figure(self.rise_c)} °C"


def _mix(request: WaterRequest, room: Room, m: Models) -> _Mix:
    """The bowl settled: masses from the line, else the dough in hand; each thing at its own warmth, else the kitchen's.

    Refused where nothing is poured, or what was measured cannot be so.
    """
    bowl, liquid, liquid_g = _poured(request, room, m)
    assumed = list(bowl.assumed)
    room_c = request.room_c
    if room_c is None:
        room_c = room.kitchen_c
        assumed.append(f"kitchen {degrees_said(room_c)}" + (", as you keep it" if room.kitchen_is_set else ""))
    flour_c = request.flour_c
    if flour_c is None:
        flour_c = room_c
        assumed.append(f"flour as warm as the kitchen, {degrees_said(flour_c)}")
    starter_c: float | None = None
    if bowl.starter_g > 0:
        starter_c = request.starter_c
        if starter_c is None:
            starter_c = m.records["kitchen_night"].values["fridge_c"] if request.starter_cold else room_c
            assumed.append(f"starter {degrees_said(starter_c)}")
    others = [Warm(bowl.flour_g, flour_c, bowl.flour_cp), Warm(bowl.other_g, room_c, bowl.other_cp)]
    if starter_c is not None:
        others.append(Warm(bowl.starter_g, starter_c, bowl.starter_cp))
    if request.bowl_c is not None:
        others.append(Warm(BOWL_G, request.bowl_c, BOWL_CP))
        assumed.append(f"a steel bowl of {BOWL_G / 1000:g} kg at {degrees_said(request.bowl_c)}")
    if request.milk_c is not None and liquid == "water" and request.milk_g:
        others.append(Warm(request.milk_g, request.milk_c, m.heat.capacity["water"]))
    if request.came_out_c is not None and request.was_water_c is not None:
        rise_c = rise_measured_c(m.heat, request.came_out_c, request.was_water_c, bowl.water_g, others)
        if not -2 <= rise_c <= LARGEST_RISE_C + 4:
            raise Refused(
                f"with water at {degrees_said(request.was_water_c)} mixing would have warmed it by "
                f"{figure(rise_c)} °C: one of the figures is off",
                "measure flour, kitchen and dough again",
            )
        assumed.append(f"that dough was warmed {figure(rise_c)} °C by mixing")
    else:
        rise_c, rise_said = mixing_rise(request, room, bowl.starter_g > 0)
        assumed += rise_said
    return _Mix(bowl, liquid, liquid_g, room_c, flour_c, starter_c, tuple(others), rise_c, tuple(assumed))


def _poured(request: WaterRequest, room: Room, m: Models) -> tuple[BowlHeat, str, float]:
    """The bowl, and what liquid of it is poured: the water, or the milk where it is all the liquid."""
    formula = formula_in_hand(room)
    said = (request.flour_g, request.water_g, request.dough_g, request.starter_g, request.hydration_pct)
    own = any(one is not None for one in said)
    bowl = bowl_of(formula, room.kb, m.heat) if formula is not None and not own else bowl_said(request, room, m.heat)
    if bowl.water_g > 1:
        asked_milk = request.milk is not None and request.milk_g is None and (formula is None or own)
        return bowl, "milk" if asked_milk else "water", bowl.water_g
    milk = milk_bowl(formula, bowl, room.kb, m.heat) if formula is not None else None
    if milk is None:
        raise Refused(
            "there is no water to pour in this dough: its liquid comes with eggs, butter or starter",
            "chill or warm those instead",
        )
    return milk


def balance(request: WaterRequest, room: Room, m: Models) -> Outcome:
    """The water for a dough temperature; what the trade's rule would say stands beside it where that fails."""
    mix = _mix(request, room, m)
    bread = bread_of(room, request.bread, request.piece)
    process = process_of(bread, room.kb) if bread is not None else None
    target_c, assumed = request.target_c, mix.assumed
    if target_c is None:
        target_c = process.dough_c if process is not None else RYE_TARGET_C if request.rye else TARGET_C
        usual = f" (usual for {bread.name.lower()})" if process is not None and bread else ""
        assumed = (*assumed, f"dough {degrees_said(target_c)}{usual}")
    if not 10 <= target_c <= 40:
        raise Refused(
            f"a dough of {degrees_said(target_c)} is out of reach of its yeast"
            if target_c > 40
            else f"a dough of {degrees_said(target_c)} hardly ferments",
            "24 to 26 °C for wheat, 27 to 29 °C for rye",
        )
    tap_c = request.tap_c if request.tap_c is not None else room.setting("tap_c")
    needed = water_needed(
        m.heat, target_c, mix.rise_c, mix.bowl.water_g, mix.others, room_c=mix.room_c, flour_c=mix.flour_c,
        preferment_c=mix.starter_c, tap_c=float(tap_c) if tap_c is not None else None,
        dissolves_starter=mix.bowl.starter_g > 0 and request.dissolved,
    )  # fmt: skip
    water = mix.liquid == "water"
    fields: dict[str, Any] = {
        "water_c": needed.water_c,
        "water_g": needed.water_g if water else mix.liquid_g,
        "ice_g": needed.ice_g if water else 0.0,
        "liquid": mix.liquid,
        "dough_c": target_c if needed.limit is None else needed.dough_c,
        "friction_c": mix.rise_c,
        "target_c": target_c,
        "flour_c": mix.flour_c,
        "room_c": mix.room_c,
        "starter_c": mix.starter_c,
        "needed_c": needed.need_c,
        "rule_c": needed.rule_c,
        "rule_dough_c": needed.rule_dough_c,
    }
    said = (*assumed, *request.degrees_said)
    told = WaterTold(
        fields=fields, limit=needed.limit, most_c=m.heat.water_most_c, starter_most_c=m.heat.starter_most_c,
        has_starter=mix.bowl.starter_g > 0, terms=4 if mix.starter_c is not None else 3, assumed=said,
    )  # fmt: skip
    outcome = Outcome(
        "water", fields, ", ".join((f"water for dough at {degrees_said(target_c)}", *mix.words, *request.degrees_said)),
        water_page(told), assumed=said, sources=tuple(m.records[name].source for name in SOURCES),
    )  # fmt: skip
    measured = request.came_out_c is not None and request.was_water_c is not None
    return learned(outcome, request, mix.rise_c, target_c, room, m) if measured else outcome


def predicted(request: WaterRequest, room: Room, m: Models) -> Outcome:
    """How warm the dough comes out with the water that was said."""
    assert request.was_water_c is not None
    mix = _mix(request, room, m)
    dough_c = balance_dough_c(m.heat, request.was_water_c, mix.rise_c, mix.bowl.water_g, mix.others)
    fields: dict[str, Any] = {
        "water_c": request.was_water_c, "water_g": mix.liquid_g, "ice_g": 0.0, "liquid": mix.liquid, "dough_c": dough_c,
        "friction_c": mix.rise_c, "flour_c": mix.flour_c, "room_c": mix.room_c, "starter_c": mix.starter_c,
    }  # fmt: skip
    said = (*mix.assumed, *request.degrees_said)
    blocks = [
        Line(
            f"With {mix.liquid_g:.0f} g of {mix.liquid} at {degrees_said(request.was_water_c)} the dough comes out at "
            f"about {degrees_said(dough_c)}.",
            role="head",
        )
    ]
    if request.was_water_c > m.heat.water_most_c:
        blocks.append(Line(f"Water above {degrees_said(m.heat.water_most_c)} harms yeast and starter.", role="warn"))
    if said:
        blocks.append(Line("Assumed: " + "; ".join(said) + ".", role="note"))
    read_as = f"the dough that water of {degrees_said(request.was_water_c)} gives"
    return Outcome(
        "water", fields, ", ".join((read_as, *mix.words, *request.degrees_said)), Page(tuple(blocks)), assumed=said,
        sources=tuple(m.records[name].source for name in SOURCES),
    )  # fmt: skip
