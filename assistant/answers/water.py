"""Water temperature by heat balance, with the trade's rule beside it; ice; tap and kettle."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from assistant.answers import answers
from assistant.answers.fermenting import Models, bread_of, formula_in_hand, models, process_of
from assistant.engine.dough import Formula
from assistant.engine.heat import Heat, Warm, ice_g, rise_measured_c, specific_heat, tap_and_kettle_g, water_needed
from assistant.engine.house import HOUSE_SALT_PCT, HOUSE_STARTER_PCT, LEAN_BREAD
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from assistant.voice.water_page import WaterTold, water_page
from grammar.requests.water import WaterRequest
from knowledge import Knowledge
from knowledge.records.ingredients import Ingredient
from knowledge.records.mixing import MixingMethod

TARGET_C = 25.0
"""The dough temperature where neither line nor bread says one."""
RYE_TARGET_C = 28.0
"""Rye-rich doughs are mixed warmer."""
FLOUR_G = 1000.0
OFF_BOIL_C = 95.0
"""Water in a kettle a moment after it has boiled."""
LARGEST_RISE_C = 14.0
"""No mixing method warms a dough more than this: a larger friction is the trade rule's sum."""
HAND = "by_hand"
SOURCES = ("specific_heat", "ice_melting", "water_limits")


@dataclass(frozen=True, slots=True)
class _Bowl:
    """What goes in: the water to pour, and grams with composition of the rest by temperature group."""

    water_g: float
    flour_g: float
    flour_cp: float
    starter_g: float
    starter_cp: float
    other_g: float
    other_cp: float
    assumed: tuple[str, ...]


@answers(WaterRequest)
def answer(request: WaterRequest, room: Room) -> Outcome:
    """The water's temperature, grams and ice."""
    _refuse_unlikely(request)
    if request.judged and request.need_c is not None:
        return _all_right(request, models(room.kb))
    if request.need_c is not None and (request.tap_c is not None or request.no_thermometer or request.ice):
        return _mixed_water(request, room, models(room.kb))
    found = _balance(request, room, models(room.kb))
    if request.tap_c is None or not request.no_thermometer:
        return found
    # "tap is 12, how much kettle": the water the dough wants, poured from the two.
    need_c, water_g = float(found.answer["water_c"]), float(found.answer["water_g"])
    poured = _mixed_water(replace(request, need_c=need_c, water_g=water_g), room, models(room.kb))
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


def _all_right(request: WaterRequest, m: Models) -> Outcome:
    """Whether water of a temperature may be used."""
    assert request.need_c is not None
    most_c = m.heat.starter_most_c if request.with_starter else m.heat.water_most_c
    what = "where starter is dissolved in it" if request.with_starter else "in a dough"
    if request.need_c > most_c:
        raise Refused(
            f"water of {degrees_said(request.need_c)} is too hot: at most {degrees_said(most_c)} {what}",
            f"let it cool to {degrees_said(most_c)}; to bring dough to 25 °C it usually takes 20 to 30 °C",
        )
    text = (
        f"Water of {degrees_said(request.need_c)} harms nothing (at most {degrees_said(most_c)} {what}). "
        "What the dough needs depends on flour and kitchen: say both."
    )
    return Outcome(
        "explanation", {"topic": "water temperature", "text": text},
        f"is water of {degrees_said(request.need_c)} all right", Page((Line(text),)),
        sources=(m.records["water_limits"].source,),
    )  # fmt: skip


def _mixed_water(request: WaterRequest, room: Room, m: Models) -> Outcome:
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


def _scald(fields: dict[str, Any]) -> tuple[str, ...]:
    return (
        ("Water off the boil scalds: pour it from the kettle into the cold water, not the other way.",)
        if fields.get("hot_g")
        else ()
    )


def _cp(heat: Heat, item: Ingredient | None) -> float:
    """Heat capacity of an ingredient by what is in it; dry solids count like flour."""
    if item is None:
        return heat.capacity["flour"]
    if item.group == "flour":
        return heat.capacity["flour"]
    if item.group == "salt":
        return heat.capacity["salt"]
    wet, fat, sugar = item.water_pct or 0.0, item.fat_pct or 0.0, item.sugar_pct or 0.0
    return specific_heat(heat, {"water": wet, "fat": fat, "sugar": sugar, "protein": max(0.0, 100 - wet - fat - sugar)})


