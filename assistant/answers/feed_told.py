"""A build as it is answered: its fields, what was read, whether it can be used when it is wanted."""

from __future__ import annotations

from typing import Any

from assistant.answers.feed_hours import awake_at, fed_ahead, fed_in_min, minutes_to, ripe_hour
from assistant.answers.fermentation_models import Models
from assistant.engine.naming import figure, grams
from assistant.engine.starter import Build, Feeding
from assistant.talk.local_time import later
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.feed_page import FeedTold, feed_page
from assistant.voice.spans import clock_said, degrees_said, hours_said
from grammar.moments import resolve
from grammar.requests.feed import FeedRequest


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


def as_built(
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
    use_min = minutes_to(request.use_at, room)
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
        now=room.now, asleep=tuple(not awake_at(room)(one.start_min) for one in build.feedings),
        verdict=verdict[1] if verdict else None,
        assumed=assumed, as_fed=as_fed, ripe_asked=request.ripe_at is not None or request.ripe_in_min is not None,
    )  # fmt: skip
    parts = [f"starter build: {grams(build.needed_g)} g", degrees_said(temp_c)]
    if build.keep_g:
        parts.append(f"{grams(build.keep_g)} g kept back")
    if request.have_g is not None:
        parts.append(f"{grams(request.have_g)} g in the jar")
    fed_min = fed_in_min(request.fed_at, room)
    fed_at = f" at {clock_said(later(room.now, fed_min), room.now)}" if fed_min is not None else ""
    if request.ratio is not None:
        parts.append("fed " + ":".join(f"{part:g}" for part in request.ratio) + fed_at)
    elif request.flour_g is not None and request.seed_g is not None and request.water_g is not None:
        parts.append(f"fed {grams(request.seed_g)} g with {grams(request.flour_g)} g flour and "
                     f"{grams(request.water_g)} g water{fed_at}")
    elif fed_at:
        parts.append(f"fed{fed_at}")
    if request.ripe_in_min is not None:
        parts.append(f"ripe in {hours_said(request.ripe_in_min)}")
    if request.not_before is not None:
        parts.append("not fed before " + clock_said(resolve(request.not_before, room.now), room.now))
    if request.ripe_at is not None:
        fed = fed_ahead(minutes_to(request.fed_at, room), room) if request.ratio_asked else None
        parts.append("ripe by " + clock_said(ripe_hour(request.ripe_at, room, fed), room.now))
    if abs(target_pct - 100) > 0.5:
        parts.append(f"{figure(target_pct)} % hydration")
    return Outcome(
        "feed", fields, ", ".join((*parts, *request.degrees_said)), feed_page(told), assumed=assumed,
        sources=(m.records["sourdough_yeast_growth"].source, m.records["sourdough_gas"].source,
        m.records["starter_builds"].source),
    )  # fmt: skip


def seed_hydration(request: FeedRequest, room: Room) -> float:
    return request.seed_hydration_pct or float(room.setting("starter_hydration_pct") or 100.0)


def _flour(one: Feeding, request: FeedRequest, room: Room) -> float:
    return one.flour_g + one.seed_g / (1 + seed_hydration(request, room) / 100)


def _water(one: Feeding, request: FeedRequest, room: Room) -> float:
    return one.water_g + one.seed_g - one.seed_g / (1 + seed_hydration(request, room) / 100)


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
