"""What can go wrong with a dough, a bread or a starter, and what to do about it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What to do now, by the stage the baker stands in; `any_stage` serves where a stage has no line of its own."""

    any_stage: str
    dough: str | None = None
    proof: str | None = None
    oven: str | None = None
    baked: str | None = None
    cold: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause(Record):
    """One cause of a fault.

    prior: log-odds against an ordinary cause (0): how often it is met in home kitchens before anything is known.
    roots: causes that bring this one about (a warm dough over-proofs); they share evidence instead of competing.
    fault_of: what the cause can spoil; a jar of starter is never under-proofed.
    """

    name: str
    fault_of: tuple[str, ...] = ("bread", "dough")
    prior: float = 0.0
    roots: tuple[str, ...] = ()
    mechanism: str
    check: str
    now: Remedy
    next_time: str
    threshold: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Roots that are no cause, and parts of the trade nobody knows."""
        known = kb.all(Cause)
        for root in self.roots:
            if root not in known:
                yield f"roots: no cause '{root}'"
        for part in self.fault_of:
            if part not in ("bread", "dough", "starter"):
                yield f"fault_of: '{part}' is none of bread, dough, starter"
        if abs(self.prior) > 4:
            yield f"prior: {self.prior} is no sensible log-odds (-4 to 4)"


FAMILY = Family(folder="diagnosis/causes", record=Cause)