def _bowl_of(formula: Formula, kb: Knowledge, heat: Heat) -> _Bowl:
    starter = formula.starter
    starter_g = starter.g if starter else 0.0
    starter_cp = (
        specific_heat(heat, {"flour": starter.flour_g, "water": starter.water_g}) if starter and starter.g else 3.0
    )
    flour_g = formula.bowl_flour_g
    others = [
        (row.g, _cp(heat, kb.ingredients.get(row.item)))
        for row in formula.rows
        if row.role != "flour" and row.item not in ("water", "starter") and row.g > 0
    ]
    other_g = sum(g for g, _ in others)
    other_cp = sum(g * cp for g, cp in others) / other_g if other_g else 1.0
    return _Bowl(formula.poured_g, flour_g, heat.capacity["flour"], starter_g, starter_cp, other_g, other_cp, ())


def _milk_bowl(formula: Formula, bowl: _Bowl, kb: Knowledge, heat: Heat) -> tuple[_Bowl, str, float] | None:
    """A dough whose liquid is milk: the milk counted as so much water, its name and grams; None without milk."""
    rows = [(row, kb.ingredients.get(row.item)) for row in formula.rows if row.g > 0]
    dairy = [(row, item) for row, item in rows if item is not None and item.group == "dairy"]
    milks = [(row, item) for row, item in dairy if (item.water_pct or 0.0) > 80]
    if not milks:
        return None
    row, item = max(milks, key=lambda pair: pair[0].g)
    cp = _cp(heat, item)
    other_g = bowl.other_g - row.g
    other_cp = (bowl.other_g * bowl.other_cp - row.g * cp) / other_g if other_g > 0.01 else 1.0
    as_water_g = row.g * cp / heat.capacity["water"]
    return (
        _Bowl(
            as_water_g, bowl.flour_g, bowl.flour_cp, bowl.starter_g, bowl.starter_cp, max(0.0, other_g), other_cp, ()
        ),
        row.name,
        row.g,
    )


def _bowl_said(request: WaterRequest, room: Room, heat: Heat) -> _Bowl:
    """A lean dough by what was said of it."""
    assumed: list[str] = []
    starter_pct = 0.0 if request.no_starter else request.starter_pct
    lean = room.kb.breads[LEAN_BREAD]
    setting = room.setting("hydration_pct")
    hydration = request.hydration_pct
    if starter_pct is None:
        starter_pct = float(room.setting("starter_pct") or HOUSE_STARTER_PCT)
        if request.starter_g is None:
            assumed.append(f"{figure(starter_pct)} % starter")
    if hydration is None and request.water_g is None:
        hydration = float(setting) if setting is not None else lean.hydration_usual_pct
        assumed.append(f"{figure(hydration)} % hydration")
    flour_g = request.flour_g
    if flour_g is None and request.water_g is not None:
        share = (hydration or lean.hydration_usual_pct) / 100
        flour_g = request.water_g / max(0.1, share + starter_pct / 200 * (share - 1))
    if flour_g is None and request.dough_g is not None and hydration is not None:
        flour_g = request.dough_g / ((1 + starter_pct / 200) * (1 + hydration / 100) + HOUSE_SALT_PCT / 100)
    if flour_g is None:
        flour_g = FLOUR_G
        assumed.append(f"{FLOUR_G:.0f} g of flour")
    starter_g = request.starter_g if request.starter_g is not None else flour_g * starter_pct / 100
    all_flour_g = flour_g + starter_g / 2
    water_g = request.water_g
    if water_g is None:
        water_g = all_flour_g * (hydration or 66.0) / 100 - starter_g / 2
    salt_g = all_flour_g * (request.salt_pct if request.salt_pct is not None else HOUSE_SALT_PCT) / 100
    starter_cp = specific_heat(heat, {"flour": 50, "water": 50})
    return _Bowl(
        water_g, flour_g, heat.capacity["flour"], starter_g, starter_cp, salt_g, heat.capacity["salt"], tuple(assumed)
    )


