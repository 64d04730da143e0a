"""The hours of a bake against those that dough wanted at that warmth, by the fermentation model.

"3 hours at 17 °C with 10 % starter" says little until the model is asked what it wanted.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from assistant.engine.diagnosis.bake import Bake, dough_of, hours, warmth_c
from assistant.engine.diagnosis.evidence import Figure
from assistant.engine.fermentation import State, advance, minutes_to, mixed, shaped
from assistant.engine.growth import Kinetics
from assistant.engine.rising import Dough
from assistant.engine.temperature_path import steady

ASSUMED_WEIGHT = 0.75
"""A figure worked out with an assumed temperature or leaven counts for less."""
SPREAD = 0.2
"""Expected hours are told as a range of this much either way."""
NO_HARM_H, RIPE_PCT = 1.0, 129.0
"""In an hour no acid breaks a dough, however fast the model thinks it went: the stage counts as ripe at most."""
_A_DAY_MIN, _HALF_HOURS_MIN, _MOST_DAYS = 24 * 60.0, 6 * 60.0, 7.0
_WARMTH_OF = {"bulk": ("dough_c", "bulk_c", "room_c"), "proof": ("proof_c", "room_c", "dough_c")}
"""The figures that tell how warm a stage was, the surest first."""
_RISE_PCT = 65.0
"""Rise of an ordinary loaf in either stage, where the bread is not known."""


def expected_bulk_min(bake: Bake, k: Kinetics) -> tuple[float, float, bool]:
    """Minutes the first rise should take, its temperature °C, and whether something had to be assumed for it."""
    temp_c, assumed = warmth_c(bake, _WARMTH_OF["bulk"])
    dough, guessed = dough_of(bake)
    return minutes_to(k, dough, steady(temp_c), _rise(bake, "bulk")), temp_c, assumed or guessed


def expected_proof_min(bake: Bake, k: Kinetics) -> tuple[float, float, bool]:
    """Minutes the final proof should take after a full first rise, its temperature °C, and whether it was assumed."""
    temp_c, assumed = warmth_c(bake, _WARMTH_OF["proof"])
    dough, guessed = dough_of(bake)
    before = shaped(k, _after_bulk(k, dough, bake), kept=0.1)
    return minutes_to(k, dough, steady(temp_c), _rise(bake, "proof"), before), temp_c, assumed or guessed


def _after_bulk(k: Kinetics, dough: Dough, bake: Bake) -> State:
    warm_c = warmth_c(bake, ("bulk_c", "dough_c", "room_c"))[0]
    full = minutes_to(k, dough, steady(warm_c), _rise(bake, "bulk"))
    if math.isinf(full):
        warm_c, full = 24.0, minutes_to(k, dough, steady(24.0), _rise(bake, "bulk"))
    return advance(k, dough, mixed(k, dough), steady(warm_c), full)


def _rise(bake: Bake, stage: str) -> float:
    if bake.bread is None:
        return _RISE_PCT
    rise = bake.bread.rise_bulk_pct if stage == "bulk" else bake.bread.rise_proof_pct
    return rise or 30.0


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


def _leaven_words(dough: Dough) -> str:
    return (
        f"{dough.starter_pct:g} % starter" if dough.starter_pct else f"{dough.yeast_fresh_pct:.2g} % yeast (as fresh)"
    )


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
    dough, guessed = dough_of(bake)
    facts = ((f"{temp_c:g} °C", warmth_c(bake, _WARMTH_OF[name])[1]), (_leaven_words(dough), guessed))
    at, leaven = (f"{fact} (assumed)" if filled_in else fact for fact, filled_in in facts)
    how = f"{words} of {hours(60 * took_h)} at {at} with {leaven}: {_range(minutes)} expected"
    filled = tuple(fact for fact, filled_in in facts if filled_in)
    return Figure(f"{name}_pct", pct, how, ASSUMED_WEIGHT if assumed else 1.0, filled)


def _bulk(bake: Bake, k: Kinetics) -> Figure | None:
    return _stage(bake, k, "bulk", "a first rise")


def _bulk_clock(bake: Bake, k: Kinetics) -> Figure | None:
    return Figure("bulk_min", 60 * bake.said["bulk_h"]) if "bulk_h" in bake.said else None


def _proof(bake: Bake, k: Kinetics) -> Figure | None:
    return _stage(bake, k, "proof", "a final proof")


def _yeasted_retard(bake: Bake, k: Kinetics) -> Figure | None:
    cold_h, fresh = bake.said.get("retard_h"), bake.said.get("yeast_fresh_pct", 0.0)
    if cold_h is None or not (bake.yeasted or fresh >= 0.5):
        return None
    return Figure("yeasted_retard_h", cold_h)


def _yeast(bake: Bake, k: Kinetics) -> Figure | None:
    fresh = bake.said.get("yeast_fresh_pct")
    if fresh is None or bake.said.get("starter_pct"):
        return None  # a pinch of yeast beside a starter is no little yeast
    return Figure("yeast_instant_pct", fresh / 3)


OF_RISES: tuple[Callable[[Bake, Kinetics], Figure | None], ...] = (_bulk, _bulk_clock, _proof, _yeasted_retard, _yeast)
