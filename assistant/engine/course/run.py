"""The course of a bake: its steps behind as told, its steps ahead as they come, and where it stands now.

One function for everybody: what is next, how long is left, when it is ready, the plan shown again, the loads, the card
and the calendar all read this. Minutes are of the clock, the plan's where there is one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from datetime import datetime

from assistant.engine.course.ahead import Ahead, finishing, free_from, steps_ahead
from assistant.engine.course.air import Air
from assistant.engine.course.follow import Follower, follow_dough, follow_starter
from assistant.engine.course.told import BESIDE, STAGE, Account, Mark
from assistant.engine.fermentation import rise_pct
from assistant.engine.plan.asked import Batch, Kitchen, Trade
from assistant.engine.plan.clock import Clock, Spans
from assistant.engine.plan.day import Day
from assistant.engine.plan.steps import Plan, Task

_AUTOLYSE_MIN = 30.0
_LEAST_COLD = 0.6
"""A stretch in the fridge is cut to no less than this share of what was planned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a course is worked out from.

    plan: the one that stands, None without; ready_by: the minute it should be ready, None where any is right; mixed_c:
    the warmth the dough is mixed to where nothing was measured; known: the bread is known, so that its bake is too;
    timed: the starter's pace was seen; busy: hours in which nobody is there; fridge: there is one to put it in.
    """

    batch: Batch
    kitchen: Kitchen
    trade: Trade
    clock: Clock
    account: Account
    plan: Plan | None = None
    ready_by: int | None = None
    mixed_c: float | None = None
    known: bool = True
    timed: bool = False
    fridge: bool = True
    busy: Spans = field(default_factory=lambda: Spans((), ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """Where the bake stands. Minutes; the three of what is left None where it cannot be told. air_c around it."""

    stage: str | None
    since: datetime | None
    elapsed_min: float
    left_min: float | None
    low_left_min: float | None
    high_left_min: float | None
    rise_pct: float | None
    target_rise_pct: float | None
    next: str | None
    air_c: float | None
    seen_pace: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseOfTime:
    """The whole of it. tasks: in order of start, minutes of the clock; ready_min: None where it cannot be told."""

    clock: Clock
    tasks: tuple[Task, ...]
    stands: Stands
    ready_min: int | None

    def ahead_of(self, now: datetime) -> tuple[Task, ...]:
        """The steps that begin from now on."""
        minute = self.clock.minutes(now)
        return tuple(task for task in self.tasks if task.at >= minute - 1e-6)


def course_of(asked: Asked, now: datetime) -> CourseOfTime:
    """The course of time of one dough at `now`."""
    asked = _with_next_load(asked)
    account = asked.account
    if account.marks and all(one.step in BESIDE for one in account.marks):
        account = _with_planned_mix(asked)  # folded, and nobody told of the mixing
        asked = replace(asked, account=account)
    if not account.main and not account.of("rise_pct"):
        return _by_the_plan(asked, now)
    clock = asked.clock
    day = Day(asked.batch, asked.kitchen, asked.trade, clock)
    changes = tuple((clock.minutes(one.at), one.value) for one in account.of("room_c", until=now))
    air = Air(day, changes)
    minute = clock.minutes(now)
    last = account.main[-1] if account.main else None
    stage = STAGE[last.step] if last is not None else "bulk"
    if stage == "feed_starter":
        assert last is not None
        return _starter(asked, air, last, minute)
    stops = stops_of(asked)
    follower = follow_dough(air, _with_planned_mix(asked), asked.mixed_c, stops, minute)
    since = _since(account, stage)
    low, left, high, target = _left(asked, air, follower, stage, since, minute)
    end = None if left is None else max(minute, minute + left)
    put_off = [one.value for one in account.of("not_before") if since is None or one.at >= since.at]
    if end is not None and put_off:
        end = max(end, put_off[-1])
    ahead = _ahead(asked, air, follower, stage, end, since, minute)
    if ahead is not None and end is not None and stage in ("retard",) and ahead.begins is not None:
        end = ahead.begins
    tasks = _behind(asked, minute, account)
    if end is not None and since is not None:
        begins = round(clock.minutes(since.at))
        warmth = {"retard": asked.kitchen.fridge_c, "bake": asked.batch.oven_c, "boil": 100.0}.get(stage)
        temp_c = air.air_c(minute) if warmth is None else warmth
        tasks.append(Task(stage, begins, max(0, math.ceil(end - 1e-6) - begins), temp_c, since.pieces, rise_pct=target))
    if ahead is not None:
        tasks += ahead.tasks
    rise = rise_pct(asked.trade.kinetics, follower.dough, follower.state)
    told = None if end is None else max(0.0, math.ceil(end - 1e-6) - minute)
    late = 0.0 if end is None or left is None or told is None else told - max(0.0, left)
    stands = Stands(
        stage=stage,
        since=None if since is None else since.at.replace(tzinfo=None),
        elapsed_min=0.0 if since is None else max(0.0, minute - clock.minutes(since.at)),
        left_min=told if left is None or left > 0 or late > 1 else 0.0,
        low_left_min=None if low is None else max(0.0, low + min(late, 0.0)),
        high_left_min=None if high is None else max(0.0, high, told or 0.0),
        rise_pct=rise if stage in ("bulk", "proof", "warm_up") else None,
        target_rise_pct=target,
        next=_next(asked, stage, ahead, account),
        air_c=asked.kitchen.fridge_c if stage == "retard" else air.air_c(minute),
        seen_pace=follower.seen_pace,
    )
    ordered = tuple(sorted(tasks, key=lambda task: task.at))
    ready = max((task.end for task in ahead.tasks), default=None) if ahead is not None else None
    if ready is None and stage == "cool" and end is not None:
        ready = math.ceil(end - 1e-6)
    return CourseOfTime(clock=clock, tasks=ordered, stands=stands, ready_min=ready)


def _with_next_load(asked: Asked) -> Asked:
    """Where some of the pieces came out and others are left: the next load goes in as they come out."""
    account = asked.account
    last = account.main[-1] if account.main else None
    if last is None or last.step != "cool" or last.pieces is None:
        return asked
    out = sum(one.pieces or 0 for one in account.marks if one.step == "cool")
    if out >= asked.batch.pieces:
        return asked
    return replace(asked, account=account.with_mark(Mark("bake", last.at, None, False)))


def _with_planned_mix(asked: Asked) -> Account:
    """The account with its mixing as planned, where nobody told when that was."""
    account, plan = asked.account, asked.plan
    if plan is None or not account.main or any(one.step in ("mix", "bulk") for one in account.main):
        return account
    task = plan.last("knead") or plan.last("mix")
    if task is None or asked.clock.local(task.end) >= account.main[0].at.replace(tzinfo=None):
        return account
    return account.with_mark(Mark("mix", asked.clock.local(task.end), None, False))


def stops_of(asked: Asked) -> tuple[float, float]:
    """The rises at which bulk and proof end: the plan's own where one stands, the proof making up for a short bulk."""
    batch, plan = asked.batch, asked.plan
    bulk, proof = batch.rise_bulk_pct, batch.rise_proof_pct
    planned = None if plan is None else plan.first("bulk")
    if plan is not None and planned is not None and planned.rise_pct is not None and plan.cold == "shaped":
        proof = max(0.5 * proof, proof + bulk - planned.rise_pct)
        bulk = planned.rise_pct
    return bulk, proof


