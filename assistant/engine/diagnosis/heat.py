"""Oven, baking time, core, loss and cutting of a bake against what its bread wants: core 88 is raw in a lean loaf and
done in a brioche.
"""

from __future__ import annotations

from collections.abc import Callable

from assistant.engine.diagnosis.bake import Bake, hours
from assistant.engine.diagnosis.evidence import Figure

_ROLL_G = 150.0
_UNDER_LEAST, _OVER_MOST = 0.8, 1.2
"""What the least and the most baking time are of the usual one."""
_LEAST_LOAF_G, _LARGE_LOAF_G = 500.0, 1000.0
"""Loaves that an ordinary loaf's least and most baking time are for."""


def _oven_true(bake: Bake) -> Figure | None:
    setting, real = bake.said.get("oven_c"), bake.said.get("oven_real_c")
    if setting is None or real is None:
        return None
    return Figure("oven_gap", real - setting, f"oven thermometer {real:g} °C with the dial at {setting:g}")


def _oven_usual(bake: Bake) -> Figure | None:
    heat_c = bake.said.get("oven_real_c", bake.said.get("oven_c"))
    if heat_c is None:
        return None
    low_c, high_c = (bake.bread.oven_c_low, bake.bread.oven_c_high) if bake.bread else (205.0, 250.0)
    name = bake.bread.name.lower() if bake.bread else "lean loaf"
    off = heat_c - low_c if heat_c < low_c else heat_c - high_c if heat_c > high_c else 0.0
    how = f"oven at {heat_c:g} °C where a {name} wants {low_c:g} to {high_c:g}"
    return Figure("oven_off", off, how if off else f"oven at {heat_c:g} °C, as a {name} wants it")


def _bake_time(bake: Bake) -> Figure | None:
    minutes = bake.said.get("bake_min")
    if minutes is None:
        return None
    low, high = _bake_min(bake)
    pct = 100.0
    if minutes < low:
        pct = 100 * minutes / low * _UNDER_LEAST
    elif minutes > high:
        pct = 100 * minutes / high * _OVER_MOST
    name = bake.bread.name.lower() if bake.bread else "loaf"
    piece_g = bake.said.get("piece_g")
    of = f" of {piece_g:g} g" if piece_g is not None else ""
    return Figure("bake_pct", pct, f"baked {minutes:g} min where a {name}{of} takes {low:.0f} to {high:.0f}")


def _bake_min(bake: Bake) -> tuple[float, float]:
    """Least and most minutes of the bake. Heat reaches the middle in time that grows as mass to the power 2/3."""
    piece_g = bake.said.get("piece_g")
    if bake.bread is None:
        if piece_g is None:
            return 25.0, 48.0
        return 25.0 * (piece_g / _LEAST_LOAF_G) ** (2 / 3), 48.0 * (piece_g / _LARGE_LOAF_G) ** (2 / 3)
    larger = (piece_g / bake.bread.piece_usual_g) ** (2 / 3) if piece_g is not None else 1.0
    return bake.bread.minutes_low * larger, bake.bread.minutes_high * larger


def _core(bake: Bake) -> Figure | None:
    core_c = bake.said.get("core_c")
    if core_c is None:
        return None
    target = min(bake.bread.core_c, 97.0) if bake.bread and bake.bread.core_c else 95.0
    target -= 1.5  # the usual figure has a range below it
    if "rye_bread" in bake.findings:
        target = 97.0
    short = core_c < target
    how = f"core {core_c:g} °C where {target:g} or more is wanted" if short else f"core {core_c:g} °C: baked through"
    return Figure("core_short", target - core_c, how)


def _loss(bake: Bake) -> Figure | None:
    loss = bake.said.get("loss_pct")
    if loss is None:
        return None
    usual = bake.bread.bake_loss_pct if bake.bread else 14.0
    return Figure("loss_off", loss - usual, f"lost {loss:g} % of its weight where {usual:g} is usual")


def _cut(bake: Bake) -> Figure | None:
    after_min = bake.said.get("cut_after_min")
    if after_min is None:
        return None
    rest = 120.0
    if bake.bread is not None and bake.bread.piece_usual_g <= _ROLL_G:
        rest = 30.0
    if "rye_bread" in bake.findings or (bake.bread is not None and bake.bread.id in ("high_rye", "rye_wheat")):
        rest = 24 * 60.0
    return Figure(
        "cut_pct", 100 * after_min / rest, f"cut {hours(after_min)} after the oven where {hours(rest)} is the least"
    )


OF_HEAT: tuple[Callable[[Bake], Figure | None], ...] = (_oven_true, _oven_usual, _bake_time, _core, _loss, _cut)
