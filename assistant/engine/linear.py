"""Grams that grow with the flour: the straight lines a formula is solved with."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Linear:
    """`share` grams for each gram of all flour, and `fixed_g` grams whatever the flour."""

    share: float = 0.0
    fixed_g: float = 0.0

    def __add__(self, other: Linear) -> Linear:
        return Linear(self.share + other.share, self.fixed_g + other.fixed_g)

    def __sub__(self, other: Linear) -> Linear:
        return Linear(self.share - other.share, self.fixed_g - other.fixed_g)

    def __mul__(self, factor: float) -> Linear:
        return Linear(self.share * factor, self.fixed_g * factor)

    def with_fixed(self, factor: float) -> Linear:
        """The line with only its fixed grams multiplied."""
        return Linear(self.share, self.fixed_g * factor)

    def at(self, flour_g: float) -> float:
        """Grams when all flour weighs `flour_g`."""
        return self.share * flour_g + self.fixed_g

    def flour_for(self, g: float) -> float | None:
        """All flour for which the line stands at `g`; None where the line does not grow with the flour."""
        return (g - self.fixed_g) / self.share if abs(self.share) > 1e-12 else None


ALL_FLOUR = Linear(share=1.0)


def total(lines: tuple[Linear, ...] | list[Linear]) -> Linear:
    """The lines added up."""
    result = Linear()
    for line in lines:
        result = result + line
    return result
