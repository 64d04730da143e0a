"""Stretches of work and rising on the clock: the rigid blocks a plan is put together from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.engine.fermentation import advance, minutes_to
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.day import GRID_MIN, Day
from assistant.engine.plan.steps import Task
from assistant.engine.rising import Dough, State
from assistant.engine.temperature_path import Path

HEATS = {"preheat": 120, "heat_pot": 60}
"""What heats up, and how many minutes sooner than need be it may go on where nobody is there at its minute."""


@dataclass(frozen=True, slots=True)
class Block:
    """Tasks with times from the block's start; where it ends in the fridge, how the dough goes into it."""

    tasks: tuple[Task, ...]
    minutes: int
    state: State
    temp_c: float
    hands: tuple[tuple[int, int], ...]
    firsts: tuple[int, ...]
    heats: tuple[tuple[int, int], ...]
    """When oven and pot go on, and how many minutes sooner they may."""
    folds: int
    warm_min: int
    proof_pct: float
    """Rise the final proof aims at: more than usual where the bulk was stopped early, so that the whole is the same."""

    def free(self, at: float, busy: Spans) -> bool:
        """True if no hands-on minute and no first minute of a hands-off step falls into a busy stretch."""
        if any(busy.touches(at + start, at + end) for start, end in self.hands):
            return False
        if any(busy.touches(at + first, at + first + 1) for first in self.firsts):
            return False
        return all(self.heat_at(at + start, sooner, busy) is not None for start, sooner in self.heats)

    @staticmethod
    def heat_at(moment: float, sooner: int, busy: Spans) -> float | None:
        """When something hot goes on that should at `moment`: sooner where nobody is there then; None if never."""
        on = busy.free_before(moment, GRID_MIN)
        return on if on >= max(0.0, moment - sooner) and not busy.touches(on, on + 1) else None

    def night_min(self, at: float, nights: Spans) -> float:
        """Minutes of hands at work in the nights; who starts a hands-off step there is up for a minute too."""
        hands = sum(nights.overlap(at + start, at + end) for start, end in self.hands)
        return hands + sum(1 for first in self.firsts if nights.touches(at + first, at + first + 1))

    @property
    def earliest(self) -> int:
        """Minutes (0 or less) from the block's start to its first task: an oven may go on before."""
        return min(task.at for task in self.tasks)


class Line:
    """Lays tasks one after another and lets the dough ferment meanwhile."""

    def __init__(self, day: Day, dough: Dough, begins: float, state: State, temp_c: float) -> None:
        self.day, self.dough, self.begins = day, dough, begins
        self.tasks: list[Task] = []
        self.at = 0
        self.state: State = state
        self.temp_c: float = temp_c
        self._pending: tuple[float, int] = (0.0, 0)
        self.folds = 0
        self.warm_min = 0
        self.proof_pct = day.batch.rise_proof_pct

    def copy(self) -> Line:
        """A line that goes its own way from here."""
        other = Line(self.day, self.dough, self.begins, self.state, self.temp_c)
        other.tasks, other.at, other.folds = list(self.tasks), self.at, self.folds
        other._pending, other.warm_min, other.proof_pct = self._pending, self.warm_min, self.proof_pct
        return other

    def add(self, step: str, minutes: int, tau_h: float, **facts: float | int | str | None) -> None:
        """A step during which the dough lies where its lag is `tau_h`; nothing for 0 minutes."""
        if minutes <= 0:
            return
        self.tasks.append(Task(step, self.at, minutes, **facts))  # type: ignore[arg-type]
        if self._pending[0] != tau_h:
            self.settle()
        self._pending = (tau_h, self._pending[1] + minutes)
        self.at += minutes

    def settle(self) -> None:
        """Let the dough catch up with the tasks laid so far."""
        tau_h, minutes = self._pending
        if minutes:
            path = self.day.path(self.begins + self.at - minutes, self.temp_c, tau_h)
            k, state = self.day.trade.kinetics, self.state._replace(at_min=0.0)
            self.state = advance(k, self.dough, state, path, minutes, with_acid=False)
            self.temp_c = path.temp_c(minutes)
            self._pending = (0.0, 0)

    def into_oven(self) -> None:
        """The dough is not followed into what comes: nobody asks how far it had risen when the heat took it."""
        self._pending = (0.0, 0)

    def path(self, tau_h: float) -> Path:
        """The dough's path from here in the kitchen."""
        self.settle()
        self.state = self.state._replace(at_min=0.0)
        return self.day.path(self.begins + self.at, self.temp_c, tau_h)

    def minutes_to(self, rise: float, tau_h: float) -> float:
        """Minutes from here to a rise, in the kitchen."""
        path = self.path(tau_h)
        return minutes_to(self.day.trade.kinetics, self.dough, path, rise, self.state)

    def block(self) -> Block:
        self.settle()
        hands = tuple((task.at, task.end) for task in self.tasks if task.hands_on)
        firsts = tuple(task.at for task in self.tasks if not task.hands_on and task.step not in HEATS)
        heats = tuple((task.at, HEATS[task.step]) for task in self.tasks if task.step in HEATS)
        tasks = tuple(sorted(self.tasks, key=lambda task: task.at))
        minutes = max(task.end for task in tasks)
        return Block(
            tasks, minutes, self.state, self.temp_c, hands, firsts, heats, self.folds, self.warm_min, self.proof_pct
        )


def out_min(front: Block) -> int:
    """Minutes of a front block that are not spent in the fridge."""
    return front.minutes - sum(task.minutes for task in front.tasks if task.step == "retard")


def joined(first: Block, cold_min: int, second: Block, fridge_c: float) -> Block:
    """Two blocks with the fridge between as one."""
    shift = first.minutes + cold_min
    tasks = (
        *first.tasks,
        Task("retard", first.minutes, cold_min, fridge_c),
        *(task.later(shift) for task in second.tasks),
    )
    return replace(
        second,
        tasks=tasks,
        minutes=shift + second.minutes,
        hands=(*first.hands, *((start + shift, end + shift) for start, end in second.hands)),
        firsts=(*first.firsts, first.minutes, *(first_min + shift for first_min in second.firsts)),
        folds=first.folds,
    )
