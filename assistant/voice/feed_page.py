"""What a baker sees of a starter build: what to weigh, when to feed, when it is ripe."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assistant.engine.naming import grams
from assistant.engine.starter import Feeding
from assistant.talk.local_time import later
from assistant.voice.page import Line, Page
from assistant.voice.spans import clock_said, hours_said


@dataclass(frozen=True, slots=True)
class FeedTold:
    """A build as it is told. asleep: whether each feed falls in the night; as_fed: the feed was already made."""

    fields: Mapping[str, Any]
    feedings: tuple[Feeding, ...]
    needed_g: float
    keep_g: float
    left_g: float | None
    now: datetime
    asleep: tuple[bool, ...]
    verdict: str | None
    assumed: tuple[str, ...]
    as_fed: bool
    ripe_asked: bool


def ratio_said(one: Feeding) -> str:
    """A ratio as bakers say it: "1:5:5", "1:2:0.75"."""
    return ":".join(f"{round(part, 1 if part >= 3 else 2):g}" for part in one.ratio)


def feed_page(told: FeedTold) -> Page:
    """The page of a build; when it is past its best and how to tell waits for "more" where there is no room."""
    blocks: list[Line] = []
    if told.verdict:
        blocks.append(Line(told.verdict, role="head"))
    count = len(told.feedings)

    def at(minutes: float) -> str:
        return clock_said(later(told.now, minutes), told.now)

    for n, one in enumerate(told.feedings):
        name = f"Feed {n + 1}, " if count > 1 else ""
        when = "now" if abs(one.start_min) < 8 else at(one.start_min)
        fed = "Fed" if told.as_fed else f"{name}{when}: feed".capitalize() if not name else f"{name}{when}: feed"
        blocks.append(
            Line(
                f"{fed} {ratio_said(one)} = {grams(one.seed_g)} g starter + {grams(one.flour_g)} g flour + "
                f"{grams(one.water_g)} g water.",
                role="plain" if told.verdict else "head",
            )
        )
        takes = one.ripe_min - one.start_min
        blocks.append(
            Line(
                f"Ripe about {at(one.ripe_min)} ({hours_said(takes)} at {one.temp_c:g} °C; "
                f"{hours_said(one.low_min)} to "
                f"{hours_said(one.high_min)}), at its best until {at(one.past_min)}."
            )
        )
    if any(told.asleep) and not told.as_fed:
        blocks.append(
            Line("That feed falls in the night: a cooler place or a larger feed moves it to the evening.", role="warn")
        )
    use = f"{grams(told.needed_g)} g to use"
    if told.keep_g:
        use += f", {grams(told.keep_g)} g to keep"
    elif told.left_g is not None and told.left_g >= 1:
        use += f"; {grams(told.left_g)} g stays in the jar to carry on with"
    blocks.append(Line(use + "."))
    if told.assumed:
        blocks.append(Line("Assumed: " + "; ".join(told.assumed) + ".", role="note"))
    blocks.append(
        Line("Ripe: the top has just stopped rising, domed or beginning to sink; it smells fresh and sour.", more=True)
    )
    return Page(tuple(blocks))
