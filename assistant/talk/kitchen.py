"""The kitchen as it was told: places and how warm they are, what oven, pot, fridge and mixer hold, hours, prices, cups.

Each thing is kept by name with the day it was told, so that each is changed, undone and forgotten alone. What holds
for one bake only stands beside what holds always.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, time
from types import MappingProxyType
from typing import Any

_NOTHING: Mapping[str, Any] = MappingProxyType({})
_NO_PLACE = frozenset({"friction_c", "tap_c", "fridge_c", "freezer_c", "oven_max_c", "oven_off_c"})
_NIGHT, _DAY = "_night_c", "_c"
LIMITS = {
    "fridge_c": (-5.0, 15.0), "freezer_c": (-45.0, 0.0), "tap_c": (0.0, 45.0), "friction_c": (0.0, 25.0),
    "altitude_m": (-430.0, 5500.0), "oven_heat_min": (1.0, 240.0), "pot_l": (0.3, 200.0), "oven_max_c": (120.0, 550.0),
    "oven_off_c": (-60.0, 60.0),
    "fridge_l": (1.0, 2000.0), "fridge_trays": (1.0, 40.0), "trays": (1.0, 40.0),
    "mixer_flour_g": (100.0, 200_000.0), "salt_pct": (0.1, 5.0), "loss_pct": (0.0, 12.0), "starter_pct": (1.0, 100.0),
    "starter_hydration_pct": (40.0, 200.0), "hydration_pct": (40.0, 115.0), "piece_g": (15.0, 3000.0),
}  # fmt: skip
"""What each may be; an altitude as far as people live."""
_PLACE_C = (-10.0, 45.0)
_PIECES = (1.0, 500.0)


@dataclass(frozen=True, slots=True)
class Place:
    """A place dough may stand: day_c, night_c the temperature there, None where it was not told."""

    name: str
    day_c: float | None = None
    night_c: float | None = None


@dataclass(frozen=True, slots=True)
class Passing:
    """A value that holds for one bake: the bake it was told for, None and a day where none was in hand."""

    value: Any
    bake: int | None
    on: str


@dataclass(frozen=True, slots=True)
class Kitchen:
    """values: what was told, by name (units in the names); told_on: name -> ISO date; passing: for one bake only."""

    values: Mapping[str, Any] = field(default_factory=lambda: _NOTHING)
    told_on: Mapping[str, str] = field(default_factory=lambda: _NOTHING)
    passing: Mapping[str, Passing] = field(default_factory=lambda: _NOTHING)

    def now(self, bake: int | None) -> dict[str, Any]:
        """What holds for this bake: what was told for it over what holds always."""
        own = {name: one.value for name, one in self.passing.items() if one.bake is None or one.bake == bake}
        return {**self.values, **own}

    def told(self, values: Mapping[str, Any], on: str) -> Kitchen:
        """Values that hold from now on; None forgets one. A value told for a bake only gives way."""
        merged = {name: one for name, one in {**self.values, **values}.items() if one is not None}
        days = {name: day for name, day in {**self.told_on, **dict.fromkeys(values, on)}.items() if name in merged}
        passing = {name: one for name, one in self.passing.items() if name not in values}
        return replace(self, values=merged, told_on=days, passing=passing)

    def told_for(self, values: Mapping[str, Any], bake: int | None, on: str) -> Kitchen:
        """Values that hold for one bake only, or for the day where none is in hand."""
        return replace(self, passing={**self.passing, **{n: Passing(v, bake, on) for n, v in values.items()}})

    def on(self, today: date) -> Kitchen:
        """The kitchen of a day: what was told for an earlier day is over."""
        still = {n: one for n, one in self.passing.items() if one.bake is not None or one.on == today.isoformat()}
        return self if len(still) == len(self.passing) else replace(self, passing=still)

    def as_json(self) -> dict[str, Any]:
        """Plain JSON: `settings`, `told_on` and `passing` of the bench."""
        return {
            "settings": dict(self.values),
            "told_on": dict(self.told_on),
            "passing": {n: {"value": p.value, "bake": p.bake, "on": p.on} for n, p in self.passing.items()},
        }

    @classmethod
    def from_json(cls, state: Mapping[str, Any]) -> Kitchen:
        """The kitchen as it was kept; missing parts are empty."""
        passing = state.get("passing") or {}
        return cls(
            state.get("settings") or {},
            state.get("told_on") or {},
            {n: Passing(p.get("value"), p.get("bake"), str(p.get("on", ""))) for n, p in passing.items()},
        )


def places(values: Mapping[str, Any]) -> tuple[Place, ...]:
    """The places told, each with its warmth by day and by night."""
    found: dict[str, Place] = {}
    for key, value in values.items():
        if not key.endswith(_DAY) or key in _NO_PLACE or not isinstance(value, int | float):
            continue
        night = key.endswith(_NIGHT)
        name = key.removesuffix(_NIGHT if night else _DAY).replace("_", " ")
        place = found.get(name, Place(name))
        found[name] = replace(place, night_c=float(value)) if night else replace(place, day_c=float(value))
    return tuple(found.values())


def place_named(text: str, values: Mapping[str, Any]) -> Place | None:
    """The place a line speaks of, other than the kitchen; the longest name first."""
    words = f" {' '.join(''.join(c if c.isalnum() else ' ' for c in text.lower()).split())} "
    known = sorted((one for one in places(values) if one.name != "kitchen"), key=lambda place: -len(place.name))
    named = next((place for place in known if f" {place.name} " in words), None)
    if named is not None:
        return named
    heads = [place for place in known if _head(place) not in _ANY_PLACE and f" {_head(place)} " in words]
    return heads[0] if len(heads) == 1 else None


_ANY_PLACE = frozenset({
    "room", "kitchen", "house", "place", "spot", "corner", "cupboard", "shelf", "oven", "fridge", "box",
})  # fmt: skip
"""Words that name many places: alone they mean none of them."""


def _head(place: Place) -> str:
    """The noun of a place's name: the boiler of "top of the boiler"."""
    return place.name.split()[-1]


def hours(values: Mapping[str, Any]) -> Iterator[tuple[str, time, time]]:
    """("asleep" or "out", from, till) for each stretch of every day in which nobody is there."""
    for name, why in (("asleep", "asleep"), ("away", "out")):
        for stretch in str(values.get(name) or "").split(", "):
            start, _, end = stretch.partition("-")
            if end:
                yield why, time.fromisoformat(start), time.fromisoformat(end)


def limits(name: str) -> tuple[float, float] | None:
    """What a setting may be; None where anything may."""
    if name in LIMITS:
        return LIMITS[name]
    if name.endswith("_takes"):
        return _PIECES
    return _PLACE_C if name.endswith(_DAY) else None
