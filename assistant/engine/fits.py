"""What fits: pieces on a tray, dough in a tub, dough in a mixer bowl.

Sizes come from volume: a baked piece is an oval cap `height_share` as high as it is wide (a ring has a hole in it), a
risen dough is its gas-free volume times one plus its rise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol


class Shape(Protocol):
    """What this module needs to know of how a piece ends up; a process record has it too."""

    @property
    def ml_per_g(self) -> float: ...
    @property
    def height_share(self) -> float: ...
    @property
    def hole_share(self) -> float: ...
    @property
    def length_share(self) -> float: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class BakedShape:
    """How a kind of piece ends up: ml per baked gram, height as a share of width, share of the outline that is hole."""

    ml_per_g: float
    height_share: float
    hole_share: float = 0.0
    length_share: float = 1.0
    """Length over width; 1 for what is round."""


def baked_width_cm(raw_g: float, bake_loss_pct: float, shape: Shape) -> float:
    """Width of one baked piece in cm (its shorter side where it is long).

    raw_g above 0; bake_loss_pct 0..60. Volume = pi/6 x width x length x height x (1 - hole).
    """
    if raw_g <= 0 or not 0 <= bake_loss_pct < 100:
        raise ValueError("a piece must weigh something, before and after the oven")
    volume_ml = raw_g * (1 - bake_loss_pct / 100) * shape.ml_per_g
    fullness = math.pi / 6 * shape.height_share * shape.length_share * (1 - shape.hole_share)
    return float((volume_ml / fullness) ** (1 / 3))


def tray_pieces(tray_w_cm: float, tray_d_cm: float, width_cm: float, length_cm: float, gap_cm: float = 2.0) -> int:
    """How many pieces lie on a tray with `gap_cm` between them; the edge of the tray needs none.

    The best of straight rows, either way round, and, for round pieces, of rows set off by half a piece. Lengths in cm,
    above 0.
    """
    if min(tray_w_cm, tray_d_cm, width_cm, length_cm) <= 0 or gap_cm < 0:
        raise ValueError("tray and piece need a size above 0")
    best = 0
    for w, d in ((tray_w_cm, tray_d_cm), (tray_d_cm, tray_w_cm)):
        across = _row(w, width_cm, gap_cm)
        best = max(best, across * _row(d, length_cm, gap_cm))
        if math.isclose(width_cm, length_cm, rel_tol=0.05):
            best = max(best, _staggered(w, d, width_cm, gap_cm))
    return best


def _row(room_cm: float, piece_cm: float, gap_cm: float) -> int:
    return max(0, math.floor((room_cm + gap_cm + 1e-9) / (piece_cm + gap_cm)))


def _staggered(w_cm: float, d_cm: float, piece_cm: float, gap_cm: float) -> int:
    pitch = piece_cm + gap_cm
    full = _row(w_cm, piece_cm, gap_cm)
    if full == 0 or d_cm < piece_cm:
        return 0
    rows = 1 + math.floor((d_cm - piece_cm + 1e-9) / (pitch * math.sqrt(3) / 2))
    offset = _row(w_cm - pitch / 2, piece_cm, gap_cm)
    return full * math.ceil(rows / 2) + offset * math.floor(rows / 2)


def dough_litres(dough_g: float, rise_pct: float, density_g_per_l: float = 1200.0) -> float:
    """Litres the dough fills once it has risen `rise_pct` over its gas-free volume.

    Density of gas-free dough by composition: about 1180 g/l at 100 % hydration to 1258 at 50 %.
    """
    if dough_g <= 0 or rise_pct < 0:
        raise ValueError("dough and rise cannot be negative")
    return dough_g / density_g_per_l * (1 + rise_pct / 100)


def gas_free_density_g_per_l(hydration_pct: float) -> float:
    """Density of mixed dough without gas, g per litre, by hydration (straight line through 50 % 1258 and 75 % 1213;
    Choi and Okos 1986 by composition)."""
    return 1258.0 - 1.8 * (hydration_pct - 50.0)


def bowl_batches(flour_g: float, hydration_pct: float, bowl_flour_g: float) -> int:
    """In how many mixes the dough has to be made when the bowl is rated for `bowl_flour_g` of flour at 60 % or wetter.

    A stiff dough strains the motor: below 60 % the limit falls in a straight line to half at 50 %.
    """
    if flour_g <= 0 or bowl_flour_g <= 0:
        raise ValueError("flour and bowl limit must be above 0")
    share = min(1.0, max(0.5, 0.5 + (hydration_pct - 50.0) / 20.0))
    return math.ceil(flour_g / (bowl_flour_g * share) - 1e-9)
