"""The path of a dough through a stage, from what was said of dough, kitchen and fridge."""

from __future__ import annotations

import math
from dataclasses import dataclass

from assistant.engine.heat import Cover, Heat, cooling_tau_h, dough_heat
from assistant.engine.temperature_path import Leg, Path, steady


@dataclass(frozen=True, slots=True)
class Around:
    """What is around the dough. `later_c`: the air falls (or rises) to it over `later_min`, at once if that is 0 after.

    `switch_min` is when a second place begins (the fridge after two hours, another room): `second_c` from then on;
    `back_min` of it, then back to the first place (None: it stays). Degrees Celsius, minutes.
    """

    air_c: float
    dough_c: float | None = None
    later_c: float | None = None
    later_min: float = 480.0
    steps: bool = False  # the air changes at once after `later_min` instead of drifting there
    second_c: float | None = None
    switch_min: float = 0.0
    back_min: float | None = None


def stage_path(heat: Heat, around: Around, mass_g: float, hydration_pct: float, salt_pct: float) -> Path:
    """The temperature of a dough of `mass_g` in what is around it; a dough as warm as steady air simply stays so."""
    dough_c = around.air_c if around.dough_c is None else around.dough_c
    if around.later_c is None and around.second_c is None and abs(dough_c - around.air_c) < 0.05:
        return steady(around.air_c)
    cp = dough_heat(heat, hydration_pct, salt_pct)

    def tau(cover: Cover) -> float:
        return cooling_tau_h(heat, mass_g, cp, cover)

    room_h = tau("still_room")
    legs: list[Leg] = []
    if around.second_c is not None:
        fridge_h = tau("covered")
        if around.switch_min > 0:
            legs.append(Leg(around.switch_min, around.air_c, around.air_c, room_h))
        if around.back_min is None:
            legs.append(Leg(math.inf, around.second_c, around.second_c, fridge_h))
        else:
            legs.append(Leg(around.back_min, around.second_c, around.second_c, fridge_h))
            legs.append(Leg(math.inf, around.air_c, around.air_c, room_h))
    elif around.later_c is not None:
        first_end_c = around.air_c if around.steps else around.later_c
        legs.append(Leg(around.later_min, around.air_c, first_end_c, room_h))
        legs.append(Leg(math.inf, around.later_c, around.later_c, room_h))
    else:
        legs.append(Leg(math.inf, around.air_c, around.air_c, room_h))
    return Path(dough_c, tuple(legs))
