"""Where on the clock one choice can lie: every limit kept, the best place first.

The blocks of a choice are rigid; what is free is when the front block starts, how long the dough stays cold, and when
it is ready inside the window asked for. Lengths are first taken by the hour, which is quick (`whole_places.py`,
`cold_places.py`), and the place found is then laid out to the minute; a place that does not hold to the minute is
dropped for the next best.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from assistant.engine.plan.blocks import Block, out_min
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.cold_blocks import into_cold, where_cold
from assistant.engine.plan.cold_places import ColdPlaces
from assistant.engine.plan.course import Course
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.day import Day
from assistant.engine.plan.laying import Laying
from assistant.engine.plan.limits import ANY_MERIT, Limits, Merit, Window
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.whole_places import whole_places

_TRIES = 8


@dataclass(frozen=True)
class Placing:
    """Places choices of one wish on one day."""

    limits: Limits
    courses: Courses

    @property
    def day(self) -> Day:
        """The day it is placed on."""
        return self.limits.day

    @property
    def laying(self) -> Laying:
        """What lays places out."""
        return Laying(self.limits)

    def place(self, choice: Choice, window: Window | None, most: Merit = ANY_MERIT) -> Plan | None:
        """The best plan for a choice inside the window (None: as soon as it can be); None if there is none.

        most: what is worse than this need not be found.
        """
        course = self.courses.course(choice)
        most = most[0], most[1], most[2] - len(choice.moves)
        if choice.cold == "none":
            places = whole_places(self.limits, course, window)
        else:
            places = ColdPlaces(self.limits, self.courses, choice, most).inside(window)
        found = sorted(places, key=lambda place: place[:5])[:_TRIES]  # a feed is not compared
        for place in found:
            plan = self.laying.laid(course, choice, place, window)
            if plan is not None:
                return plan
        return None

    def warm_min(self, choice: Choice) -> float:
        """Minutes out of the fridge before the oven, with the least time in it; inf where that brings no bread."""
        course = self.courses.course(choice)
        if choice.cold == "none":
            whole = course.whole(self.limits.earliest)
            return math.inf if whole is None else whole.warm_min
        where = where_cold(choice.cold)
        low_h, _, usual_h = self.limits.hours()
        variant = low_h if choice.cold == "both" else 0
        front = into_cold(course, choice.cold, variant, self.limits.earliest, usual_h)
        if front is None:
            return math.inf
        cold_min = low_h * 60
        out_at = self.limits.earliest + front.minutes + cold_min
        back = course.back(out_at, where, front.proof_pct, *course.cold(front, where, cold_min))
        return math.inf if back is None else out_min(front) + back.warm_min - self.day.work_min("mix")

    def least_min(self, options: tuple[Choice, ...]) -> int:
        """Minutes from now before which no choice can be ready: the quickest of them, mixed at once."""
        quickest = max(options, key=_quickness)
        course = self.courses.course(quickest)
        if quickest.cold == "none":
            block = course.whole(self.limits.earliest)
            return 0 if block is None else self.limits.earliest + block.minutes
        low_h, _, usual_h = self.limits.hours()
        front = course.front(self.limits.earliest, where_cold(quickest.cold), False, usual_h)
        return 0 if front is None else self.limits.earliest + front.minutes + low_h * 60

    def finishing(self, window: Window) -> Window:
        """The window without the ready times at which nobody could be there for oven and pot."""
        finish = self._finish()
        kept = tuple(
            ready
            for ready in window.readies
            if self.limits.can(finish, ready - finish.minutes)
        )
        return replace(window, readies=kept)

    def _finish(self) -> Block:
        """Cut, pot, oven and rack of this batch, the same for every choice."""
        return Course(self.day, self.day.batch.dough, self.day.batch.process.dough_c, 0).finish()

    def least_night_min(self, window: Window | None) -> float:
        """Minutes of hands in the night that pot, oven and rack cost at the best of the hours, whatever the dough."""
        if window is None or not window.readies:
            return 0.0
        finish = self._finish()
        return min(finish.night_min(ready - finish.minutes, self.limits.nights) for ready in window.readies)


def _quickness(choice: Choice) -> tuple[float, ...]:
    return float(choice.cold == "none"), choice.dough.yeast_fresh_pct, choice.leaven_pct, choice.dough_c
