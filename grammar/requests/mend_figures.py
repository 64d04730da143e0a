"""The figures of a mistake as far as they are no weights of a thing: hydrations, shares, degrees, all that went in."""

from __future__ import annotations

import re

from grammar.frames import Bound, amount_base, fits
from grammar.mishap import Told
from grammar.mishap_words import ids_of


def in_percent(bound: Bound, told: Told) -> bool:
    """Whether both values of the thing are shares of the flour, too small to be a hydration."""
    both = told.meant is not None and told.poured is not None
    return both and max(told.meant or 0, told.poured or 0) < HYDRATIONS[0] and bool(_figures(bound, "pct"))


def all_of_it(bound: Bound, told: Told, inside: list[tuple[str, float]], things: list[int]) -> None:
    """ "whoops, 30 g salt in 1 kg flour": all that went in of the one thing beside the flour."""
    other = [(item, g) for item, g in inside if not item.startswith("flour")]
    if len(other) != 1 or len(inside) != 2:
        return
    told.item = next(i for i in things if other[0][0] in ids_of(bound.phrases[i]))
    told.poured = other[0][1]
    inside.remove(other[0])


def of_warmth(bound: Bound) -> bool:
    """Whether the figures are degrees, by a word of warmth or of what is done to have the dough come out so warm."""
    named = re.search(r"\b(temp|temps|temperature|degrees|warmer|colder|warmth)\b", bound.text.lower()) is not None
    return named or bound.said("heat:ice", "cue:friction", "cue:tap", "mixing:*", "heat:kettle")


def left_the_dough(bound: Bound) -> bool:
    pairs = zip(bound.phrases, bound.phrases[1:], strict=False)
    return any(fits(a, ("mistake:forgot",)) and "left" in a.text.lower() and fits(b, ("cue:dough",)) for a, b in pairs)


def run_out(bound: Bound) -> bool:
    missing = (fits(p, ("cue:missing",)) and not p.negated and " out" in f" {p.text.lower()}" for p in bound.phrases)
    return any(missing) and not bound.said("mistake:forgot", "mistake:twice")


A_DOUGH_G = 200.0
"""A weight told of a dough that is too wet or dry is that of the dough from here on."""
HYDRATIONS = (40.0, 115.0)


def by_hydration(bound: Bound, told: Told, mistake: str) -> str:
    """Hydrations told beside: "meant to be 65 but it's 75", "too dry, 1 kg flour, 60 %"; how it is then off."""
    low, high = HYDRATIONS
    values = [value for value in _figures(bound, "pct", "num") if low <= value <= high]
    if told.off in values:
        told.off = next((g for g in _figures(bound, "mass") if g not in values), None)
    if len(values) == 2:
        meant = told.meant if told.meant in values else values[0]
        poured = next((value for value in reversed(values) if value != meant), meant)
        told.meant, told.poured = meant, poured
        return "over" if poured >= meant else "under"
    if len(values) == 1 and mistake in ("wet", "dry"):
        told.meant_pct, told.meant = values[0], None
    return mistake


def _figures(bound: Bound, *dims: str) -> list[float]:
    """The values told of these sorts."""
    return [amount_base(amount) or 0.0 for amount in bound.amounts("mass") if amount.dim in dims]


NO_HYDRATION = 40.0
"""No dough has less water than this; a smaller figure of the dough is its temperature."""
