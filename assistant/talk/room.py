"""What an answer may look at: the trade's facts, the clock, the bench, and the request it continues."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from assistant.papers.cards import Cards
from assistant.talk.bench import Bake, Bench
from assistant.talk.kitchen import place_named
from assistant.talk.memory import recalled
from grammar.frames import Bound
from knowledge import Knowledge

KITCHEN_C = 22.0
"""The kitchen where nobody said how warm it is."""


@dataclass(frozen=True, slots=True)
class Room:
    """Handed to every answer. bound: the phrases the request was made of (for words as typed); text: the raw line.

    earlier: the last request answered, where it was of the same topic; entries: (kind, limit) -> the notebook's
    entries, newest first; number: what this line's own entry will be called there; cards: where cards go. line: what
    the line itself says, before anything is taken from the request it continues.
    """

    kb: Knowledge
    now: datetime
    bench: Bench
    bound: Bound | None = None
    text: str = ""
    earlier: Any = None
    entries: Any = None
    number: int = 0
    cards: Cards | None = None
    line: Any = None
    leaned: list[int] = field(default_factory=list, compare=False)  # bakes the answer looked at

    @property
    def bake(self) -> Bake | None:
        return self.bench.bake

    @property
    def formula_said(self) -> Any:
        """The formula request of the bake in hand; None without one. Who looks leans on that bake."""
        bake = self.bench.bake
        if bake is None:
            return None
        self.leaned.append(bake.id)
        return recalled(bake.said)

    @property
    def kitchen_c(self) -> float:
        """Temperature of the place the line names, else of the room as said for the bake, else as set, else the
        default."""
        there = self._there_c
        bake = self.bench.bake
        said = bake.said.get("kitchen_c") if bake is not None else None
        value = there if there is not None else said if said is not None else self.setting("kitchen_c")
        return float(value) if value is not None else KITCHEN_C

    @property
    def _there_c(self) -> float | None:
        place = place_named(self.text, self.bench.settings) if self.text else None
        if place is None:
            return None
        by_night = place.night_c is not None and "night" in self.text.lower()
        return place.night_c if by_night or place.day_c is None else place.day_c

    @property
    def kitchen_is_set(self) -> bool:
        return self._there_c is not None or self.setting("kitchen_c") is not None

    @property
    def night_c(self) -> float | None:
        """The kitchen by night, where it was told; None: as by day."""
        value = self.setting("kitchen_night_c")
        return float(value) if value is not None and self._there_c is None else None

    @property
    def oven_pieces(self) -> int | None:
        """How many pieces the oven takes at once, where it was told."""
        return self._pieces("oven_takes")

    @property
    def pot_pieces(self) -> int | None:
        """How many pieces the pot takes at once, where it was told."""
        return self._pieces("pot_takes")

    def _pieces(self, name: str) -> int | None:
        value = self.setting(name)
        return max(1, int(value)) if value is not None else None

    def setting(self, name: str) -> Any:
        return self.bench.settings.get(name)

    def stamp(self) -> str:
        """The present as ISO 8601 local time to the minute."""
        return self.now.replace(tzinfo=None).isoformat(timespec="minutes")
