"""What goes into the bowl as heat sees it: grams and heat capacity, and what mixing warms it by."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.dough import Formula
from assistant.engine.heat import Heat, specific_heat
from assistant.engine.house import HOUSE_SALT_PCT, HOUSE_STARTER_PCT, LEAN_BREAD
from assistant.engine.naming import figure
from assistant.talk.room import Room
from grammar.requests.water import WaterRequest
from knowledge import Knowledge
from knowledge.records.ingredients import Ingredient
from knowledge.records.mixing import MixingMethod

FLOUR_G = 1000.0
LARGEST_RISE_C = 14.0
"""No mixing method warms a dough more than this: a larger friction is the trade rule's sum."""
HAND = "by_hand"


@dataclass(frozen=True, slots=True)
class BowlHeat:
    """What goes in: the water to pour, and grams with composition of the rest by temperature group."""

    water_g: float
    flour_g: float
    flour_cp: float
    starter_g: float
    starter_cp: float
    other_g: float
    other_cp: float
    assumed: tuple[str, ...]


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


def bowl_of(formula: Formula, kb: Knowledge, heat: Heat) -> BowlHeat:
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
    return BowlHeat(formula.poured_g, flour_g, heat.capacity["flour"], starter_g, starter_cp, other_g, other_cp, ())


def milk_bowl(formula: Formula, bowl: BowlHeat, kb: Knowledge, heat: Heat) -> tuple[BowlHeat, str, float] | None:
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
        BowlHeat(
            as_water_g, bowl.flour_g, bowl.flour_cp, bowl.starter_g, bowl.starter_cp, max(0.0, other_g), other_cp, ()
        ),
        row.name,
        row.g,
    )


def bowl_said(request: WaterRequest, room: Room, heat: Heat) -> BowlHeat:
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
    salt_pct = request.salt_pct if request.salt_pct is not None else HOUSE_SALT_PCT
    salt_g = request.salt_g if request.salt_g is not None else all_flour_g * salt_pct / 100
    starter_cp = specific_heat(heat, {"flour": 50, "water": 50})
    return BowlHeat(
        water_g, flour_g, heat.capacity["flour"], starter_g, starter_cp, salt_g, heat.capacity["salt"], tuple(assumed)
    )


def mixing_rise(request: WaterRequest, room: Room, has_starter: bool) -> tuple[float, tuple[str, ...]]:
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
    rise_c = method.rise_usual_c
    if request.mix_min is not None:
        by_time_c = method.rise_usual_c * request.mix_min / method.usual_min
        rise_c = min(method.rise_high_c, max(method.rise_low_c, by_time_c))
    long = f" {figure(request.mix_min)} min" if request.mix_min is not None else ""
    return rise_c, (f"{method.name}{long}: mixing warms it {figure(rise_c)} °C ({span})",)
