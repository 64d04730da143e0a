"""How long shaped dough keeps in a fridge of any warmth, from the hours it keeps in the usual one."""

from __future__ import annotations

import math

from assistant.engine.fermentation import Dough, State, advance, minutes_to, rise_pct
from assistant.engine.growth import Kinetics
from assistant.engine.temperature_path import Leg, Path

REFERENCE_C = 4.0
"""The fridge for which a bread's hours in the cold are written down."""
LONGEST_H = 96.0
"""Beyond four days shaped dough dries and slackens whatever the fridge: acid and bran work on."""


def cold_stay_h(
    k: Kinetics, dough: Dough, begun: State, dough_c: float, tau_h: float, fridge_c: float, hours: float
) -> float:
    """Hours in a fridge at `fridge_c` after which a dough has come as far as after `hours` in the usual one.

    `begun` is how it stands when it goes in (shaped), `dough_c` its warmth then, `tau_h` its lag; the rise made on the
    way down counts in both. The two published fits of growth part ways below 8 C, so what the model says is leaned half
    way to the usual hours. At most four days, and never less than a quarter of the usual hours.
    """

    def path(air_c: float) -> Path:
        return Path(dough_c, (Leg(math.inf, air_c, air_c, tau_h),))

    as_far = rise_pct(k, dough, advance(k, dough, begun, path(REFERENCE_C), 60 * hours))
    if as_far <= 0:
        return hours
    there_h = minutes_to(k, dough, path(fridge_c), as_far, begun) / 60
    return min(math.sqrt(max(there_h, hours / 16) * hours), max(LONGEST_H, hours))
