"""How hot and how long a recipe bakes: its oven setting, its minutes, its durations."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

_TIME = re.compile(
    r"^(?P<what>prep(?:aration)?|cook(?:ing)?|bak(?:e|ing)|total|rest(?:ing)?|ris(?:e|ing)|proof(?:ing)?)\s*time\s*:?\s*"
    r"(?P<rest>.*)$",
    re.I,
)
_FAR = r"(?P<low>\d{2,3})(?:\s*(?:-|–|to)\s*(?P<high>\d{2,3}))?\s*(?:°|º|˚|degrees?\s*|deg\.?\s*)?\s*"
_HEAT = re.compile(_FAR + r"(?P<unit>°?[CF]\b|celsius|fahrenheit|℃|℉|centigrade)", re.I)
_BARE_HEAT = re.compile(r"\boven\b.{0,30}?\bto\s+(\d{3})\b(?!\s*(?:g|ml))", re.I)
_POSSIBLE = {"C": (90, 350), "F": (195, 660)}
_HOTTEST_BARE_C = 280
_GAS = re.compile(r"gas\s*(?:mark\s*)?(?P<mark>\d{1,2}|1/2|1/4)\b", re.I)
_FAN = re.compile(r"\bfan\b|\bconvection\b", re.I)
_OVEN_WORDS = re.compile(r"\boven\b|\bbake\b|\bbaking\b|\bpreheat\b|\bheat\b", re.I)
_MINUTES = r"(?P<low>\d{1,3})(?:\s*(?:-|–|to)\s*(?P<high>\d{1,3}))?\s*(?:min|minutes|mins)\b"
_BAKE_MINUTES = re.compile(rf"\bbak(?:e|ing)\b[^.]{{0,80}}?{_MINUTES}", re.I)
_BAKE_TIME = re.compile(rf"^(?:bak(?:e|ing)|cook(?:ing)?)\s*time\s*:?\s*{_MINUTES}", re.I)
_OVEN_LINE = re.compile(
    r"^(?:oven|baking temperature|temperature|bake(?:d)? (?:at|for|temp)|baking time|preheat)\b", re.I
)
_DURATION_ISO = re.compile(r"^P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$", re.I)
_HOURS = re.compile(r"(?P<n>\d+(?:[.,]\d+)?)\s*(?P<u>h|hr|hrs|hours?|m|min|mins|minutes?|d|days?)\b", re.I)


@dataclass(frozen=True, slots=True)
class OvenSaid:
    """An oven setting as said: value in `unit` C, F or gas; fan: said of a fan oven."""

    value: float
    unit: Literal["C", "F", "gas"]
    fan: bool = False


def tells_times(text: str) -> bool:
    """Whether a row tells times or the oven and nothing else."""
    return _TIME.match(text) is not None or _OVEN_LINE.match(text) is not None


def oven_said(text: str) -> OvenSaid | None:
    """The first oven setting in a line that speaks of an oven or of baking; Celsius before Fahrenheit before gas."""
    if not _OVEN_WORDS.search(text):
        return None
    return _in_degrees(text) or _in_gas_marks(text) or _without_degree(text)


def _in_degrees(text: str) -> OvenSaid | None:
    """A setting with its scale, of those an oven can have; the conventional one where a fan's stands beside it."""
    hot: list[tuple[float, Literal["C", "F"], re.Match[str]]] = []
    for match in _HEAT.finditer(text):
        value = float(match.group("low"))
        unit: Literal["C", "F"] = "F" if match.group("unit").upper().lstrip("°")[0] in "F℉" else "C"
        low, high = _POSSIBLE[unit]
        if low <= value <= high:
            hot.append((value, unit, match))
    if not hot:
        return None
    value, unit, match = min(hot, key=lambda row: row[1])
    if not _FAN.search(_near(text, match, 12)):
        return OvenSaid(value, unit)
    without_fan = [row[0] for row in hot if row[1] == unit and not _FAN.search(_near(text, row[2], 6))]
    return OvenSaid(without_fan[0], unit) if without_fan else OvenSaid(value, unit, fan=True)


def _in_gas_marks(text: str) -> OvenSaid | None:
    gas = _GAS.search(text)
    if gas is None:
        return None
    mark = gas.group("mark")
    return OvenSaid({"1/2": 0.5, "1/4": 0.25}.get(mark) or float(mark), "gas")


def _without_degree(text: str) -> OvenSaid | None:
    """A bare figure the oven is heated to, taken by what an oven can do."""
    bare = _BARE_HEAT.search(text)
    if bare is None:
        return None
    value = float(bare.group(1))
    return OvenSaid(value, "C" if value <= _HOTTEST_BARE_C else "F")


def _near(text: str, match: re.Match[str], signs: int) -> str:
    return text[max(0, match.start() - signs) : match.end() + signs]


def bake_minutes(text: str) -> tuple[float, float] | None:
    match = _BAKE_MINUTES.search(text) or _BAKE_TIME.match(text)
    if match is None:
        return None
    low = float(match.group("low"))
    return low, float(match.group("high") or low)


def total_minutes(text: str) -> float | None:
    match = _TIME.match(text)
    if match is None or not match.group("what").lower().startswith("total"):
        return None
    return minutes(match.group("rest"))


def minutes(said: str) -> float | None:
    """Minutes of a duration: "1 hour 20 min", ISO 8601 "PT1H20M"; None where it is neither."""
    iso = _DURATION_ISO.match(said.strip())
    if iso and any(iso.groups()):
        days, hours, mins, secs = (float(part or 0) for part in iso.groups())
        return days * 1440 + hours * 60 + mins + secs / 60
    total, seen = 0.0, False
    for match in _HOURS.finditer(said):
        seen = True
        n, unit = float(match.group("n").replace(",", ".")), match.group("u").lower()[0]
        total += n * {"h": 60, "m": 1, "d": 1440}[unit]
    return total if seen else None
