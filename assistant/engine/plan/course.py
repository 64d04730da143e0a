"""The blocks of a bake: stretches of work and rising that follow on each other, between them the fridge.

A bake without the cold is one block, mix to rack. One that goes cold is a front block up to the fridge and a back block
from the fridge on (with a middle one where it goes cold twice). The lengths of rising come from the fermentation model
along the dough's own temperature.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from assistant.engine.fermentation import advance, minutes_to, mixed, rise_pct, shaped
from assistant.engine.plan.blocks import Block, Line
from assistant.engine.plan.day import Day, near, up
from assistant.engine.plan.finish import finish
from assistant.engine.plan.steps import Task
from assistant.engine.rising import Dough, State
from assistant.engine.stops import bulk_stop_before_cold_pct

Where = Literal["bulk", "shaped"]

_OVER_SHARE, _OVER_POINTS = 0.25, 10.0
"""A dough that rises past its mark in the cold by more than this share, or so many points, stayed too long."""
_EARLY = "stopped early: it keeps rising as it cools"
_LEAST_PROOF = 0.5
"""However far the bulk went, the proof aims at no less than this share of its usual rise."""
_KNOCKED_BACK_PCT = 250.0
_NEAR_MARK = 0.015
"""Share of the gas at the mark within which a dough comes out of the cold at its mark."""
_NO_MORE_MIN = 8
"""A rise that needs no more than this is there."""
_BULK_SHARES = (1.0, 0.7, 0.45)
"""A large piece that would go past its mark in the cold is shaped after this share of its usual bulk rise."""


@dataclass(frozen=True)
class Course:
    """How one choice of leaven and dough temperature runs on one day."""

    day: Day
    dough: Dough
    dough_c: float
    autolyse_min: int
    _before: dict[tuple[float, ...], float] = field(default_factory=dict, repr=False, compare=False)
    _shaped: dict[tuple[float, float], Line | None] = field(default_factory=dict, repr=False, compare=False)

    def whole(self, begins: float) -> Block | None:
        """Mix to rack without the cold; None where the dough never rises."""
        line = self._up_to_shape(begins, self.day.batch.rise_bulk_pct, "")
        if line is None or not self._proof(line, self.day.batch.rise_proof_pct):
            return None
        finish(line)
        return line.block()

    def front(self, begins: float, where: Where, early: bool, cold_h: float) -> Block | None:
        """Mix to the fridge. `early`: it has risen so far that the cold brings it to its mark; else it goes in at once
        (a bulk after an hour or so) and rises the rest afterwards. None where it never rises."""
        day = self.day
        if where == "bulk":
            line = self._mixed(begins)
            mark = day.batch.rise_bulk_pct
            before = self._before_cold(line, mark, day.tub_tau_h, cold_h) if early else 60.0
            if not math.isfinite(before):
                return None
            self._rising(line, max(20, near(before)), mark, "first part; the rest in the cold")
            return line.block()
        mark = day.batch.rise_bulk_pct
        if day.batch.process.lean_hearth:
            mark = bulk_stop_before_cold_pct(day.trade.records, self.dough_c)
        block = None
        for share in _BULK_SHARES:
            stop = round(mark * share)
            shaped_line = self._up_to_shape(begins, stop, _EARLY if share < 1 else "")
            if shaped_line is None:
                return None
            line = shaped_line
            short = day.batch.rise_bulk_pct - stop
            line.proof_pct = max(_LEAST_PROOF * day.batch.rise_proof_pct, day.batch.rise_proof_pct + short)
            block = self._into_cold(line, early, cold_h)
            if block is None or not self._over(self.cold(block, "shaped", round(cold_h * 60))[0], line.proof_pct):
                break
        return block

    def middle(self, begins: float, state: State, temp_c: float, early: bool, cold_h: float) -> Block | None:
        """From a cold bulk to the fridge again, shaped."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        if not self._warm_bulk(line):
            return None
        self._bench(line)
        return self._into_cold(line, early, cold_h)

    def back(self, begins: float, where: Where, proof_pct: float, state: State, temp_c: float) -> Block | None:
        """Fridge to rack; None where the dough never gets there or has gone past its mark (`proof_pct` when shaped)."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        day = self.day
        if where == "bulk":
            if self.over(state, where, proof_pct) or not self._warm_bulk(line):
                return None
            self._bench(line)
            if not self._proof(line, day.batch.rise_proof_pct):
                return None
        else:
            mark = proof_pct
            if self.over(state, where, mark):
                return None
            left = line.minutes_to(mark, day.piece_tau_h)
            if not math.isfinite(left):
                return None
            if left > _NO_MORE_MIN:
                minutes = near(left)
                step = "proof" if minutes > 45 else "warm_up"
                line.add(step, minutes, day.piece_tau_h, temp_c=day.air_c(begins), rise_pct=mark)
        finish(line, from_cold=where == "shaped")
        return line.block()

    def cold(self, block: Block, where: Where, minutes: int) -> tuple[State, float]:
        """State and temperature after so many minutes in the fridge."""
        return next(self.in_cold(block, where, (minutes,)))

    def in_cold(self, block: Block, where: Where, moments: Iterable[int]) -> Iterator[tuple[State, float]]:
        """State and temperature at these minutes in the fridge, in order: each is worked out from the one before."""
        tau_h = self.day.tub_tau_h if where == "bulk" else self.day.piece_tau_h
        path = self.day.cold_path(block.temp_c, tau_h)
        state = block.state._replace(at_min=0.0)
        for moment in moments:
            minutes = moment - state.at_min
            state = advance(self.day.trade.kinetics, self.dough, state, path, minutes, with_acid=False)
            yield state, path.temp_c(moment)

    # What the blocks are made of.

    def _mixed(self, begins: float) -> Line:
        day = self.day
        line = Line(day, self.dough, begins, mixed(day.trade.kinetics, self.dough), self.dough_c)
        at = 0
        if self.autolyse_min:
            line.tasks.append(Task("autolyse", 0, self.autolyse_min, day.air_c(begins)))
            at = self.autolyse_min
        line.tasks.append(Task("mix", at, day.work_min("mix"), round(self.dough_c, 1)))
        line.at = at + day.work_min("mix")
        if day.batch.process.knead:
            line.add("knead", day.work_min("knead"), day.tub_tau_h, temp_c=round(self.dough_c, 1))
        return line

    def _up_to_shape(self, begins: float, mark: float, note: str) -> Line | None:
        """Mix, bulk and shaping, laid out once for a start and a rise: the ways into the cold part only after it."""
        if (begins, mark) not in self._shaped:
            line = self._mixed(begins)
            risen = self._bulk(line, mark, note)
            if risen:
                self._bench(line)
            self._shaped[begins, mark] = line if risen else None
        found = self._shaped[begins, mark]
        return None if found is None else found.copy()

    def _bulk(self, line: Line, mark: float, note: str = "") -> bool:
        day = self.day
        if not day.batch.leavened or mark <= 0:
            line.add("bench_rest", up(day.batch.process.rest_in_bulk_min), day.tub_tau_h, temp_c=day.kitchen.room_c)
            return True
        minutes = line.minutes_to(mark, day.tub_tau_h)
        if not math.isfinite(minutes):
            return False
        self._rising(line, max(15, near(minutes)), mark, note)
        return True

    def _rising(self, line: Line, minutes: int, mark: float, note: str) -> None:
        day = self.day
        if day.batch.process.folds and minutes >= 60:
            line.folds = day.batch.process.folds
        air_c = day.air_c(line.begins + line.at)
        line.add("bulk", minutes, day.tub_tau_h, temp_c=air_c, rise_pct=mark, note=note)

    def _warm_bulk(self, line: Line) -> bool:
        day = self.day
        left = line.minutes_to(day.batch.rise_bulk_pct, day.tub_tau_h)
        if not math.isfinite(left):
            return False
        minutes = max(day.work_min("warm_up"), near(left))
        line.add("warm_up", minutes, day.tub_tau_h, temp_c=day.air_c(line.begins), rise_pct=day.batch.rise_bulk_pct)
        return True

    def _bench(self, line: Line, cut: bool = False) -> None:
        """Divided, rounded, rested and shaped; `cut`: only the shaping is left."""
        day, process = self.day, self.day.batch.process
        tau_h, pieces = day.bench_tau_h, day.batch.pieces
        line.settle()
        if not cut and (pieces > 1 or process.preshape):
            line.add("divide", day.work_min("divide"), tau_h, pieces=pieces)
        if not cut and process.preshape:
            line.add("preshape", day.work_min("preshape"), tau_h, pieces=pieces)
            line.add("bench_rest", day.work_min("bench_rest"), tau_h, temp_c=day.air_c(line.begins + line.at))
        line.add("shape", up(1 + process.shape_min * day.a_place(pieces)), tau_h, pieces=pieces)
        line.settle()
        line.state = shaped(day.trade.kinetics, line.state)

    def _proof(self, line: Line, mark: float) -> bool:
        day = self.day
        if not day.batch.leavened or mark <= 0:
            return True
        minutes = line.minutes_to(mark, day.piece_tau_h)
        if not math.isfinite(minutes):
            return False
        air_c = day.air_c(line.begins + line.at)
        line.add("proof", max(10, near(minutes)), day.piece_tau_h, temp_c=air_c, rise_pct=mark)
        return True

    def _into_cold(self, line: Line, early: bool, cold_h: float) -> Block | None:
        day = self.day
        mark = line.proof_pct
        if early:
            before = self._before_cold(line, mark, day.piece_tau_h, cold_h)
            if not math.isfinite(before):
                return None
            if before > _NO_MORE_MIN:
                air_c = day.air_c(line.begins + line.at)
                note = "the rest of it in the cold"
                line.add("proof", near(before), day.piece_tau_h, temp_c=air_c, rise_pct=mark, note=note)
        return line.block()

    def _before_cold(self, line: Line, mark: float, tau_h: float, cold_h: float) -> float:
        """Minutes in the kitchen after which `cold_h` in the fridge bring the dough to its mark, to about 3 minutes.

        0 where the cold alone goes past it; inf where it never rises. Worked out once for a mark and about this hour;
        what is then missing is risen after the cold.
        """
        key = mark, tau_h, cold_h, self.day.about(line.begins)
        if key not in self._before:
            self._before[key] = self._minutes_before_cold(line, mark, tau_h, cold_h)
        return self._before[key]

    def _minutes_before_cold(self, line: Line, mark: float, tau_h: float, cold_h: float) -> float:
        k, dough, day = self.day.trade.kinetics, self.dough, self.day
        path = line.path(tau_h)
        start = line.state
        gas = (mark / 100 + k.dissolved) * dough.pressure_ratio

        def past(before: float) -> float:
            into = advance(k, dough, start, path, before, with_acid=False)
            fridge = day.cold_path(path.temp_c(before), tau_h)
            risen = advance(k, dough, into._replace(at_min=0.0), fridge, cold_h * 60, with_acid=False)
            return math.log(max(risen.gas, 1e-9) / gas)  # growth is exponential: its logarithm is nearly straight

        low, at_low = 0.0, past(0.0)
        if at_low >= 0:
            return 0.0
        high = minutes_to(k, dough, path, mark, start)
        if not math.isfinite(high):
            return high
        at_high = past(high)
        while high - low > 6 and at_high > 0:
            share = at_low / (at_low - at_high)
            middle = low + min(max(share, 0.05), 0.95) * (high - low)
            at_middle = past(middle)
            if abs(at_middle) < _NEAR_MARK:
                return middle
            if at_middle < 0:
                low, at_low = middle, at_middle
            else:
                high, at_high = middle, at_middle
        return (low + high) / 2 if at_high > 0 else high

    def _bulk_limit(self) -> float:
        """Rise a bulk in the cold may reach: yeasted dough is knocked back and goes on, sour dough loses strength."""
        mark = self.day.batch.rise_bulk_pct
        return mark if self.day.batch.sourdough else max(mark, _KNOCKED_BACK_PCT)

    def over(self, state: State, where: Where, proof_pct: float) -> bool:
        """True where the dough has stayed in the cold too long, and only gets worse there."""
        return self._over(state, self._bulk_limit() if where == "bulk" else proof_pct)

    def _over(self, state: State, mark: float) -> bool:
        risen = rise_pct(self.day.trade.kinetics, self.dough, state)
        return risen > mark + max(_OVER_POINTS, _OVER_SHARE * mark)

    def shaped_on(self, begins: float, state: State, temp_c: float, cut: bool = False) -> Block | None:
        """From a bulk that is up to the rack; `cut`: it is divided already, and rests."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        self._bench(line, cut)
        if not self._proof(line, self.day.batch.rise_proof_pct):
            return None
        finish(line)
        return line.block()

    def cut_and_shaped(self, begins: float, state: State, temp_c: float, cut: bool = False) -> Block:
        """From a bulk that is up to the shaped pieces, no further."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        self._bench(line, cut)
        return line.block()

    def finish(self) -> Block:
        """Cut, boil, bake and rack alone: the same for every choice."""
        line = Line(self.day, self.dough, 0.0, mixed(self.day.trade.kinetics, self.dough), self.dough_c)
        finish(line)
        return line.block()
