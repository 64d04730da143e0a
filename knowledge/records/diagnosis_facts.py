"""Figures of a bake that speak for or against a cause: hours, temperatures, percentages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record
from knowledge.records.diagnosis_causes import Cause

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A stretch of values, `at_least` <= value < `under`, and the causes it moves.

    usual: how often home bakes fall in it (any scale; the bands of one fact are taken together).
    moves: log-odds added to a cause; +2 a fact past its threshold, -2 one clearly on the safe side.
    say: the reason in words, with {value} for the figure.
    """

    at_least: float | None = None
    under: float | None = None
    usual: float
    moves: Mapping[str, float]
    say: str

    def holds(self, value: float) -> bool:
        """Whether the value lies in this stretch."""
        return (self.at_least is None or value >= self.at_least) and (self.under is None or value < self.under)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure(Record):
    """One measurable fact.

    unit: written after the figure (min, h, C, pct, points, g/L, mm, cm, deg, days, x).
    family: facts of one family say much the same thing; the strongest of a family counts in full, the others by half.
    decimals: figures shown after the point.
    in_words: groups of findings that say the same in words, less exactly.
    """

    name: str
    unit: str
    family: str
    decimals: int = 0
    in_words: tuple[str, ...] = ()
    bands: tuple[Band, ...]

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Gaps, overlaps and unknown causes."""
        causes = kb.all(Cause)
        edge: float | None = None
        for number, band in enumerate(self.bands):
            where = f"bands[{number}]"
            if number == 0 and band.at_least is not None:
                yield f"{where}.at_least: the first band starts at nothing"
            if number and band.at_least != edge:
                yield f"{where}.at_least: {band.at_least} leaves a gap after {edge}"
            edge = band.under
            for cause, weight in band.moves.items():
                if cause not in causes:
                    yield f"{where}.moves: no cause '{cause}'"
                if not -4 <= weight <= 4:
                    yield f"{where}.moves.{cause}: {weight} is no sensible log-odds (-4 to 4)"
        if not self.bands or self.bands[-1].under is not None:
            yield "bands: the last band has no end"


FAMILY = Family(folder="diagnosis/facts", record=Measure)
