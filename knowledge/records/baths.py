"""Baths that pieces pass through before the oven: what is dissolved, how strong, how long."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath(Record):
    """One kind of bath.

    item: ingredient id dissolved, None for plain water. low, usual, high: grams per litre of water. boiling: whether
    it is kept at a boil. bath_c: its temperature where it does not boil. seconds_low, seconds_high: seconds a side (a
    dip: in all, where `dip`). does: what it does to the crust. how: how to make it. longer: what more seconds do.
    breads: ids it is the usual bath of. also: further ids that may be dissolved instead of `item`, at the same
    strength.
    """

    TERM_KIND: ClassVar[str] = "bath"

    name: str
    said_as: tuple[str, ...]
    item: str | None = None
    also: tuple[str, ...] = ()
    low_g_per_l: float = 0.0
    usual_g_per_l: float = 0.0
    high_g_per_l: float = 0.0
    boiling: bool = True
    dip: bool = False
    bath_c: float | None = None
    seconds_low: float
    seconds_high: float
    rinse: bool = False
    does: str
    how: str
    longer: str
    breads: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name nothing, and ranges out of order."""
        for item in (*((self.item,) if self.item else ()), *self.also):
            if item not in kb.ingredients:
                yield f"item: {item!r} is no ingredient"
        for bread in self.breads:
            if bread not in kb.breads:
                yield f"breads: {bread!r} is no bread"
        if not self.low_g_per_l <= self.usual_g_per_l <= self.high_g_per_l:
            yield "usual_g_per_l: is not between low_g_per_l and high_g_per_l"
        if not 0 < self.seconds_low <= self.seconds_high:
            yield "seconds_low: is not above 0 and up to seconds_high"


FAMILY = Family(folder="baths", record=Bath)
