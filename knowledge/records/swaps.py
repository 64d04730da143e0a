"""One swap: what may stand in for an ingredient, at what weight, and what else moves with it.

A record says what one gram of `out` is replaced by, for one job (`function`): the same butter is a fat in the dough and
a release in the tin. Ratios come from the composition of both sides, so that the dough's water, sugar and salt stay as
they were once the three corrections are made.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge

Function = Literal[
    "sweetener",
    "enzyme",
    "flavour",
    "fat",
    "liquid",
    "binder",
    "wash",
    "strength",
    "wholegrain",
    "salt",
    "leavening",
    "alkali",
    "topping",
    "colour",
    "release",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class SwapPart:
    """What goes in: `per_g` grams for each gram taken out; None where no honest ratio exists."""

    item: str
    per_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap(Record):
    """What replaces one gram of an ingredient in one job.

    out: ingredient id taken out. into: what goes in; empty means it is left out. thing: what serves instead, where
    that is no ingredient (baking parchment). water_g, sugar_g, salt_g: grams to add (+) or take off (-) per gram of
    `out` so that the dough's water, sugars and salt stay equal; None: do not correct (washes, toppings, baths). For
    flours, `water_g` is the change in absorption at equal feel. limit: the largest sensible share of `out` to
    replace, 0 to 1; 0 refuses. gains: allergen tags it brings. loses: tags that may go, where nothing else in the
    dough carries them. certainty: how well the figures are known, as the tables they came from put it. rank: lower is
    offered earlier; the order of the file decides between equals.
    """

    out: str
    function: Function
    into: tuple[SwapPart, ...] = ()
    thing: str | None = None
    water_g: float | None = None
    sugar_g: float | None = None
    salt_g: float | None = None
    limit: float
    effect: str
    gains: tuple[str, ...] = ()
    loses: tuple[str, ...] = ()
    certainty: Literal["high", "medium", "low"]
    rank: int = 0

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name no ingredient, and limits outside 0 to 1."""
        for item in (self.out, *(part.item for part in self.into)):
            if item not in kb.ingredients:
                yield f"into: {item!r} is no ingredient" if item != self.out else f"out: {item!r} is no ingredient"
        if not 0 <= self.limit <= 1:
            yield f"limit: {self.limit} is not between 0 and 1"
        for part in self.into:
            if part.per_g is not None and part.per_g <= 0:
                yield f"into: {part.item} has a ratio of {part.per_g}, which is not above 0"


FAMILY = Family(folder="swaps", record=Swap)
