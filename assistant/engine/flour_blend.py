"""Flours blended to a protein, and gluten powder that lifts a weak one."""

from __future__ import annotations

from assistant.engine.refusal import Refused


def strong_share(target_pct: float, weak_pct: float, strong_pct: float) -> float:
    """Share of the strong flour, 0 to 1, in a blend of that protein: x = (target - weak) / (strong - weak).

    Percent protein of each. Refused when the target lies outside the two.
    """
    low, high = sorted((weak_pct, strong_pct))
    if strong_pct == weak_pct or not low <= target_pct <= high:
        raise Refused(
            f"{target_pct:g} % protein cannot be blended from {weak_pct:g} % and {strong_pct:g} %.",
            f"Anything from {low:g} to {high:g} % works.",
        )
    return (target_pct - weak_pct) / (strong_pct - weak_pct)


def gluten_to_replace_g(flour_g: float, target_pct: float, weak_pct: float, gluten_pct: float) -> float:
    """Grams of gluten powder that take the place of as much flour, so that the total stays `flour_g`."""
    return flour_g * strong_share(target_pct, weak_pct, gluten_pct)


def gluten_on_top_g(flour_g: float, target_pct: float, weak_pct: float, gluten_pct: float) -> float:
    """Grams of gluten powder added to `flour_g` of flour: flour × (target - weak) / (gluten - target)."""
    strong_share(target_pct, weak_pct, gluten_pct)
    return flour_g * (target_pct - weak_pct) / (gluten_pct - target_pct)
