"""A batch from a bread's own record: what is not said is the bread's usual."""

from __future__ import annotations

from assistant.engine.plan.asked import Batch
from assistant.engine.rising import Dough
from knowledge.records.breads import Bread
from knowledge.records.process import Process

_BAKE_POWER = 0.58
"""Minutes in the oven go with mass to a power between 0.5 and 0.67 (breads sheet, our estimate)."""


def bake_minutes(bread: Bread, piece_g: float) -> float:
    """Minutes in the oven for a piece of this mass: the usual ones, scaled by mass to the power 0.58."""
    return float(bread.minutes_usual * (piece_g / bread.piece_usual_g) ** _BAKE_POWER)


_CORE_C = 96.0
"""The core of a bread that has no figure of its own, in °C."""
_LEAST_ABOVE_CORE_C = 30.0
"""An oven no hotter than this above the core bakes no slower by the rule below; past it the rule does not hold."""


def oven_factor(bread: Bread, oven_c: float, core_c: float | None = None) -> float:
    """How many times the usual minutes an oven of another heat takes: the time moves about in step with the distance
    to the core. Source: Newton's law of heating, as an estimate; confidence rule_of_thumb."""
    usual_core_c = bread.core_c or _CORE_C
    return (bread.oven_c_usual - usual_core_c) / max(_LEAST_ABOVE_CORE_C, oven_c - (core_c or usual_core_c))


def oven_of(bread: Bread, most_c: float | None) -> float:
    """The heat a bread bakes at in °C: the usual one, or the most this oven gives."""
    return bread.oven_c_usual if most_c is None else min(bread.oven_c_usual, most_c)


def usual_batch(
    bread: Bread,
    process: Process,
    *,
    pieces: int,
    piece_g: float | None = None,
    dough: Dough | None = None,
    leaven_said: bool = False,
    perishable: bool | None = None,
    fat_pct: float | None = None,
    pace: float = 1.0,
    pressure_ratio: float = 1.0,
    oven_max_c: float | None = None,
) -> Batch:
    """The batch of so many pieces of a bread; `dough` where its make-up is known, else the bread's usual one.
    oven_max_c: the most the oven gives; a bread that wants more bakes so hot, and longer.

    The usual leaven is the starter where the bread knows one, else commercial yeast.
    """
    grams = bread.piece_usual_g if piece_g is None else piece_g
    if dough is None:
        starter = bread.starter_usual_pct
        dough = Dough(
            hydration_pct=bread.hydration_usual_pct,
            salt_pct=bread.salt_usual_pct,
            starter_pct=starter,
            yeast_fresh_pct=0.0 if starter else bread.yeast_fresh_usual_pct,
            sugar_pct=bread.sugar_usual_pct,
            pace=pace,
            pressure_ratio=pressure_ratio,
        )
    oven_c = oven_of(bread, oven_max_c)
    return Batch(
        pieces=pieces,
        piece_g=grams,
        dough_g=pieces * grams,
        dough=dough,
        process=process,
        rise_bulk_pct=bread.rise_bulk_pct,
        rise_proof_pct=bread.rise_proof_pct,
        oven_c=oven_c,
        bake_min=bake_minutes(bread, grams) * oven_factor(bread, oven_c),
        leaven_said=leaven_said,
        perishable=bread.egg_usual_pct > 0 if perishable is None else perishable,
        fat_pct=bread.fat_usual_pct if fat_pct is None else fat_pct,
        boil_s_per_side=bread.boil_s_per_side,
        core_c=bread.core_c,
        best_within_h=bread.best_eaten_within_h,
    )
