"""Figures as a baker says them, turned into figures that weigh.

Those that are measures by themselves (dough at 17 °C) pass through; the others are held against the bread's own limits
and the hours expected.
"""

from __future__ import annotations

from collections.abc import Mapping

from assistant.engine.diagnosis.bake import Bake
from assistant.engine.diagnosis.evidence import Figure
from assistant.engine.diagnosis.flour_and_water import OF_FLOUR
from assistant.engine.diagnosis.heat import OF_HEAT
from assistant.engine.diagnosis.rises import OF_RISES
from assistant.engine.growth import Kinetics
from knowledge.records.diagnosis_facts import Measure


def figures_of(bake: Bake, measures: Mapping[str, Measure], k: Kinetics) -> tuple[Figure, ...]:
    """Every measured fact that the figures said give, in the order of the measures."""
    found = {name: Figure(name, value) for name, value in bake.said.items() if name in measures}
    worked_out = (*(one(bake, k) for one in OF_RISES), *(one(bake) for one in (*OF_FLOUR, *OF_HEAT)))
    found |= {figure.measure: figure for figure in worked_out if figure is not None}
    return tuple(found[name] for name in measures if name in found)
