"""Ingredients that do one job alike, gram for gram or at equal weight of what counts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record
from knowledge.records.swaps import Function

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Kin(Record):
    """A circle of ingredients that stand in for one another.

    members: ids, the most usual first. function: the job. equal: what is kept equal when one replaces another: their
    mass, or the sugars, fat, water or salt in them. effect: what to expect, for all of them.
    """

    members: tuple[str, ...]
    function: Function
    equal: Literal["mass", "sugar", "fat", "water", "salt"]
    effect: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Members that name no ingredient, and circles of one."""
        for item in self.members:
            if item not in kb.ingredients:
                yield f"members: {item!r} is no ingredient"
        if len(self.members) < 2:
            yield "members: a circle needs two"


FAMILY = Family(folder="kin", record=Kin)
