"""What one of a thing weighs: sticks, packets, tins, cloves, fruits by size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack(Record):
    """One counted thing: `unit` is a count among the measures ("stick", "can") or "each"; `size` small, medium, large.

    g: grams of one, low_g and high_g what is met in shops. in_label: the weight is printed on the pack, so it is as
    good as a weighing.
    """

    unit: str
    items: tuple[str, ...]
    g: float
    low_g: float
    high_g: float
    size: str | None = None
    in_label: bool = False
    note: str = ""

    def faults(self, kb: Knowledge) -> Iterator[str]:
        for item in self.items:
            if item not in kb.ingredients:
                yield f"items: {item} is no ingredient"
        if not self.low_g <= self.g <= self.high_g:
            yield "g: not between low_g and high_g"


FAMILY = Family(folder="packs", record=Pack)