def _since(account: Account, stage: str) -> Mark | None:
    """The mark since which it is in its stage: the mixing for a bulk, the bulk's own where that was told later."""
    if not account.main:
        return None
    last = account.main[-1]
    if stage == "bulk":
        told = [one for one in account.main if one.step in ("mix", "bulk")]
        return min(told, key=lambda one: one.at) if last.step == "mix" else told[-1] if told else last
    return last


def _left(
    asked: Asked, air: Air, follower: Follower, stage: str, since: Mark | None, minute: float
) -> tuple[float | None, float | None, float | None, float | None]:
    """Minutes left of the stage: at least, most likely, at most; and the rise it ends at. None: cannot be told."""
    batch, day = asked.batch, air.latest
    begun = minute if since is None else day.clock.minutes(since.at)
    gone = minute - begun
    bulk, proof = stops_of(asked)
    if stage in ("bulk", "proof", "warm_up"):
        target = bulk if stage == "bulk" or (stage == "warm_up" and not follower.in_pieces) else proof
        if not batch.leavened or target <= 0:
            rest = batch.process.rest_in_bulk_min - gone
            return rest, rest, rest, None
        planned = _planned_into_cold(asked, stage, follower)
        if planned is not None:
            left = begun + planned - minute
            return left, left, left, target
        spread = _spread(asked, follower)
        low, left, high = follower.left(target, spread), follower.left(target), follower.left(target, 1 / spread)
        if not math.isfinite(left):
            return None, None, None, target
        return low, left, (high if math.isfinite(high) else 2 * left), target
    if stage == "retard":
        process = batch.process
        least, usual, most = (60 * h for h in (process.retard_low_h, process.retard_usual_h, process.retard_high_h))
        cold = _planned_cold(asked.plan, begun)
        if cold is not None:
            usual = min(max(cold.end - begun, _LEAST_COLD * cold.minutes, 60.0), max(most, cold.minutes))
            least, most = min(least, usual), max(most, usual)
        return least - gone, usual - gone, most - gone, None
    if stage == "autolyse":
        usual = batch.process.autolyse_min or _AUTOLYSE_MIN
        return usual - gone, usual - gone, usual - gone, None
    if stage == "bench_rest":
        line = steps_ahead(air, follower, None, "divide", round(minute), (bulk, proof))
        until = next((task.at for task in line.tasks if task.step == "shape"), None) if line else None
        if since is not None and since.step == "preshape":
            usual = float(day.work_min("bench_rest"))
            return usual - gone, usual - gone, usual - gone, None
        usual = 20.0 if until is None else max(5.0, float(until - round(minute)))
        return usual - gone, usual - gone, usual - gone, None
    if not asked.known:
        return None, None, None, None
    if stage == "bake":
        usual = math.ceil(batch.bake_min)
        return 0.85 * usual - gone, usual - gone, 1.15 * usual - gone, None
    if stage == "boil":
        load = day.loads.loads[0]
        usual = (load.bake_start_min - load.boil_start_min) if load.boil_start_min is not None else 5.0
        return usual - gone, usual - gone, usual - gone, None
    if stage == "cool":
        usual = float(day.cool_min)
        return 0.6 * usual - gone, usual - gone, 1.5 * usual - gone, None
    usual = batch.process.preheat_min
    return usual - gone, usual - gone, usual - gone, None


