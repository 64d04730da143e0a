"""Water, bran and protein of a bake against what its flour carries and its bread wants."""

from __future__ import annotations

from collections.abc import Callable

from assistant.engine.diagnosis.bake import Bake
from assistant.engine.diagnosis.evidence import Figure

_FLOUR_CARRIES = {"weak_flour_kind": 65.0, "bread_flour_kind": 72.0, "strong_flour_kind": 75.0, "wholegrain_kind": 80.0}
"""Most water a flour usually carries, % (plain 65, strong 72, wholemeal 80)."""
_POINTS_PER_BRAN = 0.125
"""Points of water a point of wholegrain wants (2-3 per 20 %)."""


def _water_over(bake: Bake) -> Figure | None:
    water = bake.said.get("hydration_pct")
    if water is None:
        return None
    carries, what = _carries(bake)
    if water > carries:
        how = f"{water:g} % water where {what} carries about {carries:g}"
    else:
        how = f"{water:g} % water, no more than {what} carries"
    return Figure("water_over", water - carries, how)


def _carries(bake: Bake) -> tuple[float, str]:
    """The most water, %, that the flour or the bread carries, and which of the two says so."""
    carries = next((pct for name, pct in _FLOUR_CARRIES.items() if name in bake.findings), None)
    if carries is None and bake.said.get("wholegrain_pct", 0.0) >= 50:
        carries = _FLOUR_CARRIES["wholegrain_kind"]
    if bake.bread is not None and (carries is None or bake.bread.hydration_high_pct > carries + 3):
        return bake.bread.hydration_high_pct, f"a {bake.bread.name.lower()}"
    if carries is None:
        return _FLOUR_CARRIES["bread_flour_kind"], "a bread flour"
    return carries, "this flour"


def _water_short(bake: Bake) -> Figure | None:
    water = bake.said.get("hydration_pct")
    if water is None:
        return None
    least = min(bake.bread.hydration_low_pct, 58.0) if bake.bread else 58.0
    if bake.bread is not None and bake.bread.boil_s_per_side:
        least = 48.0
    if water < least:
        how = f"{water:g} % water where {least:g} is the least"
    else:
        how = f"{water:g} % water, over the least of {least:g}"
    return Figure("water_short", least - water, how)


def _bran(bake: Bake) -> Figure | None:
    bran, water = bake.said.get("wholegrain_pct"), bake.said.get("hydration_pct")
    if bran is None or water is None or bran < 15:
        return None
    wants = 65 + _POINTS_PER_BRAN * bran
    return Figure(
        "bran_short", wants - water, f"{water:g} % water with {bran:g} % wholegrain: about {wants:.0f} wanted"
    )


def _protein(bake: Bake) -> Figure | None:
    protein = bake.said.get("protein_pct")
    if protein is None:
        return None
    wants = 11.0
    if bake.bread is not None:
        if bake.bread.boil_s_per_side:
            wants = 12.5
        elif bake.bread.fat_usual_pct >= 3 or bake.bread.oven_c_usual >= 258:
            wants = 10.0
    how = f"{protein:g} % protein where {wants:g} is the least" if protein < wants else f"{protein:g} % protein, enough"
    return Figure("protein_short", wants - protein, how)


OF_FLOUR: tuple[Callable[[Bake], Figure | None], ...] = (_water_over, _water_short, _bran, _protein)
