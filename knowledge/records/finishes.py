"""What is done to the pieces of a bread just before the heat, in it and after it: wash, steam, hot pot, cloth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish(Record):
    """The finish of some breads, in words. Empty: nothing of that kind.

    before: done to the pieces right before the heat. heat, heat_on: what the heat is, where it is no oven ({count}
    pieces, {temp} °C). in_heat: what goes with it (steam, a lid). after: what follows on the rack.
    """

    breads: tuple[str, ...]
    before: str = ""
    heat: str = ""
    heat_on: str = ""
    in_heat: str = ""
    after: str = ""

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Breads that are none, and a finish without anything in it."""
        for bread in self.breads:
            if bread not in kb.breads:
                yield f"breads: no bread '{bread}'"
        if not any((self.before, self.heat, self.in_heat, self.after)):
            yield "before, heat, in_heat, after: all are empty"


FAMILY = Family(folder="finishes", record=Finish)
