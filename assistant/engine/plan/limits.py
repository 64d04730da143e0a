"""What a plan has to keep: taken hours, the starter's ripeness, warm time, and the window it is to be ready in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from assistant.engine.plan.aside import NOTHING, Asides, Made
from assistant.engine.plan.asked import EARLIEST_MIN, Wish
from assistant.engine.plan.blocks import Block
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.day import GRID_MIN, Day
from assistant.engine.plan.feeding import USUAL_RATIO, Feed, Feeding, keeps_min
from assistant.engine.plan.fridge import fridge_share
from assistant.engine.plan.shared import ALONE, Oven, Shared
from assistant.engine.plan.steps import Move

WARM_AIM_MIN, WARM_MOST_MIN = 240, 360
"""Egg and milk doughs: out of the fridge for at most 4 h where any lever can, never above 6."""

RIPE_KEEPS_MIN = 90
"""A starter said to be ripe is used within this."""

QUARTER_MIN = 15
SOONER_MIN = 6 * 60
"""Bread that shares the oven is ready at most so much before the hour of all."""
_STALE_AS_A_MOVE_MIN = 120.0
"""So many minutes too early are as bad as one choice moved."""
_OWN_FEED = 0.5
_ABOUT_MIN = 20
"""Begun within this of the minute said is begun then."""
_FEED_MIN = 5.0


Merit = tuple[float, float, float]
"""Minutes too warm, minutes of hands in the night, choices moved."""
ANY_MERIT: Merit = (math.inf, math.inf, math.inf)


class Place(NamedTuple):
    """A rough place: sort key, front start, back start, cold minutes, ready, front variant, feed, moves by the feed."""

    key: tuple[float, ...]
    front_at: int
    back_at: int
    ready: int
    variant: int
    feed: Feed | None
    moves: tuple[Move, ...]


@dataclass(frozen=True)
class Window:
    """Ready times that will do, the best first, and their bounds; with `wished`, nearness to it comes first."""

    readies: tuple[int, ...]
    last: int
    first: int
    wished: int | None = None
    beside: bool = False

    @classmethod
    def shared(cls, deadline: int) -> Window:
        """For bread that has the oven after others or before them: at the hour, else sooner, the later the better."""
        readies = [
            *range(deadline, deadline - EARLIEST_MIN - 1, -GRID_MIN),
            *range(deadline - EARLIEST_MIN - QUARTER_MIN, deadline - SOONER_MIN - 1, -QUARTER_MIN),
        ]
        return cls(tuple(ready for ready in readies if ready > 0), deadline, max(1, deadline - SOONER_MIN), beside=True)

    def stale(self, ready: int) -> float:
        """How much bread that waits for others costs, in moves; 0 for bread of its own."""
        return max(0, self.last - EARLIEST_MIN - ready) / _STALE_AS_A_MOVE_MIN if self.beside else 0.0

    @classmethod
    def by(cls, deadline: int) -> Window:
        """At the hour or at most 45 min before."""
        return cls(tuple(range(deadline, deadline - EARLIEST_MIN - 1, -GRID_MIN)), deadline, deadline - EARLIEST_MIN)

    @classmethod
    def rested(cls, deadline: int, day_min: int = 24 * 60) -> Window:
        """For bread that rests: it may be done resting up to a day before, and then rests on."""
        readies = [*range(deadline, deadline - EARLIEST_MIN, -GRID_MIN), *range(deadline - 45, deadline - day_min, -15)]
        return cls(tuple(ready for ready in readies if ready > 0), deadline, max(1, deadline - day_min))

    def off(self, ready: int) -> float:
        """Minutes from the hour wished, where that is what counts; else 0."""
        return 0.0 if self.wished is None else float(abs(ready - self.wished))


@dataclass(frozen=True)
class Limits:
    """The limits of one wish on one day. earliest: minute from now before which nothing of the dough may begin."""

    day: Day
    wish: Wish
    busy: Spans
    nights: Spans
    feeding: Feeding
    asides: Asides
    earliest: int
    shared: Shared = ALONE
    _feeds: dict[int, tuple[Feed | None, tuple[Move, ...]] | None] = field(default_factory=dict)

    def hours(self) -> tuple[int, int, float]:
        """Hours in the cold: least, most, usual; about the said length where one was said."""
        process = self.day.batch.process
        if self.wish.cold_h is not None:
            return max(1, int(self.wish.cold_h - 0.75)), int(self.wish.cold_h + 1.25), self.wish.cold_h
        return int(process.retard_low_h), int(process.retard_high_h), process.retard_usual_h

    def forward_mixes(self) -> Iterator[tuple[int, Feed | None, tuple[Move, ...]]]:
        """Minutes at which the dough may be mixed when it is to be ready as soon as it can, soonest first."""
        exact = self.wish.start_exact
        if self.day.batch.asides:
            yield from self._after_asides()
            return
        horizon = self.earliest + (GRID_MIN if exact else 20 * 60)
        if self.needs_feed() and not (exact and self.wish.starter == "either"):
            for feed in self.feeding.soonest(self.earliest):
                moves = _feed_moves(feed)
                for hold in range(0, 61, QUARTER_MIN):
                    yield feed.ripe + hold, feed, moves
            if exact:
                return
        for at in range(self.earliest, horizon, QUARTER_MIN):
            fed = self.fed(at)
            if fed is not None:
                yield at, *fed

    def _after_asides(self) -> Iterator[tuple[int, Feed | None, tuple[Move, ...]]]:
        """Mixes of a dough with something made before it, soonest first."""
        soonest = self.earliest + self.asides.least_min()
        soonest += -soonest % GRID_MIN
        for at in range(soonest, soonest + 36 * 60, QUARTER_MIN):
            fed = self.fed(at)
            if fed is not None:
                yield at, *fed

    def made(self, mix: int) -> Made:
        """What is made before a mix at that minute (which `fed` has found to be possible)."""
        return self.asides.before(mix, self.earliest) or NOTHING

    def autolyse_min(self) -> int:
        asked = self.wish.autolyse_min
        return int(self.day.batch.process.autolyse_min if asked is None else asked)

    @property
    def begins_then(self) -> bool:
        """True where both the hour of the first step and the hour of being ready were said."""
        return self.wish.start_exact and self.wish.ready_by is not None

    def start_merit(self, at: int) -> float:
        """Less is better: the latest start, or the one nearest to the hour said."""
        return float(at if self.begins_then else -at)

    def can(self, block: Block, at: int) -> bool:
        """True where a block begun at `at` keeps the taken hours and finds hands, pot and oven free."""
        if at + min(0, block.earliest) < 0 or at < self.earliest or not block.free(at, self.busy):
            return False
        return self.shared.alone or self.shared.takes(block.tasks, at, self.oven)

    @property
    def oven(self) -> Oven:
        """The oven, for this bread."""
        return Oven.of(self.day.kitchen, self.day.trade.work)

    def chills(self, where: str, start: float, end: float) -> bool:
        """True where the fridge has room for the dough all the while."""
        share = fridge_share(self.day.batch, self.day.kitchen, where)
        return share == 0.0 or self.shared.fridge_takes(start, end, share)

    def begun(self, front_at: int, feed: Feed | None) -> bool:
        """True unless the first step was said to be now (or at an hour) and would be begun later than about then."""
        first = min(front_at if feed is None else feed.begins, self.made(front_at).first)
        return not self.begins_then or first <= self.earliest + _ABOUT_MIN

    def feed_night(self, feed: Feed | None, mix: int) -> float:
        """Minutes of hands in the night that the feed and what else is made before the mix cost."""
        feeds = () if feed is None else (feed,) if feed.seed is None else (feed, feed.seed)
        fed = sum(_FEED_MIN for one in feeds if self.nights.touches(one.at, one.at + 1))
        return fed + self.made(mix).night_min

    def more_feeds(self, feed: Feed | None, mix: int) -> float:
        """What a starter or a poolish made for this dough alone costs, in moves, where one is being made already."""
        built = [other for other, _ in self.shared.feeds]
        own = _OWN_FEED if feed is not None and built and feed not in built else 0.0
        return own + _OWN_FEED * self.asides.anew(self.made(mix))

    def warm_over(self, warm_min: float) -> float:
        return max(0.0, warm_min - WARM_AIM_MIN) if self.day.batch.perishable else 0.0

    def too_warm(self, warm_min: float) -> bool:
        return self.day.batch.perishable and warm_min > WARM_MOST_MIN

    def needs_feed(self) -> bool:
        return self.day.batch.sourdough and self.wish.starter != "ripe"

    def fed(self, mix: int) -> tuple[Feed | None, tuple[Move, ...]] | None:
        """The feed a mix at that minute needs and the moves it costs; None if the starter cannot be ripe then."""
        if mix in self._feeds:
            return self._feeds[mix]
        found = self._fed_anew(mix)
        made = None if found is None else self.asides.before(mix, self.earliest)
        both = None if found is None or made is None else (found[0], (*found[1], *made.moves))
        self._feeds[mix] = both
        return both

    def _fed_anew(self, mix: int) -> tuple[Feed | None, tuple[Move, ...]] | None:
        if not self.day.batch.sourdough:
            return None, ()
        if self.wish.starter == "ripe":
            if self.wish.ripe_at is None:
                return None, ()
            ripe = int(self.day.clock.minutes(self.wish.ripe_at))
            if ripe - 1 <= mix <= ripe + RIPE_KEEPS_MIN:
                return None, ()
            if mix < ripe:
                return None
        if self.wish.starter == "either" and self.wish.start_exact:
            return None, (Move("ripe", "fed first", "ripe at the mix", 0.0),)
        keeps = keeps_min(self.day.air_c(mix))
        built = self.shared.feed_for(mix, self.day.batch.dough.starter_hydration_pct, keeps)
        if built is not None:
            return built, _feed_moves(built)
        feed = self.feeding.before(mix, self.earliest)
        if feed is not None:
            return feed, _feed_moves(feed)
        if self.wish.starter == "either" and mix <= 12 * 60:
            return None, (Move("ripe", "fed first", "ripe at the mix", 1.0),)
        return None


def size_of(moves: tuple[Move, ...]) -> float:
    return sum(move.size for move in moves)


def _feed_moves(feed: Feed) -> tuple[Move, ...]:
    if feed.ratio == USUAL_RATIO:
        return ()
    return (Move("feed", USUAL_RATIO, feed.ratio, abs(feed.ratio - USUAL_RATIO) / 8),)
