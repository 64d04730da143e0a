"""How every choice for one batch runs in one kitchen: worked out once, whatever it is planned beside."""

from __future__ import annotations

from dataclasses import dataclass, field

from assistant.engine.plan.asked import Batch, Kitchen, Trade, Wish
from assistant.engine.plan.choices import Choice
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.cold_blocks import ColdBlocks, Hours
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day

Key = tuple[object, ...]


@dataclass(frozen=True)
class Courses:
    """Courses on one day, by the dough, its temperature and where it rises; autolyse_min before each."""

    day: Day
    autolyse_min: int
    _courses: dict[Key, Course] = field(default_factory=dict, repr=False, compare=False)
    _colds: dict[Key, ColdBlocks] = field(default_factory=dict, repr=False, compare=False)

    @classmethod
    def of(cls, batch: Batch, kitchen: Kitchen, wish: Wish, trade: Trade) -> Courses:
        """Those a wish asks for."""
        return cls.on(Day(batch, kitchen, trade, Clock(wish.now)), wish)

    @classmethod
    def on(cls, day: Day, wish: Wish) -> Courses:
        """Those a wish asks for on a day."""
        return cls(day, int(day.batch.process.autolyse_min if wish.autolyse_min is None else wish.autolyse_min))

    def course(self, choice: Choice) -> Course:
        """How the dough of a choice runs; with and without the cold it is the same one."""
        key = choice.dough, choice.dough_c, choice.place_c
        if key not in self._courses:
            day = self.day if choice.place_c is None else self.day.in_a_place(choice.place_c)
            self._courses[key] = Course(day, choice.dough, choice.dough_c, self.autolyse_min)
        return self._courses[key]

    def cold(self, choice: Choice, variant: int, hours: Hours) -> ColdBlocks:
        """One way of a choice into the cold."""
        key = choice.dough, choice.dough_c, choice.place_c, choice.cold, variant, hours
        if key not in self._colds:
            self._colds[key] = ColdBlocks(self.course(choice), choice.cold, variant, hours)
        return self._colds[key]
