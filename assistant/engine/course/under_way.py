"""A dough in the stage it is in: since when, how it stands there, and the plan's own hours for that stage."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.course.air import Air
from assistant.engine.course.asked import Asked
from assistant.engine.course.follow import Follower
from assistant.engine.course.told import Account, Mark
from assistant.engine.plan.steps import Plan, Task

LEAST_COLD = 0.6
"""A stretch in the fridge is cut to no less than this share of what was planned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderWay:
    """The stage under way at `minute` of the clock. since: the mark that began it, None where nobody told."""

    asked: Asked
    air: Air
    dough: Follower
    stage: str
    since: Mark | None
    minute: float

    @property
    def begun(self) -> float:
        """The minute the stage began; the present where nobody told."""
        return self.minute if self.since is None else self.asked.clock.minutes(self.since.at)

    @property
    def gone_min(self) -> float:
        """Minutes of it that are over."""
        return self.minute - self.begun

    @property
    def put_off_until(self) -> tuple[float, ...]:
        """The minutes, told in this stage, before which what follows it is not begun."""
        told = self.asked.account.of("not_before")
        return tuple(one.value for one in told if self.since is None or one.at >= self.since.at)

    @property
    def was_cold(self) -> bool:
        """The dough was told to have gone into the fridge."""
        return any(one.step == "retard" for one in self.asked.account.main)

    @property
    def cold_next(self) -> bool:
        """By the plan the fridge follows this stage, and it has not been there yet."""
        plan = self.asked.plan
        if plan is None or self.was_cold:
            return False
        return plan.cold in {"bulk": ("bulk", "both"), "proof": ("shaped", "both")}.get(self.stage, ())

    def spread(self) -> float:
        """By how many times a rise may go faster or slower than reckoned."""
        k = self.asked.trade.kinetics
        if self.dough.dough.starter_pct <= 0:
            return k.spread_bakers
        return k.spread_timed if self.asked.timed or self.dough.seen_pace is not None else k.spread_untimed


def began(account: Account, stage: str) -> Mark | None:
    """The mark since which it is in its stage: the mixing for a bulk, the bulk's own where that was told later."""
    if not account.main:
        return None
    last = account.main[-1]
    if stage == "bulk":
        told = [one for one in account.main if one.step in ("mix", "bulk")]
        return min(told, key=lambda one: one.at) if last.step == "mix" else told[-1] if told else last
    return last


def planned_cold(plan: Plan | None, begun: float) -> Task | None:
    """The stretch in the fridge that the plan means, by the hour the dough went in."""
    colds = [task for task in plan.tasks if task.step == "retard"] if plan is not None else []
    return min(colds, key=lambda task: abs(task.at - begun), default=None)
