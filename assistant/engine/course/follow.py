"""A dough followed from its mixing to now: every place it lay in, every temperature and rise that was measured."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from datetime import datetime

from assistant.engine.course.air import Air
from assistant.engine.course.told import Account, Mark, Reading
from assistant.engine.fermentation import (
    Dough,
    State,
    advance,
    forecast,
    minutes_to,
    minutes_to_ripe,
    mixed,
    shaped,
    starter_dough,
)
from assistant.engine.plan.day import Day
from assistant.engine.temperature_path import Path, steady

BELIEVED = 3.0
"""A pace seen is believed from a third to this many times the reckoned one."""
_AT_ONCE_MIN = 25.0
"""A dough temperature told within this of the mixing is the one it was mixed to."""


@dataclass
class Follower:
    """A dough on its way, in minutes of the course's clock. `speed` scales every rate: what a measured rise said of it.

    history: the paths since the rise began to count, with the minute each began.
    """

    day: Day
    dough: Dough
    at: float
    state: State
    path: Path
    began: float
    speed: float = 1.0
    seen_pace: float | None = None
    in_pieces: bool = False
    measured: bool = False
    history: list[tuple[float, Path]] = field(default_factory=list)
    start: State | None = None

    def __post_init__(self) -> None:
        self.count_from_here()

    @property
    def temp_c(self) -> float:
        """Of the dough, at its minute."""
        return self.path.temp_c(self.at - self.began)

    def count_from_here(self) -> None:
        """From now on a rise counts from this minute."""
        self.start = self.state
        self.history = [(self.at, self.path)]

    def another(self) -> Follower:
        """The same dough going its own way from here, its rise counted from here."""
        return replace(self)

    def to(self, minute: float) -> None:
        """Let it ferment until a minute; never back."""
        if minute > self.at:
            k = self.day.trade.kinetics
            self.state = advance(k, self.dough, self.state, self.path, minute - self.at, self.speed)
            self.at = minute

    def lay(self, path: Path) -> None:
        """Into other air, or found to be of another temperature."""
        self.path, self.began = path, self.at
        self.state = self.state._replace(at_min=0.0)
        self.history.append((self.at, path))

    def shape(self, path: Path) -> None:
        """Shaped: the gas is out, the rise counts anew."""
        self.state = shaped(self.day.trade.kinetics, self.state)
        self.path, self.began, self.in_pieces = path, self.at, True
        self.count_from_here()

    def risen(self, rise_pct: float) -> None:
        """Measured now: as it stands at that rise, and going on between the reckoned pace and the one seen."""
        reckoned = self._reckoned(rise_pct)
        if reckoned is None:
            return
        self.measured = True
        there, state = reckoned
        gone = self.at - self.history[0][0]
        if gone >= 1 and there >= 1:
            pace = min(max(there / gone, 1 / BELIEVED), BELIEVED)
            self.seen_pace = pace
            self.speed = math.sqrt(pace)
        self.state = state._replace(at_min=self.at - self.began)

    def taken_as(self, rise_pct: float) -> None:
        """Cut or shaped, and its rise not measured: whoever did so saw it up, so it is taken as risen to there."""
        reckoned = self._reckoned(rise_pct)
        if reckoned is not None and not self.measured:
            self.state = reckoned[1]._replace(at_min=self.at - self.began)
        self.measured = True

    def _reckoned(self, rise_pct: float) -> tuple[float, State] | None:
        """Minutes from where the rise counts to this rise at the model's own pace, and the dough then."""
        k = self.day.trade.kinetics
        state = self.start or self.state
        for place, (began, path) in enumerate(self.history):
            state = state._replace(at_min=0.0) if place else state
            minutes = minutes_to(k, self.dough, path, rise_pct, state)
            until = self.history[place + 1][0] - began if place + 1 < len(self.history) else math.inf
            if minutes <= until:
                if not math.isfinite(minutes):
                    return None
                return began + minutes - self.history[0][0], advance(k, self.dough, state, path, minutes)
            state = advance(k, self.dough, state, path, until)
        return None

    def left(self, rise_pct: float, by: float = 1.0) -> float:
        """Minutes from here to a rise, `by` so many times as fast as it goes; inf if never."""
        k = self.day.trade.kinetics
        return minutes_to(k, self.dough, self.path, rise_pct, self.state, self.speed * by)

    def ripe_in(self, by: float = 1.0) -> float:
        """Minutes from here until a starter is ripe."""
        k = self.day.trade.kinetics
        return minutes_to_ripe(k, self.dough, self.path, self.state, self.speed * by)


