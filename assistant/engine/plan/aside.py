"""What is made before the mix, scheduled back from it: a poolish or biga until it is ripe, a soaker, a scald.

What ferments is begun so that it is ripe at the mix or a little before; where nobody is there then, it ripens sooner
and waits in the fridge, or its yeast is changed. What only stands is made about its usual hours before.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from assistant.engine.fermentation import minutes_to
from assistant.engine.plan.asked import Aside
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.day import GRID_MIN, Day, up
from assistant.engine.plan.steps import Move, Task

RAISES, STANDS = "feed_starter", "autolyse"
"""The step that each kind is: a build that ripens, flour or grain that rests in water."""
COLD_NOTE = "ripe then; into the fridge until the mix"
_STEP_MIN = 15
_YEAST_SHARES = (2.0, 0.5, 4.0, 0.25)
"""Other amounts of its yeast, against the usual one, that still make the same preferment."""
_HANDS_MIN = 5.0
"""Minutes of hands that one costs in the night."""


@dataclass(frozen=True, slots=True)
class Made:
    """What was found for one mix: the tasks, the moves they cost, the hands they take in the night."""

    tasks: tuple[Task, ...] = ()
    moves: tuple[Move, ...] = ()
    night_min: float = 0.0

    @property
    def first(self) -> float:
        """Minutes from now to the first of them; inf where there is none."""
        return min((task.at for task in self.tasks), default=math.inf)


NOTHING = Made()


@dataclass(frozen=True)
class Asides:
    """Finds when each thing is made for a mix at any minute. built: those made already for other doughs."""

    day: Day
    busy: Spans
    nights: Spans
    built: tuple[tuple[Task, float], ...] = ()
    _ripe: dict[tuple[str, float, int], int | None] = field(default_factory=dict)
    _made: dict[tuple[int, int], Made | None] = field(default_factory=dict)

    def before(self, mix: int, earliest: int = 0) -> Made | None:
        """Everything made for a mix at that minute; None where something cannot be."""
        asides = self.day.batch.asides
        if not asides:
            return NOTHING
        key = mix, earliest
        if key not in self._made:
            found = [self._one(aside, mix, earliest) for aside in asides]
            done = [one for one in found if one is not None]
            self._made[key] = _all_of(done) if len(done) == len(asides) else None
        return self._made[key]

    def anew(self, made: Made) -> int:
        """How many of the things made are being made already for another dough."""
        items, tasks = {task.item for task, _ in self.built}, {task for task, _ in self.built}
        return sum(task.item in items and task not in tasks for task in made.tasks)

    def least_min(self) -> int:
        """Minutes that the slowest of them takes at the least."""
        return max((self._least(aside) for aside in self.day.batch.asides), default=0)

    def _least(self, aside: Aside) -> int:
        if aside.dough is None:
            return round(aside.low_h * 60)
        ripe = [self._ripe_min(aside, share, 0) for share in (1.0, *_YEAST_SHARES)]
        return min((minutes for minutes in ripe if minutes is not None), default=0)

    def _one(self, aside: Aside, mix: int, earliest: int) -> Made | None:
        shared = self._already(aside, mix)
        if shared is not None:
            return Made((shared,))
        for shunned in (self.nights, None):
            for task in self._candidates(aside, mix):
                begun, cold = task.at, task.note == COLD_NOTE
                moments = (begun, task.end) if cold else (begun,)
                if begun < earliest or any(self.busy.touches(at, at + 1) for at in moments):
                    continue
                if shunned is not None and any(shunned.touches(at, at + 1) for at in moments):
                    continue
                night = sum(_HANDS_MIN for at in moments if self.nights.touches(at, at + 1))
                return Made((task,), _moves(aside, task), night)
        return None

    def _already(self, aside: Aside, mix: int) -> Task | None:
        """The same thing made for another dough, there and still good at that minute."""
        for task, share in self.built:
            keeps = (aside.keeps_cold_h if task.note == COLD_NOTE else aside.keeps_h) * 60
            if task.item == aside.item and share == make_up(aside):
                if aside.dough is None:
                    if aside.low_h * 60 <= mix - task.at <= aside.high_h * 60:
                        return task
                elif task.end <= mix <= task.end + keeps:
                    return task
        return None

    def _candidates(self, aside: Aside, mix: int) -> Iterator[Task]:
        if aside.dough is None:
            lengths = range(round(aside.low_h * 60), round(aside.high_h * 60) + 1, _STEP_MIN)
            for minutes in sorted(lengths, key=lambda one: abs(one - aside.usual_h * 60)):
                at = mix - minutes
                yield Task(STANDS, at, minutes, self.day.air_c(at), item=aside.item)
            return
        for share in (1.0, *_YEAST_SHARES):
            yield from self._waiting(aside, mix, share, 0, aside.keeps_h, "")
            if share == 1.0:
                yield from self._waiting(aside, mix, share, aside.keeps_h, aside.keeps_cold_h, COLD_NOTE)

    def _waiting(
        self, aside: Aside, mix: int, share: float, least_h: float, most_h: float, note: str
    ) -> Iterator[Task]:
        """Ripe so long before the mix, the shortest wait first."""
        first = self._ripe_min(aside, share, mix)
        if first is None:
            return
        for wait in range(round(least_h * 60), round(most_h * 60) + 1, _STEP_MIN):
            at = mix - wait - first
            minutes = first
            if not self.day.steady:
                minutes = self._ripe_min(aside, share, at) or first
                at = mix - wait - minutes
            yield Task(RAISES, at, minutes, self.day.air_c(at), rise_pct=aside.rise_pct, ratio=share, note=note,
                       item=aside.item)  # fmt: skip

    def _ripe_min(self, aside: Aside, share: float, at: int) -> int | None:
        """Minutes until it is ripe, begun about then, on the grid; None if never."""
        key = aside.item, share, 0 if self.day.steady else at // 30
        if key not in self._ripe and aside.dough is not None:
            dough = replace(aside.dough, yeast_fresh_pct=aside.dough.yeast_fresh_pct * share)
            path = self.day.path(at, self.day.air_c(at), 0.0)
            minutes = minutes_to(self.day.trade.kinetics, dough, path, aside.rise_pct)
            self._ripe[key] = up(max(GRID_MIN, minutes)) if math.isfinite(minutes) else None
        return self._ripe.get(key)


def make_up(aside: Aside) -> float:
    """What tells one mix of a kind from another: its water, for what ferments."""
    return 0.0 if aside.dough is None else round(aside.dough.hydration_pct)


def built_by(tasks: tuple[Task, ...], asides: tuple[Aside, ...]) -> tuple[tuple[Task, float], ...]:
    """What a plan makes before its mix, for other doughs to find."""
    of = {aside.item: aside for aside in asides}
    return tuple((task, make_up(of[task.item])) for task in tasks if task.item in of)


def _all_of(found: list[Made]) -> Made:
    return Made(
        tuple(task for one in found for task in one.tasks),
        tuple(move for one in found for move in one.moves),
        sum(one.night_min for one in found),
    )


def _moves(aside: Aside, task: Task) -> tuple[Move, ...]:
    if aside.dough is None or task.ratio in (None, 1.0):
        return ()
    usual = aside.dough.yeast_fresh_pct
    return (Move("aside_yeast", round(usual, 3), round(usual * (task.ratio or 1.0), 3), 0.3),)
