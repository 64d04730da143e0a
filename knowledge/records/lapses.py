"""Slips at the bench: what is done about each, whether the missing thing still goes in, when it is too late."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge

Mistake = Literal["forgotten", "over", "under", "wet_by_feel", "dry_by_feel", "ounces", "step_forgotten"]
Stage = Literal["mixing", "bulk", "shaped", "baking", "baked"]

STAGES: tuple[Stage, ...] = ("mixing", "bulk", "shaped", "baking", "baked")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lapse(Record):
    """One slip at some stages of the bake.

    of: ids, groups of ingredients (`group:sugar`) or steps it is about; empty for any. stages: how far the bake is.
    add: whether the missing thing still goes in. advice: what to do, short. clock: what it does to the times.
    """

    TERM_KIND: ClassVar[str] = ""

    mistake: Mistake
    of: tuple[str, ...] = ()
    stages: tuple[Stage, ...] = STAGES
    add: bool = True
    advice: str
    clock: str = ""

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name no ingredient, where they are not groups or steps."""
        if not self.stages:
            yield "stages: none, so it would never be said"
        if self.mistake == "step_forgotten":
            return
        for item in self.of:
            if not item.startswith("group:") and item not in kb.ingredients and item != "starter":
                yield f"of: {item!r} is no ingredient"


FAMILY = Family(folder="lapses", record=Lapse)
