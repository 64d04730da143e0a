"""What a dough costs by the prices that are known, and what has to be bought for it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assistant.engine.composition import Portion

FREE = frozenset({"water"})
"""Items that cost nothing unless they have a price."""


@dataclass(frozen=True, slots=True)
class Cost:
    """total: of all that has a price, in the prices' own currency; unpriced: ids of what has none, heaviest first."""

    total: float
    by_item: Mapping[str, float]
    unpriced: tuple[str, ...]


def cost(portions: Iterable[Portion], per_kg: Mapping[str, float]) -> Cost:
    """What the portions cost at `per_kg`, the price of a kilogram by item id. No price is ever made up.

    Grams times price by the kilogram, added up; tap water is free where it has no price.
    """
    by_item: dict[str, float] = {}
    without: dict[str, float] = {}
    for portion in portions:
        if portion.g <= 0:
            continue
        price = per_kg.get(portion.item)
        if price is not None:
            by_item[portion.item] = by_item.get(portion.item, 0.0) + portion.g / 1000 * price
        elif portion.item not in FREE:
            without[portion.item] = without.get(portion.item, 0.0) + portion.g
    return Cost(sum(by_item.values()), by_item, tuple(sorted(without, key=lambda item: -without[item])))


def to_buy(portions: Iterable[Portion]) -> tuple[Portion, ...]:
    """Each thing once, heaviest first, without tap water."""
    g: dict[str, float] = {}
    for portion in portions:
        if portion.item not in FREE and portion.g > 0:
            g[portion.item] = g.get(portion.item, 0.0) + portion.g
    return tuple(Portion(item, amount) for item, amount in sorted(g.items(), key=lambda pair: -pair[1]))


def price_per_kg(price: float, g: float) -> float:
    """The price of a kilogram where `g` grams cost `price`. ValueError where that is no mass or no price."""
    if g <= 0 or price < 0:
        raise ValueError(f"{price} for {g} g is no price")
    return price * 1000 / g
