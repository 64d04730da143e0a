"""Starter builds, the pace of a culture, keeping it while away, little discard."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from assistant.answers import answers
from assistant.answers.fermenting import Models, formula_in_hand, models
from assistant.answers.learned import pace_of
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from assistant.engine.starter import Build, Culture, Feeding, feeding, pace_of_culture
from assistant.engine.starter_plan import Wish, plan_build
from assistant.talk.local_time import later, minutes_until
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.feed_page import FeedTold, feed_page
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, degrees_said, hours_said
from grammar.moments import Moment, resolve
from grammar.requests.feed import FeedRequest
from grammar.requests.feed_care import AwayRequest, DiscardRequest, PaceRequest
from knowledge.records.starter_care import StarterCare

UP_MIN, DOWN_MIN = 6 * 60 + 30, 23 * 60
"""Nobody feeds a starter outside these minutes of the day unless they say so."""
STIFF_PCT = 50.0
SOONEST_MIN = 120.0
"""No feed ripens sooner: a clock time nearer than this, no day said, is the next day's."""
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
    return _outcome(request, room, m, build, temp_c, target_pct, (*assumed, *request.degrees_said), feeding_said)


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
    if own_pct is None:
        own_pct = 100.0
        said.append("starter in the jar at 100 % hydration")
    pace = pace_of(room)
    culture = Culture(own_pct, pace.value, pace.count > 0, request.cold)
    if request.cold:
        said.append("seed straight from the fridge: 1 to 3 h until it gets going")
    return culture, target if target is not None else own_pct, tuple(said)


def _minutes(moment: Moment | None, room: Room, after: datetime | None = None) -> float | None:
    if moment is None:
        return None
    return minutes_until(room.now, resolve(moment, room.now, after))


def _ripe_by(moment: Moment, room: Room, fed: datetime | None = None) -> datetime:
    """The hour a starter is wanted: as said, the next of its kind after the feed, a day later where no feed could reach
    it."""
    at = resolve(moment, room.now, fed)
    near = (at - room.now).total_seconds() / 60 < SOONEST_MIN
    return at + timedelta(days=1) if near and moment.day is None else at


def _fed_min(moment: Moment | None, room: Room) -> float | None:
    """Minutes from now of a feed that was said; one told of as gone by lies behind, "fed at 8" by twelve hours."""
    minutes = _minutes(moment, room)
    told = re.search(r"(?<!if )(?<!if i )(?<!if it is )\b(fed|refreshed)\b", room.text, re.I) is not None
    if minutes is None or moment is None or not told or moment.day is not None or moment.in_min is not None:
        return minutes
    on_dial = moment.half is None and moment.part is None and moment.minute is not None and moment.minute < 13 * 60
    if on_dial and minutes > 0:
        return minutes - 12 * 60
    return minutes - 24 * 60 if minutes > 12 * 60 else minutes


def _ahead(fed_min: float | None, room: Room) -> datetime | None:
    """The hour of a feed that is still to come: what it ripens by comes after it."""
    return room.now + timedelta(minutes=fed_min) if fed_min is not None and fed_min > 0 else None


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
        fed_min = _minutes(request.fed_at, room) if request.ratio_asked else _fed_min(request.fed_at, room)
    ripe_min = _minutes(request.ripe_at, room, _ahead(fed_min, room))
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
    return plan_build(m.k, m.habits, culture, wish, _awake(room))


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
    one = feeding(m.k, m.habits, culture, amounts, temp_c, _fed_min(request.fed_at, room) or 0.0)
    return Build(sum(amounts) - (request.keep_g or 0.0), request.keep_g or 0.0, (one,), None)


def _awake(room: Room) -> Callable[[float], bool]:
    begins = room.now.hour * 60 + room.now.minute

    def awake(minutes: float) -> bool:
        return minutes < 30 or UP_MIN <= (begins + minutes) % 1440 <= DOWN_MIN

    return awake


