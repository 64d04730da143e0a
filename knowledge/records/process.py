"""How a kind of bread is worked: by hand, in the cold, with how much starter; and how it lies on a tray."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

Cold = Literal["none", "shaped", "bulk"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Process(Record):
    """The work of a group of breads.

    breads: ids of the breads it holds for. knead: worked hard after mixing; else it is mixed and folded `folds` times.
    retard_usual: where its dough usually goes cold; retard_where: where it may. retard hours are inside the fridge.
    starter_low_pct, starter_high_pct: ripe 100 % starter per 100 g of flour besides it that still makes this bread.
    dough_c: the warmth it is mixed to. shape_min: minutes to shape one piece. preheat_min: until oven and tray or stone
    are hot. rest_h: hours it must rest after the oven before it is cut. ml_per_g: volume of a baked gram; height_share:
    height over width; hole_share: share of the outline that is hole; length_share: length over width; gap_cm between
    pieces on a tray. rest_in_bulk_min: unleavened dough rests so long instead of rising. lean_hearth: where the shaped
    dough goes cold, its bulk stops by the dough's warmth.
    """

    breads: tuple[str, ...]
    knead: bool
    folds: int
    autolyse_min: float
    retard_usual: Cold
    retard_where: tuple[Cold, ...]
    retard_low_h: float
    retard_usual_h: float
    retard_high_h: float
    starter_low_pct: float
    starter_high_pct: float
    dough_c: float
    preshape: bool
    shape_min: float
    score: bool
    preheat_min: float
    rest_h: float
    ml_per_g: float
    height_share: float
    hole_share: float = 0.0
    length_share: float = 1.0
    gap_cm: float = 2.0
    rest_in_bulk_min: float = 30.0
    lean_hearth: bool = False

    def faults(self, kb: Knowledge) -> Iterator[str]:
        for bread in self.breads:
            if bread not in kb.breads:
                yield f"breads: no bread '{bread}'"
        if not self.retard_low_h <= self.retard_usual_h <= self.retard_high_h:
            yield "retard_usual_h: not between low and high"
        if self.retard_usual != "none" and self.retard_usual not in self.retard_where:
            yield f"retard_usual: '{self.retard_usual}' is not in retard_where"
        if not 0 <= self.starter_low_pct <= self.starter_high_pct:
            yield "starter_low_pct: above starter_high_pct"
        if not 18 <= self.dough_c <= 32:
            yield f"dough_c: {self.dough_c} is no dough temperature"


FAMILY = Family(folder="process", record=Process)
