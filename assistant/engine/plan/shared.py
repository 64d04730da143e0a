"""What several doughs share: two hands, oven, pot and fridge, and what those planned before have taken of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from assistant.engine.plan.aside import built_by
from assistant.engine.plan.asked import Batch, Kitchen
from assistant.engine.plan.clock import Spans
from assistant.engine.plan.feeding import Feed
from assistant.engine.plan.fridge import fridge_share
from assistant.engine.plan.steps import Plan, Task
from knowledge.records.bench_work import BenchWork

_NO_SPANS = Spans((), ())
SAME_OVEN_C = 10.0
"""Breads whose ovens differ by no more than this bake side by side."""
_FULL = 1.0 + 1e-9


@dataclass(frozen=True, slots=True)
class Load:
    """One load in the oven: minutes from now, °C, and the share of the oven it fills."""

    start: float
    end: float
    temp_c: float
    share: float


@dataclass(frozen=True, slots=True)
class Stay:
    """A stretch in the fridge: minutes from now, and the share of the fridge it fills."""

    start: float
    end: float
    share: float


@dataclass(frozen=True)
class Shared:
    """work: minutes of hands other than at pot and oven; boils, bakes: at those; feeds: starters built already, with
    the hydration they are kept at; asides: what else is made before a mix already."""

    work: Spans = _NO_SPANS
    boils: Spans = _NO_SPANS
    bakes: Spans = _NO_SPANS
    loads: tuple[Load, ...] = ()
    fridge: tuple[Stay, ...] = ()
    feeds: tuple[tuple[Feed, float], ...] = ()
    asides: tuple[tuple[Task, float], ...] = ()

    @property
    def alone(self) -> bool:
        """True where nothing was planned before."""
        return not self.work.starts and not self.loads

    def hands_free(self, start: float, end: float) -> bool:
        """True if nobody's hands are at another dough then."""
        return not any(spans.touches(start, end) for spans in (self.work, self.boils, self.bakes))

    def takes(self, tasks: Iterable[Task], at: float, oven: Oven) -> bool:
        """True if these tasks, begun at `at`, find hands, pot and oven free.

        Work on a dough wants both hands. Who boils may have another load in the oven; loads of like heat may share it.
        """
        for task in tasks:
            if not task.hands_on:
                continue
            start, end = at + task.at, at + task.end
            if self.work.touches(start, end):
                return False
            if task.step == "boil":
                if self.boils.touches(start, end):
                    return False
            elif task.step == "bake":
                load = Load(start, end, task.temp_c or 0.0, (task.pieces or 0) / oven.pieces)
                if not self._oven_takes(load, oven):
                    return False
            elif not self.hands_free(start, end):
                return False
        return True

    def _oven_takes(self, load: Load, oven: Oven) -> bool:
        beside = load.share
        for other in self.loads:
            if other.start < load.end and load.start < other.end:
                beside += other.share
                if abs(other.temp_c - load.temp_c) > SAME_OVEN_C or beside > _FULL:
                    return False
                continue
            first, second = (other, load) if other.end <= load.start else (load, other)
            if second.start - first.end < oven.change_min(first.temp_c, second.temp_c):
                return False
        return True

    def fridge_takes(self, start: float, end: float, share: float) -> bool:
        """True if the fridge has room for that share of it all the while."""
        stays = [stay for stay in self.fridge if stay.start < end and start < stay.end]
        moments = [start, *(stay.start for stay in stays if stay.start > start)]
        return all(
            share + sum(stay.share for stay in stays if stay.start <= moment < stay.end) <= _FULL for moment in moments
        )

    def feed_for(self, mix: float, hydration_pct: float, keeps_min: float) -> Feed | None:
        """A starter already being built that is ripe for a mix at that minute."""
        for feed, kept_at_pct in self.feeds:
            if feed.ripe <= mix <= feed.ripe + keeps_min and abs(kept_at_pct - hydration_pct) < 1:
                return feed
        return None

    def with_plan(self, plan: Plan, batch: Batch, kitchen: Kitchen) -> Shared:
        """With what a plan takes."""
        loads = [
            Load(task.at, task.end, task.temp_c or 0.0, (task.pieces or 0) / kitchen.oven_pieces)
            for task in plan.tasks
            if task.step in ("bake", "refresh")
        ]
        stays = [
            Stay(task.at, task.end, fridge_share(batch, kitchen, where))
            for task, where in zip((t for t in plan.tasks if t.step == "retard"), _wheres(plan.cold), strict=False)
        ]
        feeds = [
            (Feed(task.at, task.end, task.ratio or 0.0), batch.dough.starter_hydration_pct)
            for task in plan.tasks
            if task.step == "feed_starter" and not task.item and task.share == 1
        ]
        asides = built_by(plan.tasks, batch.asides)
        return replace(
            self,
            work=_melted(self.work, (t for t in plan.tasks if t.hands_on and t.step not in ("boil", "bake"))),
            boils=_melted(self.boils, (t for t in plan.tasks if t.step == "boil")),
            bakes=_melted(self.bakes, (t for t in plan.tasks if t.step == "bake")),
            loads=(*self.loads, *loads),
            fridge=(*self.fridge, *stays),
            feeds=(*self.feeds, *(feed for feed in feeds if feed not in self.feeds)),
            asides=(*self.asides, *(one for one in asides if one not in self.asides)),
        )


ALONE = Shared()


@dataclass(frozen=True, slots=True)
class Oven:
    """pieces: of this bread at once; up_min, down_min: minutes to get 10 °C hotter, cooler; door_min: between loads."""

    pieces: int
    up_min: float
    down_min: float
    door_min: float

    @classmethod
    def of(cls, kitchen: Kitchen, work: Mapping[str, BenchWork]) -> Oven:
        return cls(
            kitchen.oven_pieces,
            work["oven_up_10_c"].minutes,
            work["oven_down_10_c"].minutes,
            work["change"].minutes,
        )

    def change_min(self, from_c: float, to_c: float) -> float:
        """Minutes from one load to the next at another heat."""
        by_c = to_c - from_c
        return self.door_min + (by_c * self.up_min if by_c > 0 else -by_c * self.down_min) / 10


def _melted(spans: Spans, tasks: Iterable[Task]) -> Spans:
    return Spans.of([*zip(spans.starts, spans.ends, strict=True), *((task.at, task.end) for task in tasks)])


def _wheres(cold: str) -> tuple[str, ...]:
    return ("bulk", "shaped") if cold == "both" else (cold,)
