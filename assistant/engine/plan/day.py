"""The air a dough stands in through the day, and the minutes that work takes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from assistant.engine.heat import Cover, Warm, balance_dough_c, balance_water_c, cooling_tau_h, dough_heat
from assistant.engine.loads import Loads, PotAndOven, even_sizes, run_in_turn
from assistant.engine.plan.asked import Batch, Kitchen, Trade
from assistant.engine.plan.clock import NIGHT_FROM, NIGHT_TO, Clock
from assistant.engine.temperature_path import Leg, Path

GRID_MIN = 5
_COARSE_MIN = 120
"""Where the nights are cooler, blocks are first laid out for every other hour only."""
_NIGHT_FROM_MIN = NIGHT_FROM.hour * 60
_NIGHT_TO_MIN = NIGHT_TO.hour * 60
_COLDEST_WATER_C = 1.0
_ICE_ACTS_AS_C = -20.0
"""A third of the water as ice cools like water about so cold; colder doughs are out of reach."""


def up(minutes: float) -> int:
    """Rounded up to the grid of the clock."""
    return math.ceil(minutes / GRID_MIN - 1e-9) * GRID_MIN


def near(minutes: float) -> int:
    """Rounded to the grid of the clock."""
    return round(minutes / GRID_MIN) * GRID_MIN


@dataclass(frozen=True)
class Day:
    """One batch in one kitchen on one day."""

    batch: Batch
    kitchen: Kitchen
    trade: Trade
    clock: Clock

    def in_a_place(self, place_c: float) -> Day:
        """The same day where the dough rises in a place that is as warm day and night."""
        return replace(self, kitchen=replace(self.kitchen, room_c=place_c, night_c=None))

    @cached_property
    def steady(self) -> bool:
        """True where the room is the same day and night: then no length depends on the hour."""
        return self.kitchen.night_c is None or self.kitchen.night_c == self.kitchen.room_c

    def about(self, at: float) -> int:
        """Which starts are alike at a first look: all where the room is steady, else those about the same hour.

        One night is like the next, so the hour is the clock's, whatever the day.
        """
        return 0 if self.steady else int(self._now_min + at) % 1440 // _COARSE_MIN

    @cached_property
    def _now_min(self) -> float:
        return self.clock.minute_of_day(0)

    def air_c(self, at: float) -> float:
        """Air of the kitchen so many minutes from now."""
        if self.steady or self.kitchen.night_c is None:
            return self.kitchen.room_c
        minute = self.clock.minute_of_day(at)
        return self.kitchen.room_c if _NIGHT_TO_MIN <= minute < _NIGHT_FROM_MIN else self.kitchen.night_c

    def path(self, at: float, dough_c: float, tau_h: float) -> Path:
        """The dough's temperature from `at` on in the kitchen's air, followed with lag `tau_h`."""
        if self.steady:
            room_c = self.kitchen.room_c
            return Path(dough_c, (Leg(math.inf, room_c, room_c, tau_h),))
        legs = []
        minute = self.clock.minute_of_day(at)
        for _ in range(6):
            day = _NIGHT_TO_MIN <= minute < _NIGHT_FROM_MIN
            until = _NIGHT_FROM_MIN if day else _NIGHT_TO_MIN + (1440 if minute >= _NIGHT_FROM_MIN else 0)
            air_c = self.kitchen.room_c if day else (self.kitchen.night_c or self.kitchen.room_c)
            legs.append(Leg(until - minute, air_c, air_c, tau_h))
            minute = until % 1440
        return Path(dough_c, tuple(legs))

    def cold_path(self, dough_c: float, tau_h: float) -> Path:
        """The dough's temperature in the fridge."""
        return Path(dough_c, (Leg(math.inf, self.kitchen.fridge_c, self.kitchen.fridge_c, tau_h),))

    @cached_property
    def cp(self) -> float:
        """Heat capacity of the dough, kJ per kg and degree."""
        dough = self.batch.dough
        return dough_heat(self.trade.heat, dough.hydration_pct, dough.salt_pct, self.batch.fat_pct, dough.sugar_pct)

    def _tau_h(self, mass_g: float, cover: Cover) -> float:
        return cooling_tau_h(self.trade.heat, mass_g, self.cp, cover)

    @cached_property
    def tub_tau_h(self) -> float:
        """Lag of the whole dough in its covered tub."""
        return self._tau_h(self.batch.dough_g, "covered")

    @cached_property
    def bench_tau_h(self) -> float:
        """Lag of a piece on the bench."""
        return self._tau_h(self.batch.piece_g, "bare")

    @cached_property
    def piece_tau_h(self) -> float:
        """Lag of a covered piece."""
        return self._tau_h(self.batch.piece_g, "covered")

    def work_min(self, what: str) -> int:
        """Minutes some work takes for this batch, on the grid; 0 stays 0."""
        facts = self.trade.work[what]
        pieces, kg = self.a_place(self.batch.pieces), self.batch.dough_g / 1000 / self.batch.places
        return up(facts.minutes + facts.per_piece_min * pieces + facts.per_kg_min * kg)

    def a_place(self, pieces: int) -> int:
        """Of so many pieces, those that one pair of hands works."""
        return math.ceil(pieces / self.batch.places)

    @cached_property
    def loads(self) -> Loads:
        """The pieces through pot and oven, in loads about as large as each other, each boiled just before its turn."""
        boils = self.batch.boil_s_per_side is not None
        work = PotAndOven(
            pieces=self.batch.pieces,
            oven_pieces=self.kitchen.oven_pieces,
            bake_min=math.ceil(self.batch.bake_min),
            pot_pieces=self.kitchen.pot_pieces if boils else None,
            boil_s_per_side=self.batch.boil_s_per_side or 0.0,
            lift_min=self.trade.work["lift"].minutes,
            change_min=self.trade.work["change"].minutes,
        )
        return run_in_turn(work, even_sizes(work.pieces, work.oven_pieces))

    @cached_property
    def cool_min(self) -> int:
        """Minutes on the rack before a piece may be cut, resting included."""
        by_mass = self.trade.work["cool_100_g"].minutes * (self.batch.piece_g / 100) ** (2 / 3)
        return up(max(by_mass, self.batch.process.rest_h * 60))

    def _bowl(self) -> tuple[float, list[Warm]]:
        """Water of 100 g of flour's dough, and what else goes into the bowl, all at the kitchen's warmth."""
        dough = self.batch.dough
        seed = dough.starter_pct / (100 + dough.starter_pct / (1 + dough.starter_hydration_pct / 100)) * 100
        seed_water = seed * dough.starter_hydration_pct / (100 + dough.starter_hydration_pct)
        seed_flour = seed - seed_water
        room_c, capacity = self.kitchen.room_c, self.trade.heat.capacity
        water_g = max(5.0, dough.hydration_pct - seed_water)
        starter_cp = dough_heat(self.trade.heat, dough.starter_hydration_pct, 0.0)
        others = [Warm(100 - seed_flour, room_c, capacity["flour"]), Warm(dough.salt_pct, room_c, capacity["salt"])]
        others += [Warm(dough.sugar_pct, room_c, capacity["sugar"]), Warm(self.batch.fat_pct, room_c, capacity["fat"])]
        return water_g, [*others, Warm(seed, room_c, starter_cp)]

    @cached_property
    def dough_range_c(self) -> tuple[float, float]:
        """Coldest and warmest dough that water (with a third of it ice; not too hot for the leaven) can make here."""
        water_g, others = self._bowl()
        rise_c, heat = self.kitchen.mixing_rise_c, self.trade.heat
        hot = heat.starter_most_c if self.batch.sourdough else heat.water_most_c
        low = balance_dough_c(heat, _ICE_ACTS_AS_C, rise_c, water_g, others)
        return low, balance_dough_c(heat, hot, rise_c, water_g, others)

    def water_c(self, dough_c: float) -> float:
        """Water that makes a dough of this temperature (below 1 C: part of it as ice)."""
        water_g, others = self._bowl()
        return balance_water_c(self.trade.heat, dough_c, self.kitchen.mixing_rise_c, water_g, others)
