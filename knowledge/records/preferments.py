"""Parts of the flour that are mixed ahead: poolish, biga, sponge, old dough, scald and soaker."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class PrefermentKind(Record):
    """One kind of preferment.

    hydration_low_pct, _usual, _high: water on its own flour (for a soaker: on the grain).
    flour_usual_pct: its flour as a share of all flour (for a soaker: the grain, percent of all flour).
    yeast_fresh_pct, salt_pct: on its own flour. made_ahead: mixed from this dough's flour; old dough is there already.
    raises: it carries leaven.
    stands_low_h, _usual_h, _high_h: hours that one without leaven stands before the mix. keeps_h: hours a ripe one
    waits in the kitchen; keeps_cold_h: how long it then keeps in the fridge, whatever raised it.
    make: what is done, with {rows} for what goes in; look_for, fallback: as of a step.
    """

    TERM_KIND: ClassVar[str] = "preferment"

    name: str
    said_as: tuple[str, ...]
    hydration_low_pct: float
    hydration_usual_pct: float
    hydration_high_pct: float
    flour_usual_pct: float
    yeast_fresh_pct: float = 0.0
    salt_pct: float = 0.0
    made_ahead: bool = True
    raises: bool = True
    note: str = ""
    stands_low_h: float = 0.0
    stands_usual_h: float = 0.0
    stands_high_h: float = 0.0
    keeps_h: float = 0.0
    keeps_cold_h: float = 0.0
    make: str = ""
    look_for: str = ""
    fallback: str = ""

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ranges that do not hold their usual figure."""
        if not self.hydration_low_pct <= self.hydration_usual_pct <= self.hydration_high_pct:
            yield "hydration_usual_pct: not between low and high"
        if not 0 < self.flour_usual_pct < 100:
            yield "flour_usual_pct: not between 0 and 100"
        if not self.stands_low_h <= self.stands_usual_h <= self.stands_high_h:
            yield "stands_usual_h: not between low and high"
        if self.made_ahead and not (self.make and self.look_for and self.fallback):
            yield "make, look_for, fallback: what is made ahead needs all three"


FAMILY = Family(folder="preferments", record=PrefermentKind)
