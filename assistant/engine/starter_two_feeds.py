"""Two feeds where the jar holds too little for one: the first makes the seed of the second."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from assistant.engine.refusal import Refused
from assistant.engine.starter import Build, Feeding, feeding, least_flour, peak_holds_min, portions_g
from assistant.engine.starter_wish import SHIFT_MIN, Choosing, flour_for_seed


@dataclass(frozen=True, slots=True)
class Split:
    """Two feeds that together grow the jar to what is wanted: the grams of each, and how long each takes."""

    bench: Choosing
    first_grams: tuple[float, float, float]
    second_grams: tuple[float, float, float]
    first_takes: float
    second_takes: float

    def first_at(self, start_min: float) -> Feeding:
        """The first feed at a minute from now."""
        one = self.bench
        return feeding(one.k, one.h, one.culture, self.first_grams, one.wish.temp_c, start_min)

    def second_at(self, start_min: float) -> Feeding:
        """The second feed; its seed is fresh, not from the fridge."""
        one = self.bench
        return feeding(one.k, one.h, replace(one.culture, cold=False), self.second_grams, one.wish.temp_c, start_min)


def shared_out(bench: Choosing, growth: float, total_g: float) -> Split:
    """How the growth is shared between two feeds: evenly, or so that both fall while somebody is up."""
    own_pct, wish = bench.culture.hydration_pct, bench.wish
    have_g = wish.have_g or 0.0
    found: list[tuple[float, int, Split]] = []
    for number, power in enumerate((0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72)):
        middle_g = have_g * math.pow(growth, power)
        flour = flour_for_seed(middle_g / have_g, own_pct, own_pct)
        second_flour = flour_for_seed(total_g / middle_g, own_pct, wish.target_pct)
        if (
            flour < 0.5
            or second_flour < least_flour(own_pct, wish.target_pct)
            or max(flour, second_flour) > bench.h.most_ever
        ):
            continue
        grams = (
            portions_g(middle_g, flour, own_pct, own_pct),
            portions_g(total_g, second_flour, own_pct, wish.target_pct),
        )
        one = Split(bench, *grams, 0.0, 0.0)
        one = replace(one, first_takes=one.first_at(0.0).ripe_min, second_takes=one.second_at(0.0).ripe_min)
        cost = 0.15 * number
        if wish.ripe_min is not None:
            second_min = wish.ripe_min - one.second_takes
            cost += 0.0 if bench.awake(max(0.0, second_min)) else 3.0
            cost += 5.0 if second_min - one.first_takes < (wish.start_min or 0.0) - 1 else 0.0
            cost += 0.0 if bench.awake(max(0.0, second_min - one.first_takes)) else 1.0
        found.append((cost, number, one))
    if not found:
        raise Refused(
            f"{have_g:g} g does not come out at {wish.target_pct:g} % in two feeds",
            "feed once at the starter's own hydration first, then change it",
        )
    return min(found, key=lambda each: each[:2])[2]


def two_stages(bench: Choosing, keep_g: float) -> Build:
    """Too little in the jar for one feed: a first feed makes the seed of the second, both growing alike.

    With an hour given the second is ripe on it and the first is at its best when the second is fed.
    """
    h, culture, wish = bench.h, bench.culture, bench.wish
    have_g = wish.have_g or 0.0
    total_g = wish.needed_g + keep_g
    growth = total_g / have_g
    most_growth = (1 + 2 * h.most) ** 2
    if growth > most_growth:
        raise Refused(
            f"{have_g:g} g would have to grow {growth:.0f} times, more than two feeds can do",
            f"three feeds on three days, or {math.ceil(total_g / most_growth)} g in the jar to begin with",
        )
    split = shared_out(bench, growth, total_g)
    first_at, second_at = split.first_at, split.second_at
    first_takes, second_takes = split.first_takes, split.second_takes
    start_min = wish.start_min or 0.0
    if wish.ripe_min is None:
        first = first_at(start_min)
        return Build(wish.needed_g, keep_g, (first, second_at(first.ripe_min)), 0.0)
    spare = wish.ripe_min - start_min - first_takes - second_takes
    if spare < -1:
        raise Refused(
            f"{have_g:g} g must grow {growth:.0f} times: two feeds take {(first_takes + second_takes) / 60:.1f} h at "
            f"{wish.temp_c:g} °C, and there are {(wish.ripe_min - start_min) / 60:.1f} h",
            f"ready {(first_takes + second_takes) / 60:.1f} h from now, or sooner somewhere warmer (26 °C)",
            {"ripe_in_min": start_min + first_takes + second_takes},
        )
    second = second_at(max(0.0, wish.ripe_min - second_takes))
    earliest = max(0.0, second.start_min - first_takes - peak_holds_min(h, wish.temp_c, culture.hydration_pct))
    latest = max(0.0, second.start_min - first_takes)
    starts = [latest - step * SHIFT_MIN for step in range(int((latest - earliest) / SHIFT_MIN) + 1)]
    chosen = next((minute for minute in starts if bench.awake(minute)), latest)
    first = first_at(chosen if wish.start_min is None else wish.start_min)
    return Build(wish.needed_g, keep_g, (first, second), 0.0)
