"""Ingredients that often carry an allergen their plain name does not show: the label decides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace(Record):
    """may_carry: allergen tags found in many brands of `ingredient`."""

    ingredient: str
    may_carry: tuple[str, ...]

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """An id that names no ingredient."""
        if self.ingredient not in kb.ingredients:
            yield f"ingredient: {self.ingredient!r} is no ingredient"


FAMILY = Family(folder="traces", record=Trace)
