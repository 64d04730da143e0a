"""The course of a starter that was fed: until it is ripe, then the plan or the dough behind it."""

from __future__ import annotations

import math

from assistant.engine.course.air import Air
from assistant.engine.course.asked import Asked, CourseOfTime, Stands
from assistant.engine.course.follow import USUAL_RATIO, follow_starter
from assistant.engine.course.told import Mark
from assistant.engine.course.under_way import UnderWay
from assistant.engine.fermentation import rise_pct
from assistant.engine.plan.steps import Task


def starter_course(asked: Asked, air: Air, fed: Mark, minute: float) -> CourseOfTime:
    """A starter that was fed: until it is ripe, and the plan or the dough behind it."""
    follower = follow_starter(air, asked.account, fed.at, asked.batch.dough.pace, minute)
    now = UnderWay(asked=asked, air=air, dough=follower, stage="feed_starter", since=fed, minute=minute)
    spread = now.spread()
    low, left, high = follower.ripe_in(spread), follower.ripe_in(), follower.ripe_in(1 / spread)
    known = math.isfinite(left)
    end = math.ceil(minute + left - 1e-6) if known else None
    tasks = () if end is None else _tasks(now, end)
    stands = Stands(
        stage=now.stage, since=fed.at.replace(tzinfo=None), elapsed_min=max(0.0, minute - round(now.begun)),
        left_min=max(0.0, end - minute) if end is not None else None,
        low_left_min=low if known else None,
        high_left_min=None if not known else high if math.isfinite(high) else 2 * left,
        rise_pct=rise_pct(asked.trade.kinetics, follower.dough, follower.state), target_rise_pct=None, next="mix",
        air_c=air.air_c(minute), seen_pace=follower.seen_pace,
    )  # fmt: skip
    ready = max((task.end for task in tasks), default=None) if asked.plan is not None else None
    return CourseOfTime(clock=asked.clock, tasks=tasks, stands=stands, ready_min=ready)


def _tasks(now: UnderWay, end: int) -> tuple[Task, ...]:
    """The feed until it is ripe at minute `end`, and the plan behind it, as much later as the starter makes it."""
    begins = round(now.begun)
    seed, flour, _ = now.asked.account.ratio or USUAL_RATIO
    tasks = [Task("feed_starter", begins, end - begins, now.air.air_c(now.minute), ratio=flour / seed)]
    if now.asked.plan is not None:
        rest = [task for task in now.asked.plan.tasks if task.step != "feed_starter" or task.item]
        late = max(0, end - min((task.at for task in rest if not task.item), default=end))
        tasks += [task.later(late) for task in rest]
    return tuple(sorted(tasks, key=lambda task: task.at))
