"""A place on the clock laid out to the minute: every length for just there, folds, fridge and feed put in."""

from __future__ import annotations

from dataclasses import dataclass, replace

from assistant.engine.plan.blocks import HEATS, Block, out_min
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.cold_blocks import into_cold, where_cold
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import GRID_MIN, Day
from assistant.engine.plan.feeding import Feed
from assistant.engine.plan.limits import Limits, Place, Window
from assistant.engine.plan.steps import Move, Plan, Task

FOLDS_WITHIN = 0.6
"""Folding later than this share of the bulk knocks out the gas it is meant to hold."""
_ORDER = {step: n for n, step in enumerate(("feed_starter", "autolyse", "mix", "knead", "bulk", "fold"))}


@dataclass(frozen=True)
class Laying:
    """Lays out places of one wish."""

    limits: Limits

    def laid(self, course: Course, choice: Choice, place: Place, window: Window | None) -> Plan | None:
        """The plan at a place, every length worked out for just there; None if it does not hold."""
        day = self.limits.day
        usual_pct = day.batch.dough.starter_pct
        if place.feed is not None and not self.limits.feeding.enough(place.feed, choice.leaven_pct / usual_pct):
            return None
        back_at, ready = place.back_at, place.ready
        for _ in range(4):
            if choice.cold == "none":
                block = course.whole(back_at)
                if block is None:
                    return None
                blocks = [(back_at, block)]
                cold_min = 0
                mix_at, warm = back_at, block.warm_min
            else:
                front = into_cold(course, choice.cold, place.variant, place.front_at, self.limits.hours()[2])
                if front is None:
                    return None
                ended = place.front_at + front.minutes
                cold_min = back_at - ended
                low_h, high_h, _ = self.limits.hours()
                where = where_cold(choice.cold)
                if not low_h * 60 <= cold_min <= high_h * 60 or self.limits.busy.touches(ended, ended + 1):
                    return None
                if not self.limits.chills(where, ended, back_at):
                    return None
                block = course.back(back_at, where, front.proof_pct, *course.cold(front, where, cold_min))
                if block is None:
                    return None
                blocks = [(place.front_at, front), (back_at, block)]
                mix_at = place.front_at
                warm = out_min(front) + block.warm_min - day.work_min("mix")
            ready = back_at + block.minutes
            if window is None or window.first <= ready <= window.last:
                break
            back_at += place.ready - ready
        else:
            return None
        if self.limits.too_warm(warm) or not all(self.limits.can(each, at) for at, each in blocks):
            return None
        if choice.cold == "none" and place.feed is not None and mix_at < place.feed.ripe:
            return None
        tasks = [task.later(at) for at, each in blocks for task in each.tasks]
        if choice.cold != "none":
            note = _cold_note(choice, block, day)
            tasks.append(Task("retard", back_at - cold_min, cold_min, day.kitchen.fridge_c, note=note))
            cold_min = sum(task.minutes for task in tasks if task.step == "retard")
        tasks = [self._switched_on(task) for task in tasks]
        folds, fold_moves = self._folds(blocks)
        tasks += folds
        if place.feed is not None:
            tasks += self._fed(place.feed)
        if self.limits.fed(mix_at) is None:
            return None
        tasks += self.limits.made(mix_at).tasks
        if window is not None and day.batch.process.rest_h:
            tasks = [_rested(task, window.last if window.wished is None else ready) for task in tasks]
        tasks.sort(key=lambda task: (task.at, _ORDER.get(task.step, 9)))
        night = sum(each.night_min(at, self.limits.nights) for at, each in blocks)
        night += self.limits.feed_night(place.feed, mix_at)
        return Plan(
            now=self.limits.wish.now,
            tasks=tuple(tasks),
            moves=(*choice.moves, *place.moves, *fold_moves),
            night_min=night,
            warm_min=warm,
            leaven_pct=choice.leaven_pct,
            dough_c=choice.dough_c,
            cold=choice.cold,
            cold_min=cold_min,
            water_c=day.water_c(choice.dough_c),
            starter_fed=place.feed is not None,
        )

    def _fed(self, feed: Feed, share: float = 1.0) -> list[Task]:
        """The feed, and the one before it where there are two."""
        before = [] if feed.seed is None else self._fed(feed.seed, share / self.limits.feeding.makes(feed.ratio))
        air_c = self.limits.day.air_c(feed.at)
        return [*before, Task("feed_starter", feed.at, feed.ripe - feed.at, air_c, ratio=feed.ratio, share=share)]

    def _switched_on(self, task: Task) -> Task:
        """Oven and pot go on sooner where nobody is there at their minute."""
        if task.step not in HEATS:
            return task
        on = Block.heat_at(task.at, HEATS[task.step], self.limits.busy)
        return task if on is None else replace(task, at=int(on), minutes=task.end - int(on))

    def _folds(self, blocks: list[tuple[int, Block]]) -> tuple[list[Task], tuple[Move, ...]]:
        """Folds inside the first bulk, half an hour apart, none where nobody is there."""
        at, block = blocks[0]
        if not block.folds:
            return [], ()
        bulk = next(task for task in block.tasks if task.step == "bulk")
        start, end = at + bulk.at, at + bulk.end
        minutes = self.limits.day.work_min("fold")
        gap = max(15, min(30, (end - start) // (block.folds + 1) // GRID_MIN * GRID_MIN))
        folds: list[Task] = []
        moment = start + gap
        last = start + max(block.folds * gap + minutes, (end - start) * FOLDS_WITHIN)
        while len(folds) < block.folds and moment + minutes <= min(end, last):
            taken = any(span.touches(moment, moment + minutes) for span in (self.limits.busy, self.limits.nights))
            if taken or not self.limits.shared.hands_free(moment, moment + minutes):
                moment += GRID_MIN
                continue
            folds.append(Task("fold", moment, minutes))
            moment += gap
        if len(folds) == block.folds:
            return folds, ()
        return folds, (Move("folds", float(block.folds), float(len(folds)), 1 - len(folds) / block.folds),)


def _cold_note(choice: Choice, back: Block, day: Day) -> str:
    """What is to be known of the stretch in the cold."""
    if choice.cold == "bulk":
        return "" if day.batch.sourdough else "knock it back when it has doubled"
    bakes = [task.at for task in back.tasks if task.step == "bake"]
    straight = not any(task.step in ("proof", "warm_up") for task in back.tasks)
    return "each load stays in until its own turn" if straight and len(bakes) > 1 else ""


def _rested(task: Task, until: int) -> Task:
    """The rack, held on until the hour: bread that rests only gets better."""
    if task.step != "cool" or task.end >= until:
        return task
    return replace(task, minutes=until - task.at)
