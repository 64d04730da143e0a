"""Words that mean one thing in one country and another elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Family, Record
from knowledge.records.measures import CUP_SYSTEMS

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Namesake(Record):
    """One item's name that the cup system in force decides.

    item: what the vocabulary makes of the word. means: the item it is under each cup system; a system left out keeps
    `item`. unsaid: the item where no cup system has been said or set (None: keeps `item`). words: the names this holds
    for (empty: every name of the item). because: the sentence shown with it.
    """

    item: str
    means: Mapping[str, str]
    because: str
    unsaid: str | None = None
    words: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        for item in (self.item, *self.means.values(), *((self.unsaid,) if self.unsaid else ())):
            if item not in kb.ingredients:
                yield f"means: {item} is no ingredient"
        for system in self.means:
            if system not in CUP_SYSTEMS:
                yield f"means: {system} is no cup system ({', '.join(CUP_SYSTEMS)})"


FAMILY = Family(folder="namesakes", record=Namesake)