def _spread(asked: Asked, follower: Follower) -> float:
    k = asked.trade.kinetics
    if follower.dough.starter_pct <= 0:
        return k.spread_bakers
    return k.spread_timed if asked.timed or follower.seen_pace is not None else k.spread_untimed


def _planned_cold(plan: Plan | None, begun: float) -> Task | None:
    """The stretch in the fridge that the plan means, by the hour the dough went in."""
    colds = [task for task in plan.tasks if task.step == "retard"] if plan is not None else []
    return min(colds, key=lambda task: abs(task.at - begun), default=None)


def _planned_into_cold(asked: Asked, stage: str, follower: Follower) -> float | None:
    """Minutes of the stage that the plan gives it before the fridge; None where it is not cold next."""
    plan = asked.plan
    if plan is None or any(one.step == "retard" for one in asked.account.main):
        return None
    if stage == "bulk" and plan.cold in ("bulk", "both"):
        task = plan.first("bulk")
        return None if task is None else float(task.minutes)
    if stage == "proof" and plan.cold in ("shaped", "both"):
        done, cold = plan.last("shape"), plan.last("retard")
        return None if done is None or cold is None else float(max(0, cold.at - done.end))
    return None


def _ahead(
    asked: Asked, air: Air, follower: Follower, stage: str, end: float | None, since: Mark | None, minute: float
) -> Ahead | None:
    """What comes after the stage under way; None where it cannot be told."""
    if end is None:
        return None
    begins = math.ceil(end - 1e-6)
    at_end = replace_follower(follower)
    if stage != "retard":
        at_end.to(end)
    if stage in ("boil", "bake"):
        if not asked.known or since is None:
            return None
        here, rest = asked.account.loads_of(stage, asked.batch.pieces, air.latest.loads.sizes)
        return finishing(air, stage, minute, begins, here, rest)
    if stage == "cool":
        return Ahead(())
    if stage == "preheat":
        return None
    plan = asked.plan
    cold_told = any(one.step == "retard" for one in asked.account.main)
    then = {"bulk": "divide", "bench_rest": "shape", "autolyse": "mix"}.get(stage, "finish")
    if stage == "retard":
        return _out_of_cold(asked, air, follower, begins, since, minute)
    if stage == "warm_up" and not follower.in_pieces:
        then = "divide"
    if plan is not None and not cold_told and plan.cold != "none":
        wanted = {"bulk": ("bulk", "both"), "proof": ("shaped", "both")}.get(stage, ())
        if plan.cold in wanted:
            then = "cold"
    goes_cold = plan is not None and not cold_told and plan.cold in ("shaped", "both") and stage != "proof"
    return steps_ahead(
        air, at_end, plan if goes_cold or then == "cold" else None, then, begins, stops_of(asked),
        ready_by=asked.ready_by, busy=asked.busy,
    )  # fmt: skip