def _stage(one: Feeding, needed_g: float, keep_g: float, room: Room) -> dict[str, Any]:
    parts = tuple(round(part, 2) for part in one.ratio)

    def at(minutes: float) -> str:
        return later(room.now, minutes).isoformat(timespec="minutes")

    return {
        "g_needed": needed_g,
        "keep_g": keep_g,
        "ratio": list(parts),
        "seed_g": one.seed_g,
        "flour_g": one.flour_g,
        "water_g": one.water_g,
        "start_at": at(one.start_min),
        "ripe_at": at(one.ripe_min),
        "good_until": at(one.past_min),
        "low_min": one.low_min,
        "high_min": one.high_min,
        "minutes": one.ripe_min - one.start_min,
        "temp_c": one.temp_c,
    }


def _outcome(
    request: FeedRequest,
    room: Room,
    m: Models,
    build: Build,
    temp_c: float,
    target_pct: float,
    assumed: tuple[str, ...],
    as_fed: bool,
) -> Outcome:
    last = build.feedings[-1]
    fields = _stage(last, build.needed_g, build.keep_g, room)
    fields["hydration_pct"] = round(100 * _water(last, request, room) / _flour(last, request, room), 2)
    if len(build.feedings) > 1:
        stages = []
        for n, one in enumerate(build.feedings):
            needed = build.feedings[n + 1].seed_g if n + 1 < len(build.feedings) else build.needed_g
            stages.append(_stage(one, needed, build.keep_g if one is last else 0.0, room))
        fields["stages"] = stages
        fields["start_at"] = stages[0]["start_at"]
    use_min = _minutes(request.use_at, room)
    if use_min is None and request.use_after_min is not None:
        use_min = last.start_min + request.use_after_min
    verdict = None
    if use_min is not None:
        verdict = _usable(last, use_min, room)
        fields["use_at"] = later(room.now, use_min).isoformat(timespec="minutes")
        fields["usable"] = verdict[0]
    told = FeedTold(
        fields=fields, feedings=build.feedings, needed_g=build.needed_g, keep_g=build.keep_g,
        left_g=build.left_in_jar_g,
        now=room.now, asleep=tuple(not _awake(room)(one.start_min) for one in build.feedings),
        verdict=verdict[1] if verdict else None,
        assumed=assumed, as_fed=as_fed, ripe_asked=request.ripe_at is not None or request.ripe_in_min is not None,
    )  # fmt: skip
    parts = [f"starter build: {grams(build.needed_g)} g", degrees_said(temp_c)]
    if build.keep_g:
        parts.append(f"{grams(build.keep_g)} g kept back")
    if request.have_g is not None:
        parts.append(f"{grams(request.have_g)} g in the jar")
    if request.ratio is not None:
        parts.append("fed " + ":".join(f"{part:g}" for part in request.ratio))
    if request.ripe_in_min is not None:
        parts.append(f"ripe in {hours_said(request.ripe_in_min)}")
    if request.ripe_at is not None:
        fed = _ahead(_minutes(request.fed_at, room), room) if request.ratio_asked else None
        parts.append("ripe by " + clock_said(_ripe_by(request.ripe_at, room, fed), room.now))
    if abs(target_pct - 100) > 0.5:
        parts.append(f"{figure(target_pct)} % hydration")
    return Outcome(
        "feed", fields, ", ".join((*parts, *request.degrees_said)), feed_page(told), assumed=assumed,
        sources=(m.records["sourdough_yeast_growth"].source, m.records["sourdough_gas"].source,
        m.records["starter_builds"].source),
    )  # fmt: skip


def _seed_pct(request: FeedRequest, room: Room) -> float:
    return request.seed_hydration_pct or float(room.setting("starter_hydration_pct") or 100.0)


def _flour(one: Feeding, request: FeedRequest, room: Room) -> float:
    return one.flour_g + one.seed_g / (1 + _seed_pct(request, room) / 100)


def _water(one: Feeding, request: FeedRequest, room: Room) -> float:
    return one.water_g + one.seed_g - one.seed_g / (1 + _seed_pct(request, room) / 100)


