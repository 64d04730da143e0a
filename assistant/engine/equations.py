"""A dough as straight lines in its flour, and what was said of it as equations in them."""

from __future__ import annotations

from dataclasses import dataclass

from assistant.engine.linear import ALL_FLOUR, Linear, total
from assistant.engine.parts import Part


@dataclass(frozen=True, slots=True)
class Lines:
    """The dough as straight lines in the flour, but for plain water."""

    water: Linear  # counted water inside the parts
    dry: Linear  # mass that is neither flour nor counted water
    bowl: Linear  # flour weighed for this dough: all but what starter, discard and old dough bring
    starter: Linear
    salt: Linear

    def dough(self, hydration: float) -> Linear:
        """All dough at this hydration (a share, not percent)."""
        return ALL_FLOUR * (1 + hydration) + self.dry

    def poured(self, hydration: float) -> Linear:
        """Plain water at this hydration."""
        return ALL_FLOUR * hydration - self.water


@dataclass(frozen=True, slots=True)
class Said:
    """One equation: a line that must stand at `g`; `name` as the baker said it, figures in it."""

    what: str
    line: Linear
    g: float
    name: str


def lines_of(parts: tuple[Part, ...]) -> Lines:
    """The straight lines of these parts."""
    others = [part for part in parts if part.role != "flour"]
    water = total([part.water for part in others])
    inside = total([part.flour for part in others])
    dry = total([part.mass for part in others]) - inside - water
    brought = total([part.flour for part in others if not part.drawn])
    starter = total([part.mass for part in others if part.role == "starter"])
    salt = total([part.mass for part in others if part.role == "salt"])
    return Lines(water, dry, ALL_FLOUR - brought, starter, salt)
