"""Several doughs on one clock: each planned beside those planned before, in the order that serves all best.

The last to come out of the oven is planned first and alone; every other one finds the hands, the oven, the pot, the
fridge and the starter as the ones before left them. Which comes first decides who waits, so the orders are tried.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import permutations

from assistant.engine.plan.asked import Batch, Kitchen, Trade, Wish
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.once import builds, made_once
from assistant.engine.plan.search import kept, plan
from assistant.engine.plan.shared import ALONE, Shared
from assistant.engine.plan.steps import Plan, Task

_ALL_ORDERS = 3
"""Up to so many doughs every order is tried; of more, those that have proved useful."""
_NEAREST_ORDERS = 2


@dataclass(frozen=True, slots=True)
class Part:
    """One of the doughs: what it is, where it is baked, and what its hour is."""

    batch: Batch
    kitchen: Kitchen
    wish: Wish


@dataclass(frozen=True, slots=True)
class Together:
    """A plan for each dough, in the order they were asked for."""

    plans: tuple[Plan, ...]

    @property
    def start_min(self) -> int:
        """Minutes from now to the first step of all."""
        return min(one.start_min for one in self.plans)

    @property
    def ready_min(self) -> int:
        """Minutes from now until everything is ready."""
        return max(one.ready_min for one in self.plans)


@dataclass(frozen=True, slots=True)
class NotTogether:
    """The dough that cannot keep its hour (by its place), why as a `Miss` tells it, whether it could alone, and what
    comes nearest for all."""

    place: int
    miss: Miss
    alone: bool
    nearest: Together | None


_Planned = dict[tuple[int, ...], tuple[dict[int, Plan], Shared] | None]


def plan_together(parts: Sequence[Part], trade: Trade) -> Together | NotTogether:
    """The plans of all doughs that keep every limit of each, hands, oven, pot and fridge never taken twice.

    Raises ValueError without a dough.
    """
    if not parts:
        raise ValueError("no dough to plan")
    courses = [Courses.of(part.batch, part.kitchen, part.wish, trade) for part in parts]
    singles = [
        plan(part.batch, part.kitchen, part.wish, trade, ALONE, known)
        for part, known in zip(parts, courses, strict=True)
    ]
    done = [single for single in singles if isinstance(single, Plan)]
    if len(done) < len(singles):
        return _nearest(parts, singles, courses, trade)
    least = _merit(done, parts)[:2]
    known: _Planned = {}
    best: list[Plan] | None = None
    for order in _orders(parts, done):
        found = _in_order(order, parts, done, courses, known)
        if found is None:
            continue
        plans = list(made_once([found[n] for n in range(len(parts))], [part.batch for part in parts]))
        if best is None or _merit(plans, parts) < _merit(best, parts):
            best = plans
        if _merit(best, parts)[:2] <= least and _each_once(best):
            break
    if best is None:
        return _nearest(parts, singles, courses, trade)
    return Together(_one_oven(best))


def _orders(parts: Sequence[Part], done: Sequence[Plan]) -> list[tuple[int, ...]]:
    """Orders to plan in: bread eaten fresh from the oven first, what may rest or goes cold longest last."""
    places = range(len(parts))
    fresh = sorted(places, key=lambda n: (parts[n].batch.process.rest_h, -done[n].ready_min, done[n].cold_min))
    if len(parts) <= _ALL_ORDERS:
        return sorted(permutations(places), key=lambda order: order != tuple(fresh))
    hot = sorted(places, key=lambda n: parts[n].batch.oven_c)
    longest = sorted(places, key=lambda n: done[n].start_min)
    return list(dict.fromkeys(tuple(order) for order in (fresh, hot, longest, fresh[::-1], places)))


def _in_order(
    order: tuple[int, ...], parts: Sequence[Part], done: Sequence[Plan], courses: Sequence[Courses], known: _Planned
) -> dict[int, Plan] | None:
    """Each dough beside those before it; None where one finds no place. What is known of a beginning is used again."""
    plans: dict[int, Plan] = {}
    shared = ALONE
    for count, place in enumerate(order, 1):
        so_far = order[:count]
        if so_far not in known:
            part = parts[place]
            found = done[place] if shared.alone else kept(part.wish, courses[place], shared)
            if found is not None:
                known[so_far] = {**plans, place: found}, shared.with_plan(found, part.batch, part.kitchen)
            else:
                known[so_far] = None
        one = known[so_far]
        if one is None:
            return None
        plans, shared = one
    return plans


def _each_once(plans: Sequence[Plan]) -> bool:
    """True where no poolish or soaker is made at two hours."""
    made = [item for item, _, _ in builds(plans) if item]
    return len(made) == len(set(made))


def _merit(plans: Sequence[Plan], parts: Sequence[Part]) -> tuple[float, ...]:
    """Less is better: hands in the night, choices moved, starters built, minutes ready too soon, how far moved, the
    start."""
    night = sum(one.night_min for one in plans)
    moved = sum(len(one.moves) for one in plans)
    size = sum(move.size for one in plans for move in one.moves)
    feeds = len(builds(plans))
    last = max(one.ready_min for one in plans)
    waits = 0 if len({part.wish.ready_by for part in parts}) > 1 else sum(last - one.ready_min for one in plans)
    return (night, float(moved), float(feeds), float(waits), size, float(-min(one.start_min for one in plans)))


def _nearest(
    parts: Sequence[Part], singles: Sequence[Plan | Miss], courses: Sequence[Courses], trade: Trade
) -> Together | NotTogether:
    """What comes nearest where all cannot be had: the order in which the dough that fails is off the least."""
    best: NotTogether | None = None
    hopeless = [(n, one) for n, one in enumerate(singles) if isinstance(one, Miss) and one.nearest is None]
    if hopeless:
        return NotTogether(*hopeless[0], False, None)
    alone = [one if isinstance(one, Plan) else one.nearest for one in singles]
    for order in _orders(parts, [one for one in alone if one is not None])[:_NEAREST_ORDERS]:
        plans: dict[int, Plan] = {}
        shared = ALONE
        failed: tuple[int, Miss] | None = None
        for place in order:
            part = parts[place]
            found = singles[place]
            if not shared.alone:
                found = plan(part.batch, part.kitchen, part.wish, trade, shared, courses[place])
            if isinstance(found, Miss):
                failed = failed or (place, found)
                if found.nearest is None:
                    break
                found = found.nearest
            plans[place] = found
            shared = shared.with_plan(found, part.batch, part.kitchen)
        whole = None
        if len(plans) == len(parts):
            in_all = made_once([plans[n] for n in range(len(parts))], [part.batch for part in parts])
            whole = Together(_one_oven(in_all))
        if failed is None and whole is not None:
            return whole  # the coarse search had passed it over
        assert failed is not None
        one = NotTogether(*failed, isinstance(singles[failed[0]], Plan), whole)
        if best is None or (best.nearest is None, best.miss.minutes) > (one.nearest is None, one.miss.minutes):
            best = one
    assert best is not None
    return best


def _one_oven(plans: Sequence[Plan]) -> tuple[Plan, ...]:
    """The oven heated once for bakes that follow on each other: what comes after only changes its heat."""
    ends = sorted(
        (task.end, place) for place, one in enumerate(plans) for task in one.tasks if task.step in ("bake", "refresh")
    )
    out: list[Plan] = []
    for place, one in enumerate(plans):
        first = next((task.at for task in one.tasks if task.step in ("bake", "refresh")), None)
        before = [end for end, other in ends if other != place and first is not None and end <= first]
        beside = [
            task
            for other, their in enumerate(plans)
            for task in their.tasks
            if other != place and first is not None and task.step == "bake" and task.at <= first < task.end
        ]
        tasks = tuple(_heated(task, before, bool(beside), first) for task in one.tasks)
        out.append(replace(one, tasks=tuple(task for task in tasks if task is not None)))
    return tuple(out)


def _heated(task: Task, before: Sequence[int], beside: bool, first: int | None) -> Task | None:
    """The oven's heating begun no sooner than what baked before is out; None where it is hot already."""
    if task.step != "preheat" or first is None or task.end != first:
        return task
    if beside:
        return None
    out_at = max(before, default=task.at)
    if out_at <= task.at:
        return task
    return None if out_at >= first else replace(task, at=out_at, minutes=first - out_at, note="hot already")

