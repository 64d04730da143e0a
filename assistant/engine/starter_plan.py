"""Choosing a build: the ratio, the hour to feed, one stage or two, from what is in the jar and when it is wanted."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NoReturn

from assistant.engine.growth import Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.starter import (
    Build,
    Culture,
    Feeding,
    Habits,
    feeding,
    flour_per_seed_for,
    least_flour,
    peak_holds_min,
    portions_g,
)

_USUAL = (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0)
_SHIFT_MIN = 10.0  # feeds are moved in steps of this much when looking for an hour somebody is up


@dataclass(frozen=True, slots=True)
class Wish:
    """What a build must meet. Minutes count from now.

    `needed_g` ripe starter to use; `keep_g` to keep back (None: nothing, or a little where the whole jar is fed);
    `target_pct` its hydration; `temp_c` where it stands; `ripe_min` when it must be ripe (None: as soon as sensible);
    `start_min` when it is fed (None: to be found); `have_g` starter in the jar (None: enough); `flour_per_seed` where
    the baker named the ratio; `feeds` how many feeds were asked for (None: as many as it takes).
    """

    needed_g: float
    temp_c: float
    target_pct: float = 100.0
    keep_g: float | None = None
    ripe_min: float | None = None
    start_min: float | None = None
    have_g: float | None = None
    flour_per_seed: float | None = None
    feeds: int | None = None


@dataclass(frozen=True, slots=True)
class _Bench:
    """What every step of the choice looks at."""

    k: Kinetics
    h: Habits
    culture: Culture
    wish: Wish
    awake: Callable[[float], bool]

    def takes(self, flour: float, temp_c: float | None = None) -> float:
        """Minutes to ripe of a feed with so much flour per seed."""
        grams = portions_g(1.0, flour, self.culture.hydration_pct, self.wish.target_pct)
        warmth = self.wish.temp_c if temp_c is None else temp_c
        return feeding(self.k, self.h, self.culture, grams, warmth, 0.0).ripe_min


def plan_build(
    k: Kinetics, h: Habits, culture: Culture, wish: Wish, awake: Callable[[float], bool] = lambda minutes: True
) -> Build:
    """A build of one or two feedings that meets the wish; feeds fall where `awake` says somebody is up, if any can.

    Raises:
        Refused: nothing ripens in the time there is, too little is in the jar, or nothing was asked for.
    """
    if wish.needed_g <= 0:
        raise Refused("a build of no starter at all needs no feeding", "say how many grams the dough takes")
    if wish.have_g is not None and wish.have_g <= 0:
        raise Refused("there is no starter to feed", "borrow a spoonful of one, or begin a new culture (a week or two)")
    bench = _Bench(k, h, culture, wish, awake)
    keep_g = wish.keep_g or 0.0
    least = least_flour(culture.hydration_pct, wish.target_pct, h.least)
    if wish.have_g is not None:
        from_jar = _flour_for_seed((wish.needed_g + keep_g) / wish.have_g, culture.hydration_pct, wish.target_pct)
        if from_jar > least:
            if wish.keep_g is None and wish.flour_per_seed is None:
                # The whole jar may go in: nothing is left to carry on with unless a little more is built.
                keep_g = h.keep_g
                total_g = wish.needed_g + keep_g
                from_jar = _flour_for_seed(total_g / wish.have_g, culture.hydration_pct, wish.target_pct)
            least = from_jar
    if wish.flour_per_seed is not None and wish.flour_per_seed < least - 1e-6 and wish.have_g is not None:
        _refuse_ratio(bench, keep_g)
    split = wish.feeds == 2 and wish.have_g is not None and least > 1
    if split or least > (h.most if wish.ripe_min is None else h.most_ever):
        return _two_stages(bench, keep_g)
    flour, start_min = _choice(bench, least)
    grams = portions_g(wish.needed_g + keep_g, flour, culture.hydration_pct, wish.target_pct)
    one = feeding(k, h, culture, grams, wish.temp_c, start_min)
    return Build(wish.needed_g, keep_g, (one,), None if wish.have_g is None else max(0.0, wish.have_g - grams[0]))


def _flour_for_seed(total_per_seed: float, seed_pct: float, target_pct: float) -> float:
    """Flour per part of seed so that the whole is `total_per_seed` times the seed."""
    return total_per_seed / (1 + target_pct / 100) - 1 / (1 + seed_pct / 100)


def _choice(bench: _Bench, least: float) -> tuple[float, float]:
    """Flour per part of seed and the minute of feeding: as said where it was said, else what suits the hour best."""
    wish = bench.wish
    if wish.flour_per_seed is not None:
        takes = bench.takes(wish.flour_per_seed)
        if wish.start_min is not None or wish.ripe_min is None:
            start_min = wish.start_min or 0.0
            if wish.ripe_min is not None and start_min + takes > wish.ripe_min + 1:
                _refuse_hour(bench, wish.flour_per_seed)
            return wish.flour_per_seed, start_min
        if takes > wish.ripe_min + 1:
            _refuse_hour(bench, wish.flour_per_seed)
        return wish.flour_per_seed, max(0.0, wish.ripe_min - takes)
    if wish.ripe_min is None:
        return max(least, 2.0), wish.start_min or 0.0
    if wish.start_min is not None:
        there_is = wish.ripe_min - wish.start_min
        found = flour_per_seed_for(
            bench.k, bench.culture, wish.target_pct, wish.temp_c, there_is, bench.h.most_ever, least
        )
        if found is None:
            _refuse_hour(bench, least)
        return max(least, _rounded(found)), wish.start_min
    return _best_hour(bench, least, wish.ripe_min)


def _rounded(flour: float) -> float:
    """A ratio a person would weigh: halves up to 4, whole parts above; rounded down so that it is not late."""
    return max(0.5, math.floor(flour * 2) / 2) if flour < 4 else float(math.floor(flour))


def _best_hour(bench: _Bench, least: float, ripe_min: float) -> tuple[float, float]:
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
            early += _SHIFT_MIN
        else:
            early = 0.0
            cost += 3.0
        choices.append((cost + early / 120, flour, max(0.0, latest - early)))
    if not choices:
        _refuse_hour(bench, least)
    _, flour, start_min = min(choices)
    return flour, start_min


def _refuse_hour(bench: _Bench, flour: float) -> NoReturn:
    """Say that the hour cannot be met, and when it could."""
    wish = bench.wish
    there_is = (wish.ripe_min or 0.0) - (wish.start_min or 0.0)
    if there_is <= 0:
        raise Refused("the starter would have to be ripe before it is fed", "name a later hour")
    takes = bench.takes(flour)
    raise Refused(
        f"1:{flour:.3g} takes about {takes / 60:.1f} h at {wish.temp_c:g} °C, and there are {there_is / 60:.1f} h",
        f"{takes / 60:.1f} h from feeding, or {bench.takes(flour, 27.0) / 60:.1f} h at 27 °C; "
        "or a smaller feed, or some commercial yeast beside the starter",
        {"ripe_in_min": takes},
    )


def _refuse_ratio(bench: _Bench, keep_g: float) -> NoReturn:
    wish, culture = bench.wish, bench.culture
    have_g, flour = wish.have_g or 0.0, wish.flour_per_seed or 0.0
    seed_g = portions_g(wish.needed_g + keep_g, flour, culture.hydration_pct, wish.target_pct)[0]
    makes_g = (wish.needed_g + keep_g) * have_g / seed_g
    raise Refused(
        f"{wish.needed_g + keep_g:.0f} g at 1:{flour:g} takes {seed_g:.0f} g of seed, and the jar holds {have_g:g} g",
        f"{have_g:g} g at 1:{flour:g} makes {makes_g:.0f} g; more needs a larger feed or two stages",
    )


@dataclass(frozen=True, slots=True)
class _Split:
    """Two feeds that together grow the jar to what is wanted: the grams of each, and how long each takes."""

    bench: _Bench
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


def _split(bench: _Bench, growth: float, total_g: float) -> _Split:
    """How the growth is shared between two feeds: evenly, or so that both fall while somebody is up."""
    own_pct, wish = bench.culture.hydration_pct, bench.wish
    have_g = wish.have_g or 0.0
    found: list[tuple[float, int, _Split]] = []
    for number, power in enumerate((0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72)):
        middle_g = have_g * math.pow(growth, power)
        flour = _flour_for_seed(middle_g / have_g, own_pct, own_pct)
        second_flour = _flour_for_seed(total_g / middle_g, own_pct, wish.target_pct)
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
        one = _Split(bench, *grams, 0.0, 0.0)
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


def _two_stages(bench: _Bench, keep_g: float) -> Build:
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
    split = _split(bench, growth, total_g)
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
    starts = [latest - step * _SHIFT_MIN for step in range(int((latest - earliest) / _SHIFT_MIN) + 1)]
    chosen = next((minute for minute in starts if bench.awake(minute)), latest)
    first = first_at(chosen if wish.start_min is None else wish.start_min)
    return Build(wish.needed_g, keep_g, (first, second), 0.0)