def _out_of_cold(
    asked: Asked, air: Air, follower: Follower, end: int, since: Mark | None, minute: float
) -> Ahead | None:
    """The rest of a bake that lies in the fridge: out at such an hour that it is ready when it should be."""
    process = asked.batch.process
    begun = minute if since is None else asked.clock.minutes(since.at)
    cold = _planned_cold(asked.plan, begun)
    least = max(begun + (_LEAST_COLD * cold.minutes if cold is not None else 60 * process.retard_low_h), minute)
    put_off = [one.value for one in asked.account.of("not_before") if since is None or one.at >= since.at]
    least = max(least, *put_off) if put_off else least
    most = max(begun + max(60 * process.retard_high_h, cold.minutes if cold is not None else 0), least)
    out = end
    found: Ahead | None = None
    for _ in range(5):
        there = replace_follower(follower)
        there.to(out)
        found = steps_ahead(air, there, None, "out", out, stops_of(asked))
        if found is None or asked.ready_by is None or not found.tasks:
            break
        off = asked.ready_by - max(task.end for task in found.tasks)
        moved = free_from(asked.busy, math.ceil(min(max(out + off, least), most)))
        if moved == out:
            break
        out = moved
    return None if found is None else replace(found, begins=float(out))


def replace_follower(follower: Follower) -> Follower:
    """Another that goes its own way from here."""
    return replace(follower, history=list(follower.history), start=follower.start)


def _next(asked: Asked, stage: str, ahead: Ahead | None, account: Account) -> str | None:
    """The step that follows the stage; oven and pot heating beside it aside."""
    if stage in ("bake", "boil"):
        return "cool" if stage == "bake" else "bake"
    if ahead is not None:
        step = next((t.step for t in sorted(ahead.tasks, key=lambda t: t.at) if t.step not in _BESIDE_TASKS), None)
        if stage in ("retard",) and step is not None and step in ("warm_up", "proof"):
            return "warm_up"
        return "boil" if step == "score" and asked.batch.boil_s_per_side is not None else step
    return {
        "autolyse": "mix", "feed_starter": "mix", "bulk": "divide", "bench_rest": "shape", "boil": "bake",
        "bake": "cool", "preheat": "bake", "proof": "boil" if asked.batch.boil_s_per_side is not None else "bake",
    }.get(stage)  # fmt: skip


_BESIDE_TASKS = frozenset({"preheat", "heat_pot", "fold", "score"})


def _behind(asked: Asked, minute: float, account: Account) -> list[Task]:
    """What lies behind: as told, and before the first that was told as planned."""
    clock = asked.clock
    marks = list(account.marks)
    first = min((clock.minutes(one.at) for one in account.main), default=minute)
    told = {STAGE.get(one.step, one.step) for one in marks} | {one.step for one in marks}
    tasks = []
    if asked.plan is not None:
        for task in asked.plan.tasks:
            if task.step in told or task.at >= min(first, minute) or _ranks_later(task.step, account):
                continue
            end = min(task.end, round(first))
            if end > task.at:
                tasks.append(replace(task, minutes=end - task.at))
    main = list(account.main)
    for place, mark in enumerate(main):
        at = round(clock.minutes(mark.at))
        before = round(clock.minutes(main[place - 1].at)) if place else -math.inf
        tasks += _done_then(asked, mark, at, before)
        if place + 1 < len(main):
            tasks += _stage_behind(asked, mark, at, main[place + 1])
    for mark in marks:
        if mark.step in BESIDE:
            tasks.append(Task(mark.step, round(clock.minutes(mark.at)), 5, None))
    return tasks


_WORK = {"mix": "mix", "shape": "shape", "preshape": "preshape"}


def _done_then(asked: Asked, mark: Mark, at: int, before: float) -> list[Task]:
    """Work that was over by its mark: it took as long as such work takes, no longer than since the mark before."""
    if mark.step not in _WORK:
        return []
    day = Day(asked.batch, asked.kitchen, asked.trade, asked.clock)
    if mark.step == "shape":
        usual = math.ceil(1 + asked.batch.process.shape_min * (mark.pieces or asked.batch.pieces))
    else:
        usual = day.work_min(mark.step)
    minutes = int(min(usual, max(0.0, at - before)))
    return [Task(mark.step, at - minutes, minutes, asked.mixed_c if mark.step == "mix" else None, mark.pieces)]


