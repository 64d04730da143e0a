"""Figures as a baker says them, turned into figures that weigh: against the bread's own limits and the hours expected.

"3 hours at 17 °C with 10 % starter" says little until the fermentation model is asked what that dough wanted; "core 88"
is raw in a lean loaf and done in a brioche. Figures that are measures by themselves (dough at 17 °C) pass through.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from assistant.engine.diagnosis import Figure
from assistant.engine.fermentation import State, advance, minutes_to, mixed, shaped
from assistant.engine.growth import Kinetics
from assistant.engine.rising import Dough
from assistant.engine.temperature_path import steady
from knowledge.records.breads import Bread
from knowledge.records.diagnosis_facts import Measure

ROOM_C = 22.0
ASSUMED_WEIGHT = 0.75
"""A figure worked out with an assumed temperature or leaven counts for less."""
SPREAD = 0.2
"""Expected hours are told as a range of this much either way."""
NO_HARM_H, RIPE_PCT = 1.0, 129.0
"""In an hour no acid breaks a dough, however fast the model thinks it went: the stage counts as ripe at most."""
_A_DAY_MIN, _HALF_HOURS_MIN, _MOST_DAYS = 24 * 60.0, 6 * 60.0, 7.0
_ROLL_G = 150.0
_LEAST_LOAF_G, _LARGE_LOAF_G = 500.0, 1000.0
"""Loaves that an ordinary loaf's least and most baking time are for."""
_RISE_PCT = 65.0
"""Rise of an ordinary loaf in either stage, where the bread is not known."""
_FLOUR_CARRIES = {"weak_flour_kind": 65.0, "bread_flour_kind": 72.0, "strong_flour_kind": 75.0, "wholegrain_kind": 80.0}
"""Most water a flour usually carries, % (plain 65, strong 72, wholemeal 80)."""
_POINTS_PER_BRAN = 0.125
"""Points of water a point of wholegrain wants (2-3 per 20 %)."""


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


def figures_of(bake: Bake, measures: Mapping[str, Measure], k: Kinetics) -> tuple[Figure, ...]:
    """Every measured fact that the figures said give, in the order of the measures."""
    found = {name: Figure(name, value) for name, value in bake.said.items() if name in measures}
    for work_out in _WORKED_OUT:
        figure = work_out(bake, k)
        if figure is not None:
            found[figure.measure] = figure
    return tuple(found[name] for name in measures if name in found)


def expected_bulk_min(bake: Bake, k: Kinetics) -> tuple[float, float, bool]:
    """Minutes the first rise should take, its temperature °C, and whether something had to be assumed for it."""
    temp_c, assumed = _temp_c(bake, ("dough_c", "bulk_c", "room_c"))
    dough, guessed = _dough(bake)
    return minutes_to(k, dough, steady(temp_c), _rise(bake, "bulk")), temp_c, assumed or guessed


def expected_proof_min(bake: Bake, k: Kinetics) -> tuple[float, float, bool]:
    """Minutes the final proof should take after a full first rise, its temperature °C, and whether it was assumed."""
    temp_c, assumed = _temp_c(bake, ("proof_c", "room_c", "dough_c"))
    dough, guessed = _dough(bake)
    before = shaped(k, _after_bulk(k, dough, bake), kept=0.1)
    return minutes_to(k, dough, steady(temp_c), _rise(bake, "proof"), before), temp_c, assumed or guessed


def _after_bulk(k: Kinetics, dough: Dough, bake: Bake) -> State:
    warm_c = _temp_c(bake, ("bulk_c", "dough_c", "room_c"))[0]
    full = minutes_to(k, dough, steady(warm_c), _rise(bake, "bulk"))
    if math.isinf(full):
        warm_c, full = 24.0, minutes_to(k, dough, steady(24.0), _rise(bake, "bulk"))
    return advance(k, dough, mixed(k, dough), steady(warm_c), full)


def _temp_c(bake: Bake, order: tuple[str, ...]) -> tuple[float, bool]:
    """The first temperature said, else the kitchen's, else ROOM_C (assumed); kept where the model is sure."""
    for name in order:
        if name in bake.said:
            return min(max(bake.said[name], 5.0), 38.0), False
    return (bake.room_c, False) if bake.room_c is not None else (ROOM_C, True)


def _dough(bake: Bake) -> tuple[Dough, bool]:
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


def _rise(bake: Bake, stage: str) -> float:
    if bake.bread is None:
        return _RISE_PCT
    rise = bake.bread.rise_bulk_pct if stage == "bulk" else bake.bread.rise_proof_pct
    return rise or 30.0


