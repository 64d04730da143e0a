"""Constants of the fermentation and heat models: one record per curve or per rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge

_CURVES: Mapping[str, frozenset[str]] = {
    "exponential": frozenset({"a", "b", "c", "top_c"}),
    "cardinal": frozenset({"min_c", "best_c", "max_c", "best_rate"}),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kinetic(Record):
    """A curve or a group of constants, by name.

    `form` says how `values` are read: "exponential" is `a * x^b * exp(-c * x)` with `x = top_c - T`,
    "cardinal" is the four-point temperature model (lowest, best, highest temperature and the rate at
    the best), "constants" is a plain list of named numbers. Temperatures in degrees Celsius, rates per hour.
    """

    meaning: str
    form: Literal["exponential", "cardinal", "constants"]
    values: Mapping[str, float]

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A curve must have exactly the values its form needs."""
        needed = _CURVES.get(self.form)
        if needed is not None and set(self.values) != needed:
            yield f"values: a curve of form {self.form} needs {', '.join(sorted(needed))}"


FAMILY = Family(folder="kinetics", record=Kinetic)
