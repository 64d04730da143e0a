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

from assistant.engine.fermentation import advance, mixed, rise_pct
from assistant.engine.plan.before_cold import minutes_before_cold
from assistant.engine.plan.blocks import Block, Line
from assistant.engine.plan.day import Day, near
from assistant.engine.plan.finish import finish
from assistant.engine.plan.stretches import bench, bulk, mixed_line, proof, rising, warm_bulk
from assistant.engine.rising import Dough, State
from assistant.engine.stops import bulk_stop_before_cold_pct

Where = Literal["bulk", "shaped"]

_OVER_SHARE, _OVER_POINTS = 0.25, 10.0
"""A dough that rises past its mark in the cold by more than this share, or so many points, stayed too long."""
_EARLY = "stopped early: it keeps rising as it cools"
_LEAST_PROOF = 0.5
"""However far the bulk went, the proof aims at no less than this share of its usual rise."""
_KNOCKED_BACK_PCT = 250.0
_NO_MORE_MIN = 8
"""A rise that needs no more than this is there."""
_BULK_BEFORE_COLD_MIN, _LEAST_BEFORE_COLD_MIN = 60.0, 20
"""A bulk goes into the cold after the first where it need not be early, never sooner than the second."""
_WARMING_MIN = 45
"""Pieces out of the fridge that need no longer than this only warm up."""
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
        if line is None or not proof(line, self.day.batch.rise_proof_pct):
            return None
        finish(line)
        return line.block()

    def front(self, begins: float, where: Where, early: bool, cold_h: float) -> Block | None:
        """Mix to the fridge. `early`: it has risen so far that the cold brings it to its mark; else it goes in at once
        (a bulk after an hour or so) and rises the rest afterwards. None where it never rises."""
        return self._front_bulk(begins, early, cold_h) if where == "bulk" else self._front_shaped(begins, early, cold_h)

    def _front_bulk(self, begins: float, early: bool, cold_h: float) -> Block | None:
        day, mark = self.day, self.day.batch.rise_bulk_pct
        line = mixed_line(day, self.dough, self.dough_c, self.autolyse_min, begins)
        before = self._before_cold(line, mark, day.tub_tau_h, cold_h) if early else _BULK_BEFORE_COLD_MIN
        if not math.isfinite(before):
            return None
        rising(line, max(_LEAST_BEFORE_COLD_MIN, near(before)), mark, "first part; the rest in the cold")
        return line.block()

    def _front_shaped(self, begins: float, early: bool, cold_h: float) -> Block | None:
        day = self.day
        mark = day.batch.rise_bulk_pct
        if day.batch.process.lean_hearth:
            mark = bulk_stop_before_cold_pct(day.trade.records, self.dough_c)
        block = None
        for share in _BULK_SHARES:
            stop = round(mark * share)
            line = self._up_to_shape(begins, stop, _EARLY if share < 1 else "")
            if line is None:
                return None
            short = day.batch.rise_bulk_pct - stop
            line.proof_pct = max(_LEAST_PROOF * day.batch.rise_proof_pct, day.batch.rise_proof_pct + short)
            block = self._into_cold(line, early, cold_h)
            if block is None or not self._over(self.cold(block, "shaped", round(cold_h * 60))[0], line.proof_pct):
                break
        return block

    def middle(self, begins: float, state: State, temp_c: float, early: bool, cold_h: float) -> Block | None:
        """From a cold bulk to the fridge again, shaped."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        if not warm_bulk(line):
            return None
        bench(line)
        return self._into_cold(line, early, cold_h)

    def back(self, begins: float, where: Where, proof_pct: float, state: State, temp_c: float) -> Block | None:
        """Fridge to rack; None where the dough never gets there or has gone past its mark (`proof_pct` when shaped)."""
        if self.over(state, where, proof_pct):
            return None
        line = Line(self.day, self.dough, begins, state, temp_c)
        risen = self._worked_on(line) if where == "bulk" else self._proofed_on(line, proof_pct)
        if not risen:
            return None
        finish(line, from_cold=where == "shaped")
        return line.block()

    def _worked_on(self, line: Line) -> bool:
        """A bulk out of the fridge up to proofed pieces; False where it never gets there."""
        if not warm_bulk(line):
            return False
        bench(line)
        return proof(line, self.day.batch.rise_proof_pct)

    def _proofed_on(self, line: Line, mark: float) -> bool:
        """Shaped pieces out of the fridge up to their mark; False where they never get there."""
        tau_h = self.day.piece_tau_h
        left = line.minutes_to(mark, tau_h)
        if not math.isfinite(left):
            return False
        if left > _NO_MORE_MIN:
            minutes = near(left)
            step = "proof" if minutes > _WARMING_MIN else "warm_up"
            line.add(step, minutes, tau_h, temp_c=self.day.air_c(line.begins), rise_pct=mark)
        return True

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

    def _up_to_shape(self, begins: float, mark: float, note: str) -> Line | None:
        """Mix, bulk and shaping, laid out once for a start and a rise: the ways into the cold part only after it."""
        if (begins, mark) not in self._shaped:
            line = mixed_line(self.day, self.dough, self.dough_c, self.autolyse_min, begins)
            risen = bulk(line, mark, note)
            if risen:
                bench(line)
            self._shaped[begins, mark] = line if risen else None
        found = self._shaped[begins, mark]
        return None if found is None else found.copy()

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
        """`minutes_before_cold`, worked out once for a mark and about this hour; what is missing is risen after it."""
        key = mark, tau_h, cold_h, self.day.about(line.begins)
        if key not in self._before:
            self._before[key] = minutes_before_cold(line, mark, tau_h, cold_h)
        return self._before[key]

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
        bench(line, cut)
        if not proof(line, self.day.batch.rise_proof_pct):
            return None
        finish(line)
        return line.block()

    def cut_and_shaped(self, begins: float, state: State, temp_c: float, cut: bool = False) -> Block:
        """From a bulk that is up to the shaped pieces, no further."""
        line = Line(self.day, self.dough, begins, state, temp_c)
        bench(line, cut)
        return line.block()

    def finish(self) -> Block:
        """Cut, boil, bake and rack alone: the same for every choice."""
        line = Line(self.day, self.dough, 0.0, mixed(self.day.trade.kinetics, self.dough), self.dough_c)
        finish(line)
        return line.block()