def _stage_behind(asked: Asked, mark: Mark, at: int, after: Mark) -> list[Task]:
    """The stage between a mark and the one after it."""
    step = {"mix": "bulk", "shape": "proof", "preshape": "bench_rest"}.get(mark.step, mark.step)
    if (mark.step == "mix" and after.step == "bulk") or mark.step in ("fold", "preheat"):
        return []
    minutes = max(0, round(asked.clock.minutes(after.at)) - at)
    if after.step in _WORK and mark.step in ("divide", "preshape"):
        minutes = min(minutes, 15)
    rise = {"bulk": asked.batch.rise_bulk_pct, "proof": asked.batch.rise_proof_pct}.get(step)
    temp_c = {"retard": asked.kitchen.fridge_c, "bake": asked.batch.oven_c, "boil": 100.0}.get(step)
    return [Task(step, at, minutes, temp_c, mark.pieces, rise_pct=rise)] if minutes > 0 else []


def _ranks_later(step: str, account: Account) -> bool:
    """Whether a planned step would come after the first one told: it is ahead or done, never planned before."""
    order = ("feed_starter", "autolyse", "mix", "knead", "bulk", "fold", "divide", "preshape", "bench_rest", "shape",
             "retard", "warm_up", "proof", "preheat", "heat_pot", "boil", "score", "bake", "cool")  # fmt: skip
    first = account.main[0].step if account.main else "mix"
    if step not in order:
        return True
    return order.index(step) >= order.index(first)


def _starter(asked: Asked, air: Air, fed: Mark, minute: float) -> CourseOfTime:
    """A starter that was fed: until it is ripe, and the plan or the dough behind it."""
    follower = follow_starter(air, asked.account, fed.at, asked.batch.dough.pace, minute)
    spread = _spread(asked, follower)
    low, left, high = follower.ripe_in(spread), follower.ripe_in(), follower.ripe_in(1 / spread)
    known = math.isfinite(left)
    begins = round(asked.clock.minutes(fed.at))
    end = math.ceil(minute + left - 1e-6) if known else None
    tasks: list[Task] = []
    if end is not None:
        ratio = (asked.account.ratio or (1.0, 2.0, 2.0))[1] / (asked.account.ratio or (1.0, 2.0, 2.0))[0]
        tasks.append(Task("feed_starter", begins, end - begins, air.air_c(minute), ratio=ratio))
    ready = None
    if asked.plan is not None and end is not None:
        rest = [task for task in asked.plan.tasks if task.step != "feed_starter" or task.item]
        late = max(0, end - min((task.at for task in rest if not task.item), default=end))
        tasks += [task.later(late) for task in rest]
        ready = max((task.end for task in tasks), default=None)
    stands = Stands(
        stage="feed_starter", since=fed.at.replace(tzinfo=None), elapsed_min=max(0.0, minute - begins),
        left_min=max(0.0, end - minute) if end is not None else None,
        low_left_min=low if known else None,
        high_left_min=None if not known else high if math.isfinite(high) else 2 * left,
        rise_pct=rise_pct(asked.trade.kinetics, follower.dough, follower.state), target_rise_pct=None, next="mix",
        air_c=air.air_c(minute), seen_pace=follower.seen_pace,
    )  # fmt: skip
    return CourseOfTime(
        clock=asked.clock, tasks=tuple(sorted(tasks, key=lambda task: task.at)), stands=stands, ready_min=ready
    )


def _by_the_plan(asked: Asked, now: datetime) -> CourseOfTime:
    """Nothing told yet: the plan's own hours, if one stands."""
    plan, clock = asked.plan, asked.clock
    nothing = Stands(
        stage=None, since=None, elapsed_min=0.0, left_min=None, low_left_min=None, high_left_min=None, rise_pct=None,
        target_rise_pct=None, next=None, air_c=None,
    )  # fmt: skip
    if plan is None:
        return CourseOfTime(clock=clock, tasks=(), stands=nothing, ready_min=None)
    minute = clock.minutes(now)
    tasks = [task for task in plan.tasks if task.step not in _BESIDE_TASKS - {"score"}]
    begun = [task for task in tasks if task.at <= minute]
    coming = [task for task in tasks if task.at > minute]
    under = max(begun, key=lambda task: (task.at, task.end), default=None)
    after = coming[0] if coming else None
    stands = replace(
        nothing,
        stage=under.step if under is not None else None,
        since=clock.local(under.at) if under is not None else None,
        elapsed_min=minute - under.at if under is not None else 0.0,
        left_min=after.at - minute if after is not None else max(0.0, plan.ready_min - minute) if under else None,
        next=after.step if after is not None else None,
        air_c=asked.kitchen.room_c,
    )
    return CourseOfTime(clock=clock, tasks=plan.tasks, stands=stands, ready_min=plan.ready_min)
