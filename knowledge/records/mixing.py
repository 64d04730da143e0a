"""How a dough is mixed, and how much that warms it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class MixingMethod(Record):
    """A way of mixing; the rises are the dough's own rise in temperature, degrees Celsius, from start to end of mixing.

    `usual_min` is how long such mixing takes for its usual rise; shorter or longer moves the rise within its range.

    The trade rule's allowance is a sum over its three (or four) temperatures, about three times as much.
    """

    TERM_KIND: ClassVar[str] = "mixing"

    name: str
    said_as: tuple[str, ...]
    rise_low_c: float
    rise_usual_c: float
    rise_high_c: float
    usual_min: float

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """The usual rise lies inside its range."""
        if not 0 <= self.rise_low_c <= self.rise_usual_c <= self.rise_high_c:
            yield "rise_usual_c: not between rise_low_c and rise_high_c"


FAMILY = Family(folder="mixing", record=MixingMethod)
