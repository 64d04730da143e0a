"""What swaps are drawn from, and what must not come in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.engine.bowl import Foods
from knowledge.records.kin import Kin
from knowledge.records.swaps import Swap
from knowledge.records.traces import Trace


@dataclass(frozen=True, slots=True)
class Shelf:
    """The facts swaps are drawn from."""

    swaps: Mapping[str, Swap]
    kin: Mapping[str, Kin]
    traces: Mapping[str, Trace]
    foods: Foods


@dataclass(frozen=True, slots=True)
class Avoid:
    """What must not come in: allergen tags, single ingredients, whole groups. `medical`: traces count too."""

    allergens: frozenset[str] = frozenset()
    items: frozenset[str] = frozenset()
    groups: frozenset[str] = frozenset()
    medical: bool = False

    def hit_by(self, item: str, shelf: Shelf) -> bool:
        """Whether this ingredient is one to keep out."""
        food = shelf.foods.get(item)
        if food is None:
            return False
        if item in self.items or food.group in self.groups or self.allergens.intersection(food.allergens):
            return True
        return self.medical and bool(self.allergens.intersection(may_carry(item, shelf)))


def may_carry(item: str, shelf: Shelf) -> tuple[str, ...]:
    """Allergen tags that labels of this ingredient often show beyond its plain name."""
    return tuple(tag for trace in shelf.traces.values() if trace.ingredient == item for tag in trace.may_carry)