def _hours(minutes: float) -> str:
    if minutes < 90:
        return f"{minutes:.0f} min"
    return f"{minutes / 60:.1f}".removesuffix(".0") + " h"


def _range(minutes: float) -> str:
    """A range as a person would say it: by five minutes, by half or whole hours, from a day up by half days."""
    low, high = minutes * (1 - SPREAD), minutes * (1 + SPREAD)
    if high < 100:
        return f"{5 * round(low / 5):.0f} to {5 * round(high / 5):.0f} min"
    if minutes <= _A_DAY_MIN:
        step = 2 if minutes < _HALF_HOURS_MIN else 1
        low_h, high_h = round(low / 60 * step) / step, round(high / 60 * step) / step
        return f"{low_h:g} to {high_h:g} h"
    days = round(minutes / 1440 * 2) / 2
    if days > _MOST_DAYS:
        return "more than a week"
    whole = {1.0: "a day", 1.5: "a day and a half"}
    return "about " + whole.get(days, f"{int(days)} and a half days" if days % 1 else f"{int(days)} days")


def _leaven_words(bake: Bake) -> str:
    dough, guessed = _dough(bake)
    if dough.starter_pct:
        return f"{dough.starter_pct:g} % starter" + (" (assumed)" if guessed else "")
    return f"{dough.yeast_fresh_pct:.2g} % yeast (as fresh)" + (" (assumed)" if guessed else "")


def _stage(bake: Bake, k: Kinetics, name: str, words: str) -> Figure | None:
    """Time of a stage against the time expected, in percent, with the reason in figures."""
    took_h = bake.said.get(f"{name}_h")
    if took_h is None:
        return None
    expect = expected_bulk_min if name == "bulk" else expected_proof_min
    minutes, temp_c, assumed = expect(bake, k)
    if math.isinf(minutes) or minutes <= 0:
        return None
    pct = min(100 * 60 * took_h / minutes, 999.0)
    if took_h <= NO_HARM_H:
        pct = min(pct, RIPE_PCT)
    where = f"{temp_c:g} °C" + (" (assumed)" if _temp_c(bake, _ORDER[name])[1] else "")
    how = f"{words} of {_hours(60 * took_h)} at {where} with {_leaven_words(bake)}: {_range(minutes)} expected"
    return Figure(f"{name}_pct", pct, how, ASSUMED_WEIGHT if assumed else 1.0)


_ORDER = {"bulk": ("dough_c", "bulk_c", "room_c"), "proof": ("proof_c", "room_c", "dough_c")}


def _bulk(bake: Bake, k: Kinetics) -> Figure | None:
    return _stage(bake, k, "bulk", "a first rise")


def _bulk_clock(bake: Bake, k: Kinetics) -> Figure | None:
    return Figure("bulk_min", 60 * bake.said["bulk_h"]) if "bulk_h" in bake.said else None


def _proof(bake: Bake, k: Kinetics) -> Figure | None:
    return _stage(bake, k, "proof", "a final proof")


def _yeasted_retard(bake: Bake, k: Kinetics) -> Figure | None:
    hours, fresh = bake.said.get("retard_h"), bake.said.get("yeast_fresh_pct", 0.0)
    if hours is None or not (bake.yeasted or fresh >= 0.5):
        return None
    return Figure("yeasted_retard_h", hours)


def _yeast(bake: Bake, k: Kinetics) -> Figure | None:
    fresh = bake.said.get("yeast_fresh_pct")
    if fresh is None or bake.said.get("starter_pct"):
        return None  # a pinch of yeast beside a starter is no little yeast
    return Figure("yeast_instant_pct", fresh / 3)


def _water_over(bake: Bake, k: Kinetics) -> Figure | None:
    water = bake.said.get("hydration_pct")
    if water is None:
        return None
    carries = next((_FLOUR_CARRIES[name] for name in _FLOUR_CARRIES if name in bake.findings), None)
    if carries is None and bake.said.get("wholegrain_pct", 0.0) >= 50:
        carries = _FLOUR_CARRIES["wholegrain_kind"]
    what = "this flour"
    if bake.bread is not None and (carries is None or bake.bread.hydration_high_pct > carries + 3):
        carries, what = bake.bread.hydration_high_pct, f"a {bake.bread.name.lower()}"
    elif carries is None:
        carries, what = _FLOUR_CARRIES["bread_flour_kind"], "a bread flour"
    over = water - carries
    how = (
        f"{water:g} % water where {what} carries about {carries:g}"
        if over > 0
        else f"{water:g} % water, no more than {what} carries"
    )
    return Figure("water_over", over, how)