def follow_dough(air: Air, account: Account, dough_c: float | None, stops: tuple[float, float], now: float) -> Follower:
    """The dough as it stands `now` (minutes of the clock).

    dough_c: as it was mixed where nothing was measured (None: as warm as the air); stops: the rises at which bulk and
    proof end. What was not told of its bulk is taken as the usual one at the air's warmth.
    """
    day = air.day
    dough = day.batch.dough
    minute = day.clock.minutes
    marks = [one for one in account.main if one.step != "feed_starter"]
    begun = next((one for one in marks if one.step in ("mix", "bulk")), None)
    first_c = None
    if begun is not None:
        last = max((one for one in marks if one.step in ("mix", "bulk")), key=lambda one: one.at)
        begun = last if last.step == "bulk" else begun
        at = minute(begun.at)
        early = [
            one.value for one in account.of("dough_c") if abs(minute(one.at) - at) <= _AT_ONCE_MIN
        ]  # fmt: skip
        first_c = early[0] if early else dough_c
        state = mixed(day.trade.kinetics, dough)
        follower = Follower(day, dough, at, state, air.path(at, first_c, day.tub_tau_h), at)
    else:
        follower = _from_the_middle(air, marks, account, stops, now)
        at = follower.at
    for event in _events(marks, account, at, day):
        follower.to(minute(event.at))
        if isinstance(event, Mark) and event.step in ("divide", "preshape", "shape") and not follower.in_pieces:
            follower.taken_as(stops[0])
        _befalls(follower, event, air)
    follower.to(now)
    return follower


def _from_the_middle(
    air: Air, marks: list[Mark], account: Account, stops: tuple[float, float], now: float
) -> Follower:
    """A dough whose mixing nobody told: in its bulk as of now, or with a usual bulk behind it."""
    day = air.day
    dough, k = day.batch.dough, day.trade.kinetics
    told = [one.at for one in marks[:1]] + [one.at for one in account.of("rise_pct")[:1]]
    at = min(day.clock.minutes(min(told)), now) if told else now
    state = mixed(k, dough)
    if marks:
        bulk_c = min(max(air.air_c(at), 20.0), 27.0)
        bulk = forecast(k, dough, steady(bulk_c), max(10.0, stops[0]))
        state = bulk.end if math.isfinite(bulk.minutes) else state
        cut = marks[0].step in ("divide", "preshape")
        state = state._replace(at_min=0.0) if cut else shaped(k, state)
    in_pieces = bool(marks) and marks[0].step not in ("divide", "preshape")
    path = air.path(at, None, day.piece_tau_h)
    follower = Follower(day, dough, at, state._replace(at_min=0.0), path, at, in_pieces=in_pieces)
    if marks and marks[0].step == "retard":
        follower.path = day.cold_path(path.dough_c, day.piece_tau_h)
        follower.count_from_here()
    return follower


def _events(marks: list[Mark], account: Account, at: float, day: Day) -> list[Mark | Reading]:
    """What befell the dough after its beginning, in order of time; of one minute the readings come first."""
    minute = day.clock.minutes
    readings = [one for one in account.readings if one.what in ("dough_c", "rise_pct")]
    events: list[Mark | Reading] = [one for one in marks if one.step not in ("mix", "bulk", "autolyse")]
    events += readings
    later = [one for one in events if minute(one.at) >= at]
    return sorted(later, key=lambda one: (one.at, isinstance(one, Mark)))


def _befalls(follower: Follower, event: Mark | Reading, air: Air) -> None:
    day = follower.day
    if isinstance(event, Reading):
        if event.what == "rise_pct":
            follower.risen(event.value)
        elif event.what == "dough_c" and follower.at > follower.history[0][0]:
            follower.lay(air.path(follower.at, event.value, day.tub_tau_h))
        return
    tau_h = day.piece_tau_h if follower.in_pieces else day.tub_tau_h
    if event.step == "shape":
        follower.shape(air.path(follower.at, follower.temp_c, day.piece_tau_h))
    elif event.step in ("divide", "preshape"):
        follower.lay(air.path(follower.at, follower.temp_c, day.bench_tau_h))
    elif event.step == "retard":
        follower.lay(day.cold_path(follower.temp_c, tau_h))
    elif event.step == "warm_up":
        follower.lay(air.path(follower.at, follower.temp_c, tau_h))


USUAL_RATIO = (1.0, 2.0, 2.0)


def follow_starter(air: Air, account: Account, fed: datetime, pace: float, now: float) -> Follower:
    """The starter fed then as it stands `now`: by its ratio, in the air it stands in."""
    day = air.day
    at = day.clock.minutes(fed)
    seed, flour, water = account.ratio or USUAL_RATIO
    dough = starter_dough(seed, flour, water, day.batch.dough.starter_hydration_pct, pace=pace)
    follower = Follower(day, dough, at, mixed(day.trade.kinetics, dough), air.path(at, None, 0.0), at)
    for one in account.of("starter_rise_pct", since=fed):
        follower.to(day.clock.minutes(one.at))
        follower.risen(one.value)
    follower.to(now)
    return follower
