"""Height above the sea: air pressure, boiling point, and how far gas goes."""

from __future__ import annotations

import math
from collections.abc import Mapping

from assistant.engine.growth import Constants

HIGHEST_M = 9000.0


def pressure_hpa(records: Mapping[str, Constants], altitude_m: float) -> float:
    """Mean air pressure at a height, hPa; `altitude_m` from -500 to 9000.

    Source: International Standard Atmosphere, knowledge/kinetics/heat.yaml.
    """
    air = records["air"].values
    return air["sea_level_hpa"] * math.pow(1 - air["per_m"] * altitude_m, air["power"])


def pressure_ratio(records: Mapping[str, Constants], altitude_m: float) -> float:
    """Air pressure against sea level: the share of the gas that is needed there for the same rise."""
    return pressure_hpa(records, altitude_m) / records["air"].values["sea_level_hpa"]


def boiling_point_c(records: Mapping[str, Constants], altitude_m: float) -> float:
    """Temperature at which plain water boils at a height, degrees Celsius (Antoine equation)."""
    water = records["boiling_water"].values
    mmhg = pressure_hpa(records, altitude_m) * water["hpa_to_mmhg"]
    return water["b"] / (water["a"] - math.log10(mmhg)) - water["c"]


def core_limit_c(records: Mapping[str, Constants], altitude_m: float) -> float:
    """Highest core temperature worth aiming at: 2 C under the boiling point."""
    return boiling_point_c(records, altitude_m) - 2
