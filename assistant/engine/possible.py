"""Figures that no dough can have, refused before anything is solved."""

from __future__ import annotations

from math import isfinite

from assistant.engine.givens import Givens
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused

LEAST_FIGURE = 0.001
EXAMPLES = {
    "pieces": "12", "piece_g": "80", "baked_g": "70", "dough_g": "2000", "bowl_flour_g": "1000", "all_flour_g": "1000",
    "water_g": "650", "starter_g": "200", "hydration_pct": "66", "salt_pct": "2", "starter_hydration_pct": "100",
    "loss_pct": "1", "held_water_pct": "10",
}  # fmt: skip
"""A sensible figure for each that can be said wrongly."""


def check_figures(givens: Givens) -> None:
    """Refused for figures no dough can have: below zero, not a number, shares beyond what they are shares of."""
    names = {
        "pieces": "pieces", "piece_g": "g a piece", "baked_g": "g baked", "dough_g": "g dough",
        "bowl_flour_g": "g flour", "all_flour_g": "g flour", "water_g": "g water", "starter_g": "g starter",
        "salt_g": "g salt",
        "hydration_pct": "% hydration", "salt_pct": "% salt", "starter_pct": "% starter", "portions": "portions",
        "prefermented_pct": "% prefermented flour", "starter_hydration_pct": "% starter hydration",
        "loss_pct": "% bench loss", "held_water_pct": "% of the water held back", "old_discard_g": "g old discard",
    }  # fmt: skip
    above_zero = {
        "pieces", "piece_g", "baked_g", "dough_g", "bowl_flour_g", "all_flour_g", "portions", "starter_hydration_pct",
    }  # fmt: skip
    for field, words in names.items():
        value = getattr(givens, field)
        if value is None:
            continue
        if not isfinite(value) or value < 0 or (value < LEAST_FIGURE and field in above_zero):
            least = "above 0" if field in above_zero else "0 or more"
            nearest = f"{EXAMPLES.get(field, '20')} {words}"
            raise Refused(f"{figure(value)} {words} cannot be: it must be {least}", nearest)
        if value > 1e9:
            raise Refused(f"{value:.3g} {words} is beyond any bakery", f"a smaller figure for {words}")
    for field, most in (("loss_pct", 90.0), ("held_water_pct", 100.0)):
        value = getattr(givens, field)
        if value is not None and value > most:
            words = names[field]
            raise Refused(f"{figure(value)} {words} leaves nothing to bake", f"at most {figure(most)} {words}")
    if givens.hydration_pct == 0:
        why = "0 % hydration is dry flour: a dough holds together from about 40 %"
        raise Refused(why, "55 to 75 % for most doughs")
    amounts: list[tuple[str, float | None]] = [(limit.item, limit.g) for limit in givens.max_g]
    amounts += [(share.item, value) for share in givens.flours for value in (share.pct, share.g)]
    amounts += [(extra.item, value) for extra in givens.extras for value in (extra.pct, extra.g)]
    amounts += [
        (part.kind, value)
        for part in givens.preferments
        for value in (part.flour_pct, part.pct, part.flour_g, part.g, part.hydration_pct, part.yeast_pct)
    ]
    for item, amount in amounts:
        if amount is not None and (not isfinite(amount) or amount < 0 or amount > 1e9):
            raise Refused(f"{figure(amount)} of {item.replace('_', ' ')} cannot be", "an amount above nothing")
