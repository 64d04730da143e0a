"""How a cup is filled, or the thing is cut, where it changes what the cup weighs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill(Record):
    """The weight of one US cup of `items` in one state: sifted, packed, scooped, halved ...

    said_as: the words in a recipe that mean this state. What is done after a comma is done after measuring ("walnuts,
    chopped" are measured in halves): such a word counts only with `after_comma`, and `later_as` are the words after a
    comma that tell the thing was measured in this state. cup_g with cup_low_g and cup_high_g in grams a US cup.
    """

    name: str
    said_as: tuple[str, ...]
    items: tuple[str, ...]
    cup_g: float
    cup_low_g: float
    cup_high_g: float
    after_comma: bool = False
    later_as: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        for item in self.items:
            if item not in kb.ingredients:
                yield f"items: {item} is no ingredient"
        if not self.cup_low_g <= self.cup_g <= self.cup_high_g:
            yield "cup_g: not between cup_low_g and cup_high_g"


FAMILY = Family(folder="fills", record=Fill)
