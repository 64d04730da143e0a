"""Water that was too hot: how warm the dough came out, and whether the leaven lived."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from assistant.engine.bowl import Bowl, Foods
from assistant.engine.heat import Heat, Warm, balance_dough_c
from assistant.engine.refusal import Refused

Fate = Literal["alive", "doubtful", "dead"]

STARTER_STOPS_C, STARTER_DEAD_C = 36.0, 48.0
"""A culture's own yeast grows to 36 °C (Gänzle 1998); yeast is dead at 50 to 60 °C, a culture earlier."""
YEAST_SAFE_C, YEAST_DEAD_C = 46.0, 55.0
"""Active dry yeast is wetted at 40 to 46 °C (US Armed Forces cards); yeast dies at 50 to 60 °C."""
READD_BELOW_C = 30.0


@dataclass(frozen=True, slots=True)
class HotWater:
    """dough_c: the mixed dough by heat balance. met_c: the warmest the leaven can have been. fate: of the leaven."""

    water_c: float
    dough_c: float
    met_c: float
    fate: Fate
    starter: bool


def hot_water(
    bowl: Bowl, water_c: float, room_c: float, heat: Heat, foods: Foods, *, dissolved: bool | None = None
) -> HotWater:
    """What water of `water_c` did to a dough whose other parts were at `room_c`, degrees Celsius.

    `dissolved`: the leaven was stirred into that water (met it at full heat); None: not known, then it is taken to have
    met the water only where that alone would be harmless, and the answer is "doubtful" in between.
    Refused for water above boiling or below freezing.
    """
    if not 0 <= water_c <= 100:
        raise Refused(f"Water at {water_c:g} °C is no liquid.", "Say the water's temperature in °C or °F.")
    water_g = bowl.g("water")
    if water_g <= 0:
        raise Refused("There is no plain water in this dough.", "Say how much water of what temperature went in.")
    dough_c = balance_dough_c(heat, water_c, 0.0, water_g, _others(bowl, room_c, heat, foods))
    starter = bowl.starter_g > 0
    stops, dead = (STARTER_STOPS_C, STARTER_DEAD_C) if starter else (YEAST_SAFE_C, YEAST_DEAD_C)
    met_c = water_c if dissolved else dough_c
    if met_c >= dead:
        fate: Fate = "dead"
    elif met_c > stops or (dissolved is None and water_c >= dead):
        fate = "doubtful"
    else:
        fate = "alive"
    return HotWater(water_c, dough_c, met_c, fate, starter)


def _others(bowl: Bowl, room_c: float, heat: Heat, foods: Foods) -> tuple[Warm, ...]:
    flour_cp, water_cp = heat.capacity["flour"], heat.capacity["water"]
    rows = []
    for portion in bowl.portions:
        if portion.item == "water":
            continue
        share = (foods[portion.item].water_pct or 0.0) / 100 if foods[portion.item].group != "flour" else 0.0
        rows.append(Warm(portion.g, room_c, flour_cp + share * (water_cp - flour_cp)))
    if bowl.starter_g > 0:
        rows.append(Warm(bowl.starter_flour_g, room_c, flour_cp))
        rows.append(Warm(bowl.starter_water_g, room_c, water_cp))
    return tuple(rows)
