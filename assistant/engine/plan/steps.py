"""What a plan is: steps on the clock, the levers that were moved, and what is most likely to go wrong."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

HANDS_ON = frozenset({"mix", "knead", "fold", "divide", "preshape", "shape", "boil", "score", "bake", "refresh"})


@dataclass(frozen=True, slots=True)
class Task:
    """One step, minutes from the start of its block (later from now). `temp_c` of the dough, the air, oven or fridge it
    is in; `pieces` in this load; `rise_pct` aimed at; `ratio` of a feed (1 : ratio : ratio); `item` what is made before
    the mix, where it is not the starter; `load` which oven load its pieces are, from 1; 0: all, or not told; `share`
    how much of what the mix needs a feed makes: less than 1 where a second feed is made of it."""

    step: str
    at: int
    minutes: int
    temp_c: float | None = None
    pieces: int | None = None
    rise_pct: float | None = None
    ratio: float | None = None
    note: str = ""
    item: str = ""
    load: int = 0
    share: float = 1.0

    @property
    def end(self) -> int:
        """Minutes at which it ends."""
        return self.at + self.minutes

    @property
    def hands_on(self) -> bool:
        """True where somebody works all the while."""
        return self.step in HANDS_ON

    def later(self, minutes: int) -> Task:
        """The same step so much later."""
        return Task(
            self.step, self.at + minutes, self.minutes, self.temp_c, self.pieces, self.rise_pct, self.ratio, self.note,
            self.item, self.load, self.share,
        )  # fmt: skip


Lever = Literal["leaven", "dough_c", "cold", "feed", "folds", "ripe", "yeast", "place", "rest", "kept", "aside_yeast"]


@dataclass(frozen=True, slots=True)
class Move:
    """One choice moved from its usual: what, from where to where, and how far as a share of what it could move."""

    lever: Lever
    usual: float | str
    chosen: float | str
    size: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A plan that keeps what was asked.

    tasks in order of start, minutes from `now`; `moves` away from usual; `night_min` minutes of hands between 22:00
    and 06:00; `warm_min` minutes the dough spends out of the fridge before the oven; `leaven_pct` and `dough_c` chosen;
    `cold` where it goes cold and `cold_min` how long; `water_c` for that dough, None where it was not worked out.
    """

    now: datetime
    tasks: tuple[Task, ...]
    moves: tuple[Move, ...]
    night_min: float
    warm_min: float
    leaven_pct: float
    dough_c: float
    cold: str
    cold_min: int
    water_c: float | None
    starter_fed: bool

    @property
    def start_min(self) -> int:
        """Minutes from now to the first step."""
        return self.tasks[0].at

    @property
    def ready_min(self) -> int:
        """Minutes from now to the end of the last step."""
        return max(task.end for task in self.tasks)

    def first(self, step: str) -> Task | None:
        """The first task of a kind, or None."""
        return next((task for task in self.tasks if task.step == step), None)

    @property
    def build(self) -> Task | None:
        """The starter's (last) feed, or None."""
        feeds = (task for task in self.tasks if task.step == "feed_starter" and not task.item and task.share == 1)
        return next(feeds, None)

    def last(self, step: str) -> Task | None:
        """The last task of a kind, or None."""
        return next((task for task in reversed(self.tasks) if task.step == step), None)
