"""The models of rising, warmth and starters over the knowledge at hand, made once, and the air pressure they go by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from assistant.engine.altitude import pressure_ratio
from assistant.engine.growth import Kinetics, kinetics
from assistant.engine.heat import Heat, heat_constants
from assistant.engine.starter import Habits, habits
from assistant.talk.room import Room
from knowledge import Knowledge
from knowledge.records.kinetics import Kinetic


@dataclass(frozen=True, slots=True)
class Models:
    """The constants of the models, settled once for a body of knowledge."""

    records: Mapping[str, Kinetic]
    k: Kinetics
    heat: Heat
    habits: Habits


@lru_cache(maxsize=4)
def models(kb: Knowledge) -> Models:
    """The models over this knowledge."""
    records = kb.all(Kinetic)
    return Models(records, kinetics(records), heat_constants(records), habits(records))


def pressure_of(room: Room, altitude_m: float | None) -> tuple[float, float | None]:
    """Air pressure against sea level, and the height it is for (None: sea level)."""
    height = altitude_m if altitude_m is not None else room.setting("altitude_m")
    if height is None or float(height) == 0:
        return 1.0, None
    return pressure_ratio(models(room.kb).records, float(height)), float(height)
