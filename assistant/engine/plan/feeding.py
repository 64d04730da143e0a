"""The starter before the mix: fed so that it is ripe when it is wanted."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from assistant.engine.fermentation import minutes_to_ripe, starter_dough
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.day import GRID_MIN, Day, up

USUAL_RATIO = 2.0
RATIOS = (2.0, 3.0, 1.0, 4.0, 5.0, 7.0, 10.0)
"""Flour (and as much water) for one part of seed, the usual first."""

HOLDS_MIN = (0, 15, 30, 45, 60)
"""Minutes the ripe starter may wait for the mix."""

JAR = 1.1
"""A feed makes a tenth more than the dough takes: some stays in the jar."""

_KEEPS_MIN, _WARM_KEEPS_MIN = 60, 30
"""A ripe starter keeps its strength so long; half of it in a warm kitchen."""
_WARM_C = 26.0


def keeps_min(air_c: float) -> int:
    """Minutes a ripe starter keeps its strength."""
    return _WARM_KEEPS_MIN if air_c >= _WARM_C else _KEEPS_MIN


@dataclass(frozen=True, slots=True)
class Feed:
    """Fed at `at` (minutes from now), ripe at `ripe`, 1 : ratio : as much water as its hydration says; `seed` is the
    feed before it, which makes what it is fed from."""

    at: int
    ripe: int
    ratio: float
    seed: Feed | None = None

    @property
    def begins(self) -> int:
        """Minutes from now to the first feed."""
        return self.at if self.seed is None else self.seed.at


@dataclass(frozen=True)
class Feeding:
    """Finds the feed for a mix at any minute; remembers how long each ratio takes."""

    day: Day
    busy: Spans
    nights: Spans
    ratios: tuple[float, ...] = RATIOS
    multiply: float = 1.0
    """How many times the starter in the jar has to become; where one feed does not do it, two do."""
    _ripe: dict[tuple[float, int], int | None] = field(default_factory=dict)

    def ripe_min(self, ratio: float, at: int) -> int | None:
        """Minutes from feeding to ripe, on the grid; None if never."""
        key = (ratio, 0 if self.day.steady else at // 30)
        if key not in self._ripe:
            leaven = self.day.batch.dough
            water = ratio * leaven.starter_hydration_pct / 100
            dough = starter_dough(1.0, ratio, water, leaven.starter_hydration_pct, pace=leaven.pace)
            path = self.day.path(at, self.day.air_c(at), 0.0)
            minutes = minutes_to_ripe(self.day.trade.kinetics, dough, path)
            self._ripe[key] = up(minutes) if math.isfinite(minutes) else None
        return self._ripe[key]

    def makes(self, ratio: float) -> float:
        """Times its seed that a feed becomes."""
        return 1 + ratio + ratio * self.day.batch.dough.starter_hydration_pct / 100

    def enough(self, feed: Feed | None, share: float) -> bool:
        """Whether what is in the jar becomes enough by these feeds; share: of the starter the dough usually takes."""
        made = 1.0
        while feed is not None:
            made, feed = made * self.makes(feed.ratio), feed.seed
        return made >= self.multiply * share - 1e-9

    def before(self, mix: int, earliest: int = 0) -> Feed | None:
        """The feed for a mix at that minute: by day, with the usual ratio, where that can be; None if none can.

        Where the jar holds too little for one feed, the feed before it too.
        """
        if self.multiply > max(self.makes(ratio) for ratio in self.ratios):
            return self._twice(mix, earliest)
        return self._once(mix, earliest)

    def _twice(self, mix: int, earliest: int) -> Feed | None:
        last = replace(self, multiply=1.0)._once(mix, earliest)
        if last is None:
            return None
        need = self.multiply / self.makes(last.ratio)
        seed = replace(self, ratios=RATIOS, multiply=need)._once(last.at, earliest)
        return None if seed is None else replace(last, seed=seed)

    def _once(self, mix: int, earliest: int) -> Feed | None:
        return self._before(mix, earliest, self.nights) or self._before(mix, earliest, None)

    def _before(self, mix: int, earliest: int, shunned: Spans | None) -> Feed | None:
        longest = keeps_min(self.day.air_c(mix))
        for ratio in self.ratios:
            first = self.ripe_min(ratio, mix)
            if first is None or self.makes(ratio) < self.multiply:
                continue
            for hold in HOLDS_MIN:
                if hold > longest:
                    break
                at = mix - hold - first
                minutes = first
                if not self.day.steady:
                    minutes = self.ripe_min(ratio, at) or first
                    at = mix - hold - minutes
                if at < earliest or self.busy.touches(at, at + 1):
                    continue
                if shunned is None or not shunned.touches(at, at + 1):
                    return Feed(at, at + minutes, ratio)
        return None

    def soonest(self, at: int) -> list[Feed]:
        """Feeds given at `at` or as soon after as somebody is there, by ratio."""
        while self.busy.touches(at, at + 1):
            at += GRID_MIN
        feeds = []
        for ratio in self.ratios:
            minutes = self.ripe_min(ratio, at)
            if minutes is not None and self.makes(ratio) >= self.multiply:
                feeds.append(Feed(at, at + minutes, ratio))
        return feeds
