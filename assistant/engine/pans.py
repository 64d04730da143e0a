"""How much dough a tin, round or tray takes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi

from assistant.engine.givens import Tin
from assistant.engine.refusal import Refused

BY_VOLUME_FROM_CM = 5.0
"""A round at least this deep is filled like a tin; a flatter one is covered like a tray."""
ML_LIMIT = 50_000.0


@dataclass(frozen=True, slots=True)
class Room:
    """What one tin offers: `ml` where dough is measured by volume, else `cm2`; `how` is the sum with its figures."""

    ml: float | None
    cm2: float | None
    how: str


def straight_ml(length_cm: float, width_cm: float, depth_cm: float) -> float:
    """Brim volume of a box, millilitres; inside lengths in cm."""
    return length_cm * width_cm * depth_cm


def tapered_ml(
    top_length_cm: float, top_width_cm: float, base_length_cm: float, base_width_cm: float, depth_cm: float
) -> float:
    """Brim volume of a tin that narrows to its base: H/6 × ((2a + c)·b + (2c + a)·d), top a × b, base c × d."""
    a, b, c, d = top_length_cm, top_width_cm, base_length_cm, base_width_cm
    return depth_cm / 6 * ((2 * a + c) * b + (2 * c + a) * d)


def round_cm2(diameter_cm: float) -> float:
    """Area of a disc."""
    return pi * diameter_cm**2 / 4


def area_ratio(new_diameter_cm: float, old_diameter_cm: float) -> float:
    """By what a dough grows from one round to another at equal depth."""
    return (new_diameter_cm / old_diameter_cm) ** 2


def room_in(tin: Tin) -> Room:
    """Volume or area of one of the tins. Refused where lengths are missing or impossible."""
    lengths = (
        tin.length_cm, tin.width_cm, tin.depth_cm, tin.base_length_cm, tin.base_width_cm, tin.diameter_cm, tin.ml,
    )  # fmt: skip
    if any(length is not None and length <= 0 for length in lengths) or tin.count < 1:
        raise Refused("a tin needs lengths above zero", "a tin of 23 x 13 x 7 cm")
    if tin.ml is not None:
        return _volume(tin.ml, f"{tin.ml:.0f} ml to the brim")
    if tin.depth_guessed:
        how = f"{tin.length_cm:g} x {tin.width_cm:g} cm and, not said, {tin.depth_cm:g} cm deep: measure yours; "
        room = room_in(replace(tin, depth_guessed=False))
        return replace(room, how=how + f"{room.ml or 0:.0f} ml")
    if tin.diameter_cm is not None:
        area = round_cm2(tin.diameter_cm)
        if tin.depth_cm is not None and tin.depth_cm >= BY_VOLUME_FROM_CM:
            ml = area * tin.depth_cm
            return _volume(ml, f"3.14 x {tin.diameter_cm:g}^2 / 4 x {tin.depth_cm:g} cm = {ml:.0f} ml")
        return Room(None, area, f"3.14 x {tin.diameter_cm:g}^2 / 4 = {area:.0f} cm2")
    if tin.length_cm is None:
        raise Refused("the tin's size is not known", "its length, width and depth in cm or inches")
    width = tin.width_cm if tin.width_cm is not None else tin.length_cm
    if tin.depth_cm is None or (tin.shape == "tray" and tin.depth_cm < BY_VOLUME_FROM_CM):
        if tin.shape == "tin":
            why = "a tin's dough goes by its volume, and the depth is missing"
            raise Refused(why, "its length, width and depth in cm or inches")
        area = tin.length_cm * width
        return Room(None, area, f"{tin.length_cm:g} x {width:g} = {area:.0f} cm2")
    if tin.base_length_cm is not None:
        base_width = tin.base_width_cm if tin.base_width_cm is not None else tin.base_length_cm
        ml = tapered_ml(tin.length_cm, width, tin.base_length_cm, base_width, tin.depth_cm)
        how = (
            f"{tin.length_cm:g} x {width:g} cm at the top, {tin.base_length_cm:g} x {base_width:g} at the base, "
            f"{tin.depth_cm:g} deep = {ml:.0f} ml"
        )
        return _volume(ml, how)
    ml = straight_ml(tin.length_cm, width, tin.depth_cm)
    return _volume(ml, f"{tin.length_cm:g} x {width:g} x {tin.depth_cm:g} cm = {ml:.0f} ml")


def _volume(ml: float, how: str) -> Room:
    if ml > ML_LIMIT:
        raise Refused(f"a tin of {ml / 1000:.0f} litres is larger than an oven", "its size in cm or inches")
    return Room(ml, None, how)
