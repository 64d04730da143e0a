"""What was told of a bake under way: steps as they were done, and what was measured. Plain values in order of time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

What = Literal["dough_c", "room_c", "core_c", "starter_c", "rise_pct", "starter_rise_pct", "not_before", "lost", "left"]

COURSE = (
    "feed_starter", "autolyse", "mix", "bulk", "fold", "divide", "preshape", "shape", "retard", "warm_up", "preheat",
    "boil", "bake", "cool",
)  # fmt: skip
"""The steps that can be told, in the order of a bake."""
BESIDE = frozenset({"fold", "preheat"})
"""Steps that leave the dough in the stage it is in."""
ONCE = frozenset({"autolyse", "mix", "bulk", "divide", "preshape", "shape"})
"""Steps that a bake has once: told again, they are put right. Folds, the fridge, loads and feeds come again."""
CUT = frozenset({"divide", "preshape", "shape"})
"""Steps at which all the pieces are counted; fridge, pot and oven take some of them at a time."""
STAGE = {
    "mix": "bulk", "bulk": "bulk", "autolyse": "autolyse", "divide": "bench_rest", "preshape": "bench_rest",
    "shape": "proof", "retard": "retard", "warm_up": "warm_up", "boil": "boil", "bake": "bake", "cool": "cool",
    "feed_starter": "feed_starter", "preheat": "preheat", "fold": "bulk",
}  # fmt: skip
"""The stage a step begins."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A step done (or a stage begun), local time. pieces: how many, where told; sure: its hour was said, not taken."""

    step: str
    at: datetime
    pieces: int | None = None
    sure: bool = True


@dataclass(frozen=True, slots=True)
class Reading:
    """A measurement, local time: °C of dough, room or core; rise in % since mixing, shaping or feeding.

    `room_c` holds from its hour on. `not_before`: minutes by which the step after the stage under way was put off.
    `lost`: pieces that came to grief; `left`: how many are there.
    """

    what: What
    value: float
    at: datetime


@dataclass(frozen=True, slots=True)
class Account:
    """All that was told of one dough: marks in the order of the bake, readings in order of time.

    ratio: of the starter's feed, seed, flour, water; starter_pct: of a dough that nobody asked for by a formula.
    """

    marks: tuple[Mark, ...] = ()
    readings: tuple[Reading, ...] = ()
    ratio: tuple[float, float, float] | None = None
    starter_pct: float | None = None

    @property
    def main(self) -> tuple[Mark, ...]:
        """The marks that say where the dough stands; a feed only where nothing of the dough was told."""
        steps = tuple(one for one in self.marks if one.step not in BESIDE)
        dough = tuple(one for one in steps if one.step != "feed_starter")
        return dough or steps or self.marks

    def with_mark(self, mark: Mark) -> Account:
        """The mark in its place: by its hour, but never before a step that comes earlier in a bake.

        A step told without its hour, then an earlier hour of a later step: the later one is still where it stands.
        """
        marks = self.marks
        if mark.step in ONCE and not mark.sure and any(one.step == mark.step and one.sure for one in marks):
            pieces = [replace(one, pieces=mark.pieces or one.pieces) if one.step == mark.step else one for one in marks]
            return replace(self, marks=tuple(pieces))  # told once more: its hour is known
        if mark.step in ONCE:
            marks = tuple(one for one in marks if one.step != mark.step)
        if mark.step in CUT and mark.pieces is not None:  # counted anew: what was lost before is no longer among them
            self = replace(self, readings=tuple(one for one in self.readings if one.what not in ("lost", "left")))
        place = len(marks)
        while place and marks[place - 1].at > mark.at and _rank(marks[place - 1]) >= _rank(mark):
            place -= 1
        return replace(self, marks=(*marks[:place], mark, *marks[place:]))

    def with_reading(self, reading: Reading) -> Account:
        """The reading in its place; one of the same thing at the same minute is put right."""
        again = reading.what != "lost"  # what is lost after something else is lost is more
        others = [one for one in self.readings if not again or (one.what, one.at) != (reading.what, reading.at)]
        return replace(self, readings=tuple(sorted((*others, reading), key=lambda one: one.at)))

    @property
    def raw(self) -> bool:
        """Whether the dough was begun and none of it baked yet."""
        return is_raw(one.step for one in self.marks)

    def without(self, reading: Reading) -> Account:
        """The account before that reading was told."""
        place = len(self.readings) - 1 - self.readings[::-1].index(reading)
        return replace(self, readings=(*self.readings[:place], *self.readings[place + 1 :]))

    def pieces_of(self, asked_for: int) -> int:
        """How many pieces there are: as counted last at the bench, else as asked for, less what was lost since."""
        counted = [(one.at, 0, "left", one.pieces) for one in self.marks if one.step in CUT and one.pieces is not None]
        told = [(one.at, 1, one.what, one.value) for one in self.readings if one.what in ("lost", "left")]
        there: float = asked_for
        for _, _, what, value in sorted((*counted, *told), key=lambda one: one[:2]):
            there = value if what == "left" else there - value
        return max(0, int(there))

    def loads_of(self, stage: str, pieces: int, planned: tuple[int, ...]) -> tuple[int, int]:
        """Of so many pieces, those in the load that went into pot or oven last, and those still to go in.

        planned: the sizes of the loads where nobody said how many went in.
        """
        counts: list[int] = []
        for one in self.marks:
            if one.step == stage:
                usual = planned[min(len(counts), len(planned) - 1)]
                counts.append(min(one.pieces or usual, max(0, pieces - sum(counts))))
        return (counts[-1] if counts else 0), max(0, pieces - sum(counts))

    def moved_last(self, at: datetime) -> Account:
        """The mark told last at another hour."""
        if not self.marks:
            return self
        last = self.marks[-1]
        return replace(self, marks=self.marks[:-1]).with_mark(replace(last, at=at))

    def of(self, what: What, since: datetime | None = None, until: datetime | None = None) -> tuple[Reading, ...]:
        """The readings of one thing between two moments, both included."""
        return tuple(
            one for one in self.readings
            if one.what == what and (since is None or one.at >= since) and (until is None or one.at <= until)
        )  # fmt: skip