def _balance(request: WaterRequest, room: Room, m: Models) -> Outcome:
    formula = formula_in_hand(room)
    own = any(
        x is not None
        for x in (request.flour_g, request.water_g, request.dough_g, request.starter_g, request.hydration_pct)
    )
    bowl = _bowl_of(formula, room.kb, m.heat) if formula is not None and not own else _bowl_said(request, room, m.heat)
    liquid, liquid_g = "water", bowl.water_g
    if bowl.water_g <= 1:
        milk = _milk_bowl(formula, bowl, room.kb, m.heat) if formula is not None else None
        if milk is None:
            raise Refused(
                "there is no water to pour in this dough: its liquid comes with eggs, butter or starter",
                "chill or warm those instead",
            )
        bowl, liquid, liquid_g = milk
    assumed = list(bowl.assumed)
    bread = bread_of(room, None, None)
    process = process_of(room.kb, bread)
    target_c = request.target_c
    if target_c is None:
        target_c = process.dough_c if process is not None else RYE_TARGET_C if request.rye else TARGET_C
        assumed.append(
            f"dough {degrees_said(target_c)}"
            + (f" (usual for {bread.name.lower()})" if process is not None and bread else "")
        )
    if not 10 <= target_c <= 40:
        raise Refused(
            f"a dough of {degrees_said(target_c)} is out of reach of its yeast"
            if target_c > 40
            else f"a dough of {degrees_said(target_c)} hardly ferments",
            "24 to 26 °C for wheat, 27 to 29 °C for rye",
        )
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
    if request.came_out_c is not None and request.was_water_c is not None:
        rise_c = rise_measured_c(m.heat, request.came_out_c, request.was_water_c, bowl.water_g, others)
        if not -2 <= rise_c <= LARGEST_RISE_C + 4:
            raise Refused(
                f"with water at {degrees_said(request.was_water_c)} mixing would have warmed it by "
                f"{figure(rise_c)} °C: one of the figures is off",
                "measure flour, kitchen and dough again",
            )
        rise_said: tuple[str, ...] = (
            f"that dough was warmed {figure(rise_c)} °C by mixing; “my friction is {figure(rise_c)}” keeps it",
        )
    else:
        rise_c, rise_said = _rise(request, room, bowl.starter_g > 0)
    assumed += rise_said
    tap_c = request.tap_c if request.tap_c is not None else room.setting("tap_c")
    needed = water_needed(
        m.heat, target_c, rise_c, bowl.water_g, others, room_c=room_c, flour_c=flour_c, preferment_c=starter_c,
        tap_c=float(tap_c) if tap_c is not None else None, dissolves_starter=bowl.starter_g > 0 and request.dissolved,
    )  # fmt: skip
    fields: dict[str, Any] = {
        "water_c": needed.water_c,
        "water_g": needed.water_g if liquid == "water" else liquid_g,
        "ice_g": needed.ice_g if liquid == "water" else 0.0,
        "liquid": liquid,
        "dough_c": target_c if needed.limit is None else needed.dough_c,
        "friction_c": rise_c,
        "target_c": target_c,
        "flour_c": flour_c,
        "room_c": room_c,
        "starter_c": starter_c,
        "needed_c": needed.need_c,
        "rule_c": needed.rule_c,
        "rule_dough_c": needed.rule_dough_c,
    }
    said = (*assumed, *request.degrees_said)
    told = WaterTold(
        fields=fields, limit=needed.limit, most_c=m.heat.water_most_c, starter_most_c=m.heat.starter_most_c,
        has_starter=bowl.starter_g > 0, terms=4 if starter_c is not None else 3, assumed=said,
    )  # fmt: skip
    parts = [
        f"water for dough at {degrees_said(target_c)}",
        f"flour {degrees_said(flour_c)}",
        f"kitchen {degrees_said(room_c)}",
    ]
    if starter_c is not None:
        parts.append(f"starter {degrees_said(starter_c)}")
    parts.append(f"mixing warms it {figure(rise_c)} °C")
    return Outcome(
        "water", fields, ", ".join((*parts, *request.degrees_said)), water_page(told), assumed=said,
        sources=tuple(m.records[name].source for name in SOURCES),
    )  # fmt: skip


def _rise(request: WaterRequest, room: Room, has_starter: bool) -> tuple[float, tuple[str, ...]]:
    """The dough's real rise from mixing, and what was made of what was said."""
    if request.friction_c is not None:
        if (request.allowance and request.friction_c > 8) or request.friction_c > LARGEST_RISE_C:
            parts = 4 if has_starter else 3
            rise_c = request.friction_c / parts
            return rise_c, (
                f"{figure(request.friction_c)} taken as the trade rule's allowance: a real rise of {figure(rise_c)} °C",
            )
        if request.friction_c > 8 and request.mixing != "food_processor":
            return request.friction_c, (
                f"{figure(request.friction_c)} °C as the dough's real rise, as much as a food processor's (a "
                "rule's allowance is three times the rise: say “friction factor”)",
            )
        return request.friction_c, ()
    setting = room.setting("friction_c")
    if request.mixing is None and setting is not None:
        return float(setting), (f"mixing warms it {figure(float(setting))} °C, your setting",)
    method = room.kb.all(MixingMethod)[request.mixing or HAND]
    span = f"{figure(method.rise_low_c)} to {figure(method.rise_high_c)}"
    said = f"{method.name}: mixing warms it {figure(method.rise_usual_c)} °C ({span})"
    return method.rise_usual_c, (said,)
