"""What was said of one bake, and the dough it was as far as that tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.engine.rising import Dough
from knowledge.records.breads import Bread

ROOM_C = 22.0


@dataclass(frozen=True, slots=True)
class Bake:
    """What was said of one bake. said: figure id -> value (hours, °C, %, min, s, g/L, cm, mm as the id ends).

    yeasted: True where bought yeast raises it, False where starter does, None where nobody said. bread: its own limits,
    or None for an ordinary lean hearth loaf. findings: ids, for the flour named.
    """

    said: Mapping[str, float]
    bread: Bread | None = None
    yeasted: bool | None = None
    findings: tuple[str, ...] = ()
    room_c: float | None = None


def warmth_c(bake: Bake, order: tuple[str, ...]) -> tuple[float, bool]:
    """The first temperature said, else the kitchen's, else ROOM_C (assumed); kept where the model is sure."""
    for name in order:
        if name in bake.said:
            return min(max(bake.said[name], 5.0), 38.0), False
    return (bake.room_c, False) if bake.room_c is not None else (ROOM_C, True)


def dough_of(bake: Bake) -> tuple[Dough, bool]:
    """The dough as far as it was said; the bread's usual leaven, or 20 % starter, where it was not."""
    said = bake.said
    starter, fresh = said.get("starter_pct", 0.0), said.get("yeast_fresh_pct", 0.0)
    guessed = not starter and not fresh
    if guessed:
        if bake.yeasted:
            fresh = bake.bread.yeast_fresh_usual_pct if bake.bread and bake.bread.yeast_fresh_usual_pct else 3.0
        else:
            starter = bake.bread.starter_usual_pct if bake.bread and bake.bread.starter_usual_pct else 20.0
    usual_pct = bake.bread.hydration_usual_pct if bake.bread else 68.0
    return Dough(
        hydration_pct=min(max(said.get("hydration_pct", usual_pct), 40.0), 120.0),
        salt_pct=min(said.get("salt_pct", 2.0), 5.0),
        starter_pct=starter,
        yeast_fresh_pct=fresh,
        sugar_pct=said.get("sugar_pct", bake.bread.sugar_usual_pct if bake.bread else 0.0),
        wholegrain_share=min(said.get("wholegrain_pct", 0.0), 100.0) / 100,
    ), guessed


def hours(minutes: float) -> str:
    if minutes < 90:
        return f"{minutes:.0f} min"
    return f"{minutes / 60:.1f}".removesuffix(".0") + " h"
