"""The ratio of one feed and the hour it is given: as said, else what suits best when it is wanted."""

from __future__ import annotations

import math
from typing import NoReturn

from assistant.engine.refusal import Refused
from assistant.engine.starter import flour_per_seed_for, peak_holds_min, portions_g
from assistant.engine.starter_wish import SHIFT_MIN, Choosing, refuse_hour

_USUAL = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0)


def ratio_and_hour(bench: Choosing, least: float) -> tuple[float, float]:
    """Flour per part of seed and the minute of feeding: as said where it was said, else what suits the hour best."""
    wish = bench.wish
    if wish.flour_per_seed is not None:
        takes = bench.takes(wish.flour_per_seed)
        if wish.start_min is not None or wish.ripe_min is None:
            start_min = wish.start_min or 0.0
            if wish.ripe_min is not None and start_min + takes > wish.ripe_min + 1:
                refuse_hour(bench, wish.flour_per_seed)
            return wish.flour_per_seed, start_min
        if takes > wish.ripe_min + 1:
            refuse_hour(bench, wish.flour_per_seed)
        return wish.flour_per_seed, max(0.0, wish.ripe_min - takes)
    if wish.ripe_min is None:
        return max(least, 2.0), wish.start_min or 0.0
    if wish.start_min is not None:
        there_is = wish.ripe_min - wish.start_min
        found = flour_per_seed_for(
            bench.k, bench.culture, wish.target_pct, wish.temp_c, there_is, bench.h.most_ever, least
        )
        if found is None:
            refuse_hour(bench, least)
        return max(least, _rounded(found)), wish.start_min
    return _best_hour(bench, least, wish.ripe_min)


def _rounded(flour: float) -> float:
    """A ratio a person would weigh: halves up to 4, whole parts above; rounded down so that it is not late."""
    return max(0.5, math.floor(flour * 2) / 2) if flour < 4 else float(math.floor(flour))


def _best_hour(bench: Choosing, least: float, ripe_min: float) -> tuple[float, float]:
    """The ratio and the hour that suit best: not before now, somebody up, near 1:4, not above 1:10 unless it must.

    Where the exact hour falls in the night the feed may come earlier, as long as the starter is still at its best when
    it is wanted.
    """
    choices: list[tuple[float, float, float]] = []
    holds = 0.8 * peak_holds_min(bench.h, bench.wish.temp_c, bench.wish.target_pct)
    for flour in (least, *(usual for usual in _USUAL if least < usual <= bench.h.most_ever)):
        latest = ripe_min - bench.takes(flour)
        if latest < -1:
            break
        over = max(0.0, flour - bench.h.most)
        cost = abs(math.log(flour / 4)) + (0.6 + 0.1 * over if over else 0.0) + (0.3 if flour == least else 0.0)
        early = 0.0
        while early <= min(holds, latest):
            if bench.awake(max(0.0, latest - early)):
                break
            early += SHIFT_MIN
        else:
            early = 0.0
            cost += 3.0
        choices.append((cost + early / 120, flour, max(0.0, latest - early)))
    if not choices:
        refuse_hour(bench, least)
    _, flour, start_min = min(choices)
    return flour, start_min


def refuse_ratio(bench: Choosing, keep_g: float) -> NoReturn:
    wish, culture = bench.wish, bench.culture
    have_g, flour = wish.have_g or 0.0, wish.flour_per_seed or 0.0
    seed_g = portions_g(wish.needed_g + keep_g, flour, culture.hydration_pct, wish.target_pct)[0]
    makes_g = (wish.needed_g + keep_g) * have_g / seed_g
    raise Refused(
        f"{wish.needed_g + keep_g:.0f} g at 1:{flour:g} takes {seed_g:.0f} g of seed, and the jar holds {have_g:g} g",
        f"{have_g:g} g at 1:{flour:g} makes {makes_g:.0f} g; more needs a larger feed or two stages",
    )
