"""Starter builds: the grams, the ratio and the hour of a feed."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.feed_hours import SOONEST_MIN, awake_at, fed_ahead, fed_in_min, minutes_to
from assistant.answers.feed_told import as_built
from assistant.answers.fermentation_models import Models, models
from assistant.answers.learned import pace_of
from assistant.engine.naming import grams
from assistant.engine.refusal import Refused
from assistant.engine.starter import Build, Culture, feeding
from assistant.engine.starter_plan import plan_build
from assistant.engine.starter_wish import Wish
from assistant.talk.local_time import later
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.spans import clock_said, degrees_said, hours_said
from grammar.moments import Moment, resolve
from grammar.requests.feed import FeedRequest

STIFF_PCT = 50.0
USUAL_G = 100.0
"""A build where neither line nor dough says how much."""


@answers(FeedRequest)
def answer(request: FeedRequest, room: Room) -> Outcome:
    """A build: grams, ratio, when to feed, when it is ripe and until when."""
    m = models(room.kb)
    assumed: list[str] = []
    if request.now_at is not None:
        room = replace(room, now=resolve(request.now_at, room.now))
    temp_c = request.temp_c
    if temp_c is None:
        temp_c = room.kitchen_c
        assumed.append(f"kitchen {degrees_said(temp_c)}" + (", as you keep it" if room.kitchen_is_set else ""))
    if request.ratio is not None and min(request.ratio[0], request.ratio[1]) <= 0:
        raise Refused("a feed needs seed and flour: 1:0 feeds nothing", "for example 1:2:2, seed, flour, water")
    if temp_c > m.k.kills_c or temp_c < 0:
        raise Refused(f"a starter does not ripen at {degrees_said(temp_c)}", "keep it at 20 to 28 °C while it rises")
    culture, target_pct, words = _culture(request, room)
    assumed += words
    if request.flour_g is not None and request.water_g is not None:
        build, feeding_said = _as_fed(request, m, culture, temp_c, room), True
    else:
        build, feeding_said = (
            _planned(request, room, m, culture, target_pct, temp_c, assumed),
            request.fed_at is not None,
        )
    return as_built(request, room, m, build, temp_c, target_pct, (*assumed, *request.degrees_said), feeding_said)


def _culture(request: FeedRequest, room: Room) -> tuple[Culture, float, tuple[str, ...]]:
    """The starter in the jar and the hydration wanted."""
    said: list[str] = []
    setting = room.setting("starter_hydration_pct")
    own_pct = request.seed_hydration_pct or (float(setting) if setting is not None else None)
    formula = formula_in_hand(room)
    target = request.hydration_pct
    if target is None and request.stiff:
        target = STIFF_PCT
        said.append(f"stiff: {STIFF_PCT:g} % hydration")
    if (
        target is None
        and formula is not None
        and formula.starter is not None
        and request.needed_g is None
        and request.ratio is None
    ):
        target = formula.starter.hydration_pct
    if own_pct is None and _kept_so(request):
        own_pct = target
    if own_pct is None:
        own_pct = 100.0
        said.append("starter in the jar at 100 % hydration")
    pace = pace_of(room)
    culture = Culture(own_pct, pace.value, pace.count > 0, request.cold)
    if request.cold:
        said.append("seed straight from the fridge: 1 to 3 h until it gets going")
    return culture, target if target is not None else own_pct, tuple(said)










def _kept_so(request: FeedRequest) -> bool:
    """Whether the named parts are flour and water of the very hydration wanted: such a starter is kept so."""
    if request.ratio is None or request.hydration_pct is None:
        return False
    return abs(100 * request.ratio[2] / request.ratio[1] - request.hydration_pct) < 1.0


def _needed(request: FeedRequest, room: Room, culture: Culture, assumed: list[str]) -> float:
    """Grams to use: as said, or what the dough in hand takes."""
    if request.needed_g is not None:
        return request.needed_g
    formula = formula_in_hand(room)
    if formula is not None and formula.starter is not None and formula.starter.g > 0:
        assumed.append(f"{grams(formula.starter.g)} g, what the dough in hand takes")
        return formula.starter.g
    if request.have_g is not None and request.ratio is not None:
        seed, flour, water = request.ratio
        return request.have_g * (seed + flour + water) / seed
    assumed.append(f"{USUAL_G:g} g")
    return USUAL_G


def _planned(
    request: FeedRequest, room: Room, m: Models, culture: Culture, target_pct: float, temp_c: float, assumed: list[str]
) -> Build:
    fed_min = None
    if request.fed_at is not None:
        fed_min = minutes_to(request.fed_at, room) if request.ratio_asked else fed_in_min(request.fed_at, room)
    ripe_min = minutes_to(request.ripe_at, room, fed_ahead(fed_min, room))
    if ripe_min is not None and ripe_min < SOONEST_MIN and request.ripe_at is not None and request.ripe_at.day is None:
        # "bake at 8" said at half past seven is tomorrow's eight: no feed ripens by today's.
        ripe_min += 24 * 60
        assumed.append(f"{clock_said(later(room.now, ripe_min), room.now)}, the next one a feed can reach")
    if ripe_min is None:
        ripe_min = request.ripe_in_min
    if fed_min is not None and ripe_min is not None and ripe_min <= fed_min:
        ripe_min += 24 * 60  # from the evening to the morning after
    start_min = fed_min
    if request.overnight and ripe_min is None and start_min is None and request.use_at is None:
        night = resolve(Moment(minute=22 * 60), room.now)
        start_min = (night - room.now).total_seconds() / 60
        if request.ratio is None:
            ripe_min = start_min + 9 * 60
            assumed.append("fed at 22:00, wanted at 07:00")
        else:
            assumed.append("fed at 22:00")
    elif request.ratio_asked and ripe_min is not None and request.ripe_at is None and start_min is None:
        start_min = 0.0
    needed_g = _needed(request, room, culture, assumed)
    if request.ratio is not None and (request.fed_at is not None or request.hydration_pct is None):
        return _by_ratio(request, m, culture, temp_c, needed_g, ripe_min, start_min)
    wish = Wish(
        needed_g=needed_g, temp_c=temp_c, target_pct=target_pct, keep_g=request.keep_g, ripe_min=ripe_min,
        start_min=start_min,
        have_g=request.have_g, feeds=request.feeds,
        flour_per_seed=request.ratio[1] / request.ratio[0] if request.ratio else None,
    )  # fmt: skip
    first_min = minutes_to(request.not_before, room)
    build = plan_build(m.k, m.habits, culture, wish, awake_at(room, first_min or 0.0))
    if first_min is not None and wish.start_min is None and build.feedings[0].start_min < first_min:
        return plan_build(m.k, m.habits, culture, replace(wish, start_min=first_min), awake_at(room))
    return build


def _by_ratio(
    request: FeedRequest,
    m: Models,
    culture: Culture,
    temp_c: float,
    needed_g: float,
    ripe_min: float | None,
    start_min: float | None,
) -> Build:
    """A build whose three parts were named: the grams follow, only the hour is free."""
    assert request.ratio is not None
    seed, flour, water = request.ratio
    keep_g = request.keep_g or 0.0
    total = needed_g + keep_g
    unit = total / (seed + flour + water)
    if request.have_g is not None and seed * unit > request.have_g * 1.001:
        raise Refused(
            f"{total:.0f} g at {seed:g}:{flour:g}:{water:g} takes {seed * unit:.0f} g of seed, and the jar holds "
            f"{request.have_g:g} g",
            f"{request.have_g:g} g at that ratio makes {request.have_g * (seed + flour + water) / seed:.0f} g; "
            "more needs a larger feed",
        )
    amounts = (seed * unit, flour * unit, water * unit)
    fed_now = feeding(m.k, m.habits, culture, amounts, temp_c, 0.0)
    start = start_min or 0.0
    if start_min is None and ripe_min is not None:
        start = ripe_min - fed_now.ripe_min
        if start < -1:
            raise Refused(
                f"{seed:g}:{flour:g}:{water:g} takes about {hours_said(fed_now.ripe_min)} at "
                f"{degrees_said(temp_c)}, and there are {hours_said(max(0.0, ripe_min))}",
                "a smaller feed such as 1:1:1, a warmer place, or a later hour",
                {"ripe_in_min": fed_now.ripe_min},
            )
    one = feeding(m.k, m.habits, culture, amounts, temp_c, max(0.0, start) if start_min is None else start)
    left = None if request.have_g is None else request.have_g - amounts[0]
    return Build(needed_g, keep_g, (one,), left)


def _as_fed(request: FeedRequest, m: Models, culture: Culture, temp_c: float, room: Room) -> Build:
    """Grams of seed, flour and water as they were said."""
    assert request.flour_g is not None and request.water_g is not None
    if request.seed_g is None:
        raise Refused("how much seed went in was not said", "for example: 20 g starter, 100 g flour, 100 g water")
    amounts = (request.seed_g, request.flour_g, request.water_g)
    one = feeding(m.k, m.habits, culture, amounts, temp_c, fed_in_min(request.fed_at, room) or 0.0)
    return Build(sum(amounts) - (request.keep_g or 0.0), request.keep_g or 0.0, (one,), None)














