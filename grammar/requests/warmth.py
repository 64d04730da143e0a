"""Degrees as bakers say them: the unit often unsaid, Celsius or Fahrenheit by what is plausible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.frames import Bound
from grammar.phrases import Phrase

WARMEST_C = 45.0
"""No kitchen, flour or dough is warmer than this: a bare figure above it is Fahrenheit."""


@dataclass(frozen=True, slots=True)
class Degrees:
    """How the temperatures of one line are read: are bare figures Fahrenheit, and what was settled, in words."""

    fahrenheit: bool
    remarks: tuple[str, ...] = ()

    def celsius(self, phrase: Phrase | None, warmest_c: float = WARMEST_C) -> float | None:
        """Degrees Celsius of an amount; a bare figure too warm for what it is said of is Fahrenheit."""
        if phrase is None or phrase.quantity is None:
            return None
        return self.value_c(phrase.quantity.value, phrase.quantity.unit, warmest_c)

    def value_c(self, value: float, unit: str | None, warmest_c: float = WARMEST_C) -> float:
        """One figure with what was said of its unit."""
        if unit == "degC" or not is_fahrenheit(value, unit, self.fahrenheit, warmest_c):
            return value
        return round((value - 32) / 1.8, 1)


def is_fahrenheit(value: float, unit: str | None, line: bool, warmest_c: float = WARMEST_C) -> bool:
    """Whether a figure is Fahrenheit: said so, or bare and too warm for Celsius, or bare among Fahrenheit figures."""
    if unit in ("degF", "degC"):
        return unit == "degF"
    return warmest_c < value <= 1.8 * warmest_c + 42 or (line and value >= 30)


def degrees_of(
    bound: Bound, slots: Sequence[str], warmest_c: float = WARMEST_C, goes_on: bool = False
) -> Degrees:
    """How to read the temperatures in `slots`: one Fahrenheit figure makes the bare ones beside it Fahrenheit.
    goes_on: the talk was in Fahrenheit before."""
    phrases = [hit.amount for slot in slots for hit in bound.of(slot) if hit.amount is not None]
    figures = [q for p in phrases for q in (p.quantity, p.high) if q is not None]
    said_c = any(q.unit == "degC" for q in figures)
    line = not said_c and goes_on
    line = line or (not said_c and any(is_fahrenheit(q.value, q.unit, False, warmest_c) for q in figures))
    remarks = tuple(
        f"{q.value:g} read as {q.value:g} °F = {(q.value - 32) / 1.8:.1f} °C"
        for q in figures
        if q.unit not in ("degF", "degC") and is_fahrenheit(q.value, q.unit, line, warmest_c)
    )
    return Degrees(line, tuple(dict.fromkeys(remarks)))


def difference_c(phrase: Phrase | None, degrees: Degrees) -> float | None:
    """A rise in temperature in Celsius degrees; a rise said in Fahrenheit converts as a difference."""
    if phrase is None or phrase.quantity is None:
        return None
    quantity = phrase.quantity
    if quantity.unit == "degF" or (quantity.unit != "degC" and degrees.fahrenheit):
        return round(quantity.value / 1.8, 2)
    return quantity.value