def _usable(one: Feeding, use_min: float, room: Room) -> tuple[str, str]:
    """Whether a starter can be used at a time: before, at, or after its best."""
    at = clock_said(later(room.now, use_min), room.now)
    ripe = clock_said(later(room.now, one.ripe_min), room.now)
    past = clock_said(later(room.now, one.past_min), room.now)
    early = (one.ripe_min - one.start_min) * 0.15
    if use_min < one.ripe_min - early:
        return "not yet", f"Not yet at {at}: it is ripe about {ripe}. Used young it works, only slower and milder."
    if use_min > one.past_min + 120:
        return (
            "past",
            f"At {at} it is well past its best ({ripe} to {past}): it still raises dough, sourer; better a fresh "
            "feed of 1:1:1.",
        )
    if use_min > one.past_min:
        return "just past", f"At {at} it is just past its best ({ripe} to {past}): usable, a little sourer."
    return "yes", f"Yes, at {at} it is ready: ripe about {ripe}, at its best until {past}."


@answers(PaceRequest)
def pace(request: PaceRequest, room: Room) -> Outcome:
    """The culture's own pace, kept as a setting; every forecast then goes by it with a narrower range."""
    m = models(room.kb)
    temp_c = request.temp_c if request.temp_c is not None else room.kitchen_c
    ratio = request.ratio or (1.0, 1.0, 1.0)
    assumed = tuple(
        word
        for word, said in ((f"kitchen {degrees_said(temp_c)}", request.temp_c), ("a feed of 1:1:1", request.ratio))
        if said is None
    )
    setting = room.setting("starter_hydration_pct")
    culture = Culture(hydration_pct=float(setting) if setting is not None else 100.0)
    value = round(pace_of_culture(m.k, m.habits, culture, ratio, temp_c, request.minutes, request.rise_pct), 3)
    seen = "peaked" if request.rise_pct is None else f"rose by {request.rise_pct:.0f} %"
    quick = f"{abs(value - 1) * 100:.0f} % {'faster' if value >= 1 else 'slower'} than the usual one"
    parts = ":".join(f"{part:g}" for part in ratio)
    text = (
        f"Kept: your culture is {quick} ({parts} {seen} after {hours_said(request.minutes)} at "
        f"{degrees_said(temp_c)}). Times go by it from now on, with a narrower range."
    )
    blocks = [Line(text)]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    return Outcome(
        "setting", {"name": "culture_pace", "value": value},
        f"the starter fed {parts} {seen} after {hours_said(request.minutes)} at {degrees_said(temp_c)}",
        Page(tuple(blocks)), assumed=assumed, bench=room.bench.with_settings({"culture_pace": value}, room.stamp()),
        change={"what": "setting", "names": ["culture_pace"], "values": [value]},
        sources=(m.records["culture_pace"].source,),
    )  # fmt: skip


@answers(AwayRequest)
def away(request: AwayRequest, room: Room) -> Outcome:
    """How to keep the starter for so long."""
    days = request.minutes / 1440 if request.minutes is not None else 14.0
    ways = sorted(
        (one for one in room.kb.all(StarterCare).values() if one.up_to_days is not None),
        key=lambda one: one.up_to_days or math.inf,
    )
    chosen = next((one for one in ways if (one.up_to_days or 0) >= days), ways[-1])
    length = f"{days / 7:.0f} weeks" if days >= 14 else f"{days:.0f} days"
    return _care(
        chosen,
        f"Away {length}: the fridge" if chosen.id != "months" else f"Away {length}: dry it",
        f"keep the starter for {length}",
    )


@answers(DiscardRequest)
def discard(request: DiscardRequest, room: Room) -> Outcome:
    """How to throw little away."""
    if request.often:
        return _care(room.kb.all(StarterCare)["how_often"], "Feeding, how often", "how often to feed the starter")
    return _care(room.kb.all(StarterCare)["little_discard"], "Little discard", "how to make less discard")


def _care(care: StarterCare, title: str, read_as: str) -> Outcome:
    blocks = (
        Line(f"{title}.", role="head"),
        *(Line(f"{n}. {step[0].upper()}{step[1:]}.") for n, step in enumerate(care.steps, 1)),
    )
    text = " ".join(f"{step[0].upper()}{step[1:]}." for step in care.steps)
    return Outcome(
        "explanation", {"topic": care.title, "text": f"{title}. {text}"}, read_as, Page(blocks), sources=(care.source,),
        cautions=("Mould, or pink, orange or red streaks: throw it all out and start anew.",),
    )  # fmt: skip
