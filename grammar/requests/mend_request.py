"""What is told of a mishap."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MendRequest:
    """meant 620 g water, poured 700, there's 1100 g flour in the bowl
    i left the salt out
    put the salt in twice
    50 g too much water
    dough is too wet, i overpoured

    mistake: over, under, forgot, twice, wet, dry, wrong, exchanged, ounces, short, hot_water or step. item: ids the
    thing may be. meant_g, poured_g, off_g: as planned, as it went in, the difference; ml where `in_ml`. used: ids
    of what went in by mistake. share: "half" of it. times: how often it went in. too_few: pieces missing. inside:
    other things said to be in the bowl, (id, g). stage: mixing, bulk, shaped, baking, baked. late_min: how long
    ago. step: what was not done.
    """

    mistake: str
    item: tuple[str, ...] = ()
    meant_g: float | None = None
    poured_g: float | None = None
    off_g: float | None = None
    in_ml: bool = False
    counted: bool = False  # the amounts are pieces: eggs
    used: tuple[str, ...] = ()
    inside: tuple[tuple[str, float], ...] = ()
    stage: str | None = None
    late_min: float | None = None
    step: str | None = None
    pieces: float | None = None
    made: float | None = None
    too_few: float | None = None
    share: float | None = None
    meant_pct: float | None = None
    poured_pct: float | None = None
    times: float | None = None
    starter_pct: float | None = None
    piece_g: float | None = None
    dough_g: float | None = None
    water_c: float | None = None
    dissolved: bool = False
    again: bool = False  # goes on from the last mishap told


SAME = "same"
"""The mistake of a line that goes on: "it's already in bulk", "there's 1 kg flour in it"."""