def _water_short(bake: Bake, k: Kinetics) -> Figure | None:
    water = bake.said.get("hydration_pct")
    if water is None:
        return None
    least = min(bake.bread.hydration_low_pct, 58.0) if bake.bread else 58.0
    if bake.bread is not None and bake.bread.boil_s_per_side:
        least = 48.0
    short = least - water
    how = (
        f"{water:g} % water where {least:g} is the least"
        if short > 0
        else f"{water:g} % water, over the least of {least:g}"
    )
    return Figure("water_short", short, how)


def _bran(bake: Bake, k: Kinetics) -> Figure | None:
    bran, water = bake.said.get("wholegrain_pct"), bake.said.get("hydration_pct")
    if bran is None or water is None or bran < 15:
        return None
    wants = 65 + _POINTS_PER_BRAN * bran
    return Figure(
        "bran_short", wants - water, f"{water:g} % water with {bran:g} % wholegrain: about {wants:.0f} wanted"
    )


def _protein(bake: Bake, k: Kinetics) -> Figure | None:
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


def _oven_true(bake: Bake, k: Kinetics) -> Figure | None:
    setting, real = bake.said.get("oven_c"), bake.said.get("oven_real_c")
    if setting is None or real is None:
        return None
    return Figure("oven_gap", real - setting, f"oven thermometer {real:g} °C with the dial at {setting:g}")


def _oven_usual(bake: Bake, k: Kinetics) -> Figure | None:
    heat_c = bake.said.get("oven_real_c", bake.said.get("oven_c"))
    if heat_c is None:
        return None
    low_c, high_c = (bake.bread.oven_c_low, bake.bread.oven_c_high) if bake.bread else (205.0, 250.0)
    name = bake.bread.name.lower() if bake.bread else "lean loaf"
    off = heat_c - low_c if heat_c < low_c else heat_c - high_c if heat_c > high_c else 0.0
    how = f"oven at {heat_c:g} °C where a {name} wants {low_c:g} to {high_c:g}"
    return Figure("oven_off", off, how if off else f"oven at {heat_c:g} °C, as a {name} wants it")


def _bake_time(bake: Bake, k: Kinetics) -> Figure | None:
    minutes = bake.said.get("bake_min")
    if minutes is None:
        return None
    low, high = _bake_min(bake)
    pct = (
        100.0
        if low <= minutes <= high
        else 100 * minutes / (low if minutes < low else high) * (0.8 if minutes < low else 1.2)
    )
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


def _core(bake: Bake, k: Kinetics) -> Figure | None:
    core_c = bake.said.get("core_c")
    if core_c is None:
        return None
    target = min(bake.bread.core_c, 97.0) if bake.bread and bake.bread.core_c else 95.0
    target -= 1.5  # the usual figure has a range below it
    if "rye_bread" in bake.findings:
        target = 97.0
    how = (
        f"core {core_c:g} °C where {target:g} or more is wanted"
        if core_c < target
        else f"core {core_c:g} °C: baked through"
    )
    return Figure("core_short", target - core_c, how)


def _loss(bake: Bake, k: Kinetics) -> Figure | None:
    loss = bake.said.get("loss_pct")
    if loss is None:
        return None
    usual = bake.bread.bake_loss_pct if bake.bread else 14.0
    return Figure("loss_off", loss - usual, f"lost {loss:g} % of its weight where {usual:g} is usual")


def _cut(bake: Bake, k: Kinetics) -> Figure | None:
    after_min = bake.said.get("cut_after_min")
    if after_min is None:
        return None
    rest = 120.0
    if bake.bread is not None and bake.bread.piece_usual_g <= _ROLL_G:
        rest = 30.0
    if "rye_bread" in bake.findings or (bake.bread is not None and bake.bread.id in ("high_rye", "rye_wheat")):
        rest = 24 * 60.0
    return Figure(
        "cut_pct", 100 * after_min / rest, f"cut {_hours(after_min)} after the oven where {_hours(rest)} is the least"
    )


_WORKED_OUT: tuple[Callable[[Bake, Kinetics], Figure | None], ...] = (
    _bulk, _bulk_clock, _proof, _yeasted_retard, _yeast, _water_over, _water_short, _bran, _protein,
    _oven_true, _oven_usual, _bake_time, _core, _loss, _cut,
)  # fmt: skip
