"""Choosing a build: the ratio, the hour to feed, one stage or two, from what is in the jar and when it is wanted."""

from __future__ import annotations

from collections.abc import Callable

from assistant.engine.growth import Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.starter import Build, Culture, Habits, feeding, least_flour, portions_g
from assistant.engine.starter_hour import ratio_and_hour, refuse_ratio
from assistant.engine.starter_two_feeds import two_stages
from assistant.engine.starter_wish import Choosing, Wish, flour_for_seed


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
    bench = Choosing(k, h, culture, wish, awake)
    least, keep_g = _least_feed(bench)
    if wish.flour_per_seed is not None and wish.flour_per_seed < least - 1e-6 and wish.have_g is not None:
        refuse_ratio(bench, keep_g)
    split = wish.feeds == 2 and wish.have_g is not None and least > 1
    if split or least > (h.most if wish.ripe_min is None else h.most_ever):
        return two_stages(bench, keep_g)
    flour, start_min = ratio_and_hour(bench, least)
    grams = portions_g(wish.needed_g + keep_g, flour, culture.hydration_pct, wish.target_pct)
    one = feeding(k, h, culture, grams, wish.temp_c, start_min)
    return Build(wish.needed_g, keep_g, (one,), None if wish.have_g is None else max(0.0, wish.have_g - grams[0]))


def _least_feed(bench: Choosing) -> tuple[float, float]:
    """The least flour per part of seed that makes what is wanted of what the jar holds, and the grams to keep back."""
    wish, seed_pct = bench.wish, bench.culture.hydration_pct
    keep_g = wish.keep_g or 0.0
    least = least_flour(seed_pct, wish.target_pct, bench.h.least)
    if wish.have_g is None:
        return least, keep_g
    from_jar = flour_for_seed((wish.needed_g + keep_g) / wish.have_g, seed_pct, wish.target_pct)
    if from_jar <= least:
        return least, keep_g
    if wish.keep_g is None and wish.flour_per_seed is None:
        # The whole jar may go in: nothing is left to carry on with unless a little more is built.
        keep_g = bench.h.keep_g
        from_jar = flour_for_seed((wish.needed_g + keep_g) / wish.have_g, seed_pct, wish.target_pct)
    return from_jar, keep_g
