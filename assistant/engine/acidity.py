"""How acid a dough gets, as a tendency: never a pH, which no clock and thermometer can tell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from assistant.engine.fermentation import Dough, State
from assistant.engine.growth import Constants

Strength = Literal["mild", "tangy", "sharp"]
Lean = Literal["lactic", "acetic", "balanced"]


@dataclass(frozen=True, slots=True)
class Acidity:
    """`strength` of the sourness, and whether it leans to the milk side ("lactic") or the vinegar side ("acetic")."""

    strength: Strength
    lean: Lean


def acidity(records: Mapping[str, Constants], dough: Dough, state: State, mean_c: float) -> Acidity | None:
    """The tendency at the end of a stage at about `mean_c`; None for a dough without starter."""
    if dough.starter_pct <= 0:
        return None
    limits = records["acidity"].values
    strength: Strength = "mild"
    if state.acid > limits["sharp"]:
        strength = "sharp"
    elif state.acid > limits["tangy"]:
        strength = "tangy"
    lactic = (mean_c > limits["warm_c"]) + (dough.hydration_pct > limits["wet_pct"])
    acetic = (mean_c < limits["cool_c"]) + (dough.hydration_pct < limits["stiff_pct"]) + (dough.wholegrain_share > 0.5)
    lean: Lean = "balanced"
    if lactic > acetic:
        lean = "lactic"
    elif acetic > lactic:
        lean = "acetic"
    return Acidity(strength, lean)
