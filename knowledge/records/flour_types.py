"""What national type numbers on a bag of flour mean."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class FlourType(Record):
    """One flour name of a country.

    `ash_low_pct` to `ash_high_pct`: minerals, grams per 100 g dry flour; None at an end that the standard leaves open.
    `protein_low_pct` to `protein_high_pct`: grams per 100 g flour as sold. `ingredient`: the id that stands for it in
    a formula.
    """

    TERM_KIND: ClassVar[str] = "flour_type"

    name: str
    said_as: tuple[str, ...]
    country: str
    grain: str
    ingredient: str
    ash_low_pct: float | None = None
    ash_high_pct: float | None = None
    protein_low_pct: float
    protein_high_pct: float
    note: str | None = None

    def terms(self) -> Iterator[tuple[str, str]]:
        """The ingredient that it stands for, and the type itself."""
        yield "ingredient", self.ingredient
        yield self.TERM_KIND, self.id

    def faults(self, kb: Knowledge) -> Iterator[str]:
        found = kb.ingredients.get(self.ingredient)
        if found is None:
            yield f"ingredient: no ingredient '{self.ingredient}'"
        elif found.group != "flour":
            yield f"ingredient: '{self.ingredient}' is not a flour"
        if not 0 < self.protein_low_pct <= self.protein_high_pct < 30:
            yield "protein_low_pct: the range is not possible"
        low, high = self.ash_low_pct, self.ash_high_pct
        if low is not None and high is not None and not 0 < low <= high < 5:
            yield "ash_low_pct: the range is not possible"
        if not self.said_as:
            yield "said_as: is empty"


FAMILY = Family(folder="flour_types", record=FlourType)