def is_raw(steps: Iterable[str]) -> bool:
    """Whether a dough was begun and none of it baked yet, by the steps that were told."""
    told = frozenset(steps)
    main = (told - BESIDE or told) - {"feed_starter"}
    return bool(main) and not main & {"bake", "cool"}


def _rank(mark: Mark) -> int:
    return COURSE.index(mark.step)


AGAIN = frozenset({"fold", "feed_starter", "preheat", "boil", "bake", "cool", "retard", "warm_up"})
"""Steps that may come after a later one of the list: a second load, a night in the fridge before shaping."""


_FOR_THE_OVEN = frozenset({"preheat", "boil", "bake", "cool"})
"""Steps that may come again, but never before the dough was mixed and shaped."""
_ANEW = frozenset({"feed_starter", "autolyse", "mix", "bulk"})
_NEW_BAKE_H = 20.0


def begun_anew(account: Account, mark: Mark) -> Account:
    """The account a mark belongs to: an empty one where the bake before it is over and this one begins another."""
    before = [one.at for one in account.marks if one.at < mark.at]
    dough = [one for one in account.marks if one.step != "feed_starter" and one.at < mark.at]
    over = any(one.step == "cool" for one in dough)
    long_ago = bool(dough) and (mark.at - max(before)).total_seconds() > _NEW_BAKE_H * 3600
    return Account() if mark.step in _ANEW and (over or long_ago) else account


def out_of_order(account: Account, mark: Mark) -> Mark | None:
    """The step told before that makes this one's hour impossible; None where it can be.

    A step that a bake has once cannot be before one that it follows, nor after one that follows it.
    """
    if mark.step in _FOR_THE_OVEN:
        return next((one for one in account.marks if one.step in ONCE and one.at > mark.at), None)
    if mark.step in AGAIN:
        return None
    for other in account.marks:
        if other.step in AGAIN or other.step == mark.step or not other.sure:
            continue
        if _rank(other) < _rank(mark) and other.at > mark.at:
            return other
        if _rank(other) > _rank(mark) and other.at < mark.at:
            return other
    return None
