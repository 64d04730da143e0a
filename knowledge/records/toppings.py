"""What goes on a piece, and how much of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class ToppingPart:
    """One ingredient of a topping: its share of the topping's mass, 0 to 1."""

    item: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Topping(Record):
    """One topping.

    parts: what it is made of. low_g, usual_g, high_g: grams for a piece of 100 g raw dough; other sizes go by surface
    (the power 2/3 of the mass), a filling by mass. cover: where it lies. how: how to make it stick, and when.
    """

    TERM_KIND: ClassVar[str] = "topping"

    name: str
    said_as: tuple[str, ...] = ()
    parts: tuple[ToppingPart, ...]
    low_g: float
    usual_g: float
    high_g: float
    cover: Literal["top", "both_sides", "wash", "filling"] = "top"
    how: str

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name no ingredient, shares that do not make a whole, ranges out of order."""
        for part in self.parts:
            if part.item not in kb.ingredients:
                yield f"parts: {part.item!r} is no ingredient"
        if abs(sum(part.share for part in self.parts) - 1) > 1e-6:
            yield "parts: the shares do not add up to 1"
        if not 0 < self.low_g <= self.usual_g <= self.high_g:
            yield "usual_g: is not between low_g and high_g"


FAMILY = Family(folder="toppings", record=Topping)
