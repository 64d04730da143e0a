"""How bakers count the parts of an ingredient: what is flour, whose water is the dough's, what is dough salt."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

from knowledge.record import Family, Record
from knowledge.records.ingredients import Group

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupRule(Record):
    """The rules for one group of ingredients; the id is the group.

    `does`: what such a thing does in a dough, and whether one can go without.
    `flour`: its whole mass is flour of the formula. `own_water`: whether the water it is made of counts as water of
    the dough; `unless_dried` does so at or above `dried_below_water_pct`. `soaked_water`: whether soaking makes its
    own water count. `salt`: `whole` where all of it is dough salt, `inside` where its salt counts towards the total
    only, `none` where its sodium is no salt.
    """

    does: str
    flour: bool
    own_water: Literal["counts", "does_not_count", "unless_dried"]
    soaked_water: bool
    salt: Literal["whole", "inside", "none"]
    dried_below_water_pct: float | None = None
    note: str | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if self.id not in get_args(Group):
            yield "id: no such group of ingredients"
        if (self.own_water == "unless_dried") != (self.dried_below_water_pct is not None):
            yield "dried_below_water_pct: goes with own_water: unless_dried"


FAMILY = Family(folder="composition", record=GroupRule)
