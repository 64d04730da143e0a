"""What a bread's usual dough is made of beyond the shares in its own record, and how thick it lies on a tray."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualDough(Record):
    """One bread's usual make-up; the id is the bread's.

    flours: share of all flour, percent, by flour; what is missing to 100 is the kitchen's white flour.
    flours_by_name: the bread's very name says the flours, so they are taken even when nothing else is asked for.
    fat, sugar, egg: which ingredient stands for the share in the bread's record.
    tray_g_per_cm2_low, _usual, _high: raw dough per area of tray or tin.
    """

    flours: Mapping[str, float] = field(default_factory=dict)
    flours_by_name: bool = False
    fat: str = "vegetable_oil"
    sugar: str = "sugar_granulated"
    egg: str = "egg_whole"
    tray_g_per_cm2_low: float | None = None
    tray_g_per_cm2_usual: float | None = None
    tray_g_per_cm2_high: float | None = None

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Breads and ingredients that do not exist, and blends of more than 100 %."""
        if self.id not in kb.breads:
            yield f"id: no bread '{self.id}'"
        for name, item in (("fat", self.fat), ("sugar", self.sugar), ("egg", self.egg)):
            if item not in kb.ingredients:
                yield f"{name}: no ingredient '{item}'"
        for item in self.flours:
            if item not in kb.ingredients or kb.ingredients[item].group != "flour":
                yield f"flours: no flour '{item}'"
        if sum(self.flours.values()) > 100:
            yield f"flours: {sum(self.flours.values()):g} % is more than all the flour"


FAMILY = Family(folder="usual_doughs", record=UsualDough)
