"""Several ways to the same bread by the same hour, each the best of its kind."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.asked import Batch, Cold, Kitchen, Trade, Wish
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.search import kept
from assistant.engine.plan.steps import Plan

AHEAD = "ahead"
_MOST = 3


@dataclass(frozen=True, slots=True)
class PlanWay:
    """One of the ways: where the dough goes cold, or baked ahead; `wish` asks for this way alone."""

    name: str
    wish: Wish
    plan: Plan

    @property
    def merit(self) -> tuple[float, int, float]:
        """Less is better: hands in the night, choices moved, how far."""
        return self.plan.night_min, len(self.plan.moves), sum(move.size for move in self.plan.moves)


def side_by_side(batch: Batch, kitchen: Kitchen, wish: Wish, trade: Trade) -> tuple[PlanWay, ...]:
    """Up to three ways that keep the wish, the one that moves least first: without the fridge, with the dough in it at
    each stage this bread may be, and baked ahead."""
    where: list[Cold] = ["none", *batch.process.retard_where]
    courses = Courses.of(batch, kitchen, wish, trade)
    found: list[PlanWay] = []
    for cold in where if wish.cold is None else ():
        own = replace(wish, cold=cold)
        plan = kept(own, courses)
        found += [] if plan is None else [PlanWay(cold, own, plan)]
    found.sort(key=lambda way: way.merit)
    if wish.ready_by is not None and len(found) < _MOST:
        own = replace(wish, ahead=True)
        ahead = plan_ahead(batch, kitchen, own, trade)
        found += [PlanWay(AHEAD, own, ahead)] if isinstance(ahead, Plan) else []
    return tuple(found[:_MOST])
