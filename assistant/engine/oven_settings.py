"""Oven settings: Celsius, Fahrenheit, gas marks, fan and conventional.

A fan oven is set 20 °C lower for the same bake, the usual allowance of cooker makers. A figure without a degree is
taken by what an oven can do.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from assistant.engine.refusal import Refused
from knowledge.records.oven_marks import OvenMark

FAN_LOWER_C = 20.0
"""Degrees Celsius by which a fan oven is set lower. Source: cooker makers' handbooks; confidence rule_of_thumb."""
HOTTEST_C = 290.0
"""No home oven's dial goes beyond; what is said higher is Fahrenheit."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting in every scale. mark: the nearest gas mark, None where gas ovens have none; exact_mark: it is one."""

    c: float
    f: float
    mark: float | None
    fan_c: float


def fahrenheit(c: float) -> float:
    """Degrees Fahrenheit of degrees Celsius."""
    return c * 1.8 + 32


def celsius(f: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (f - 32) / 1.8


def setting_of(c: float, marks: Iterable[OvenMark]) -> Setting:
    """A conventional oven's temperature in every scale."""
    return Setting(c, fahrenheit(c), _mark(c, marks), c - FAN_LOWER_C)


def gas_c(mark: float, marks: Iterable[OvenMark]) -> OvenMark:
    """The record of a gas mark. Refused where there is no such mark."""
    known = sorted(marks, key=lambda one: one.mark)
    for one in known:
        if abs(one.mark - mark) < 1e-6:
            return one
    raise Refused(f"there is no gas mark {mark:g}: they run from 1/4 to {known[-1].mark:g}", "a gas mark from 1 to 9")


def degree_meant(value: float) -> str:
    """ "C" or "F" for a bare oven figure: Celsius as far as an oven's dial goes, Fahrenheit above."""
    return "C" if value <= HOTTEST_C else "F"


def _mark(c: float, marks: Iterable[OvenMark]) -> float | None:
    known = list(marks)
    nearest = min(known, key=lambda one: abs(one.c - c))
    return nearest.mark if abs(nearest.c - c) <= 10 else None
