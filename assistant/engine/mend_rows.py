"""What brings a dough with too much in it back to its shares: how far it grows, and the rows that are added.

The ripe starter counts as its flour and water, unless its own share is to be made up too.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from assistant.engine.bowl import STARTER, Bowl, Foods
from assistant.engine.composition import Portion, is_flour

LEAST_G = 0.05


@dataclass(frozen=True, slots=True)
class PartKept:
    """To stay at the planned size: keep so much of the spoilt dough and add these."""

    keep_g: float
    add: tuple[Portion, ...]


def growth_of(plan: Bowl, have: Bowl, foods: Foods, *, starter_apart: bool) -> float:
    """How many times the plan's flour is needed so that no row is above its share.

    `starter_apart`: the starter is a row of its own; otherwise its flour and water count with the rest.
    """
    needs = []
    for planned_g, there_g in (
        (_flour_g(plan, foods, starter_apart), _flour_g(have, foods, starter_apart)),
        (_plain_water_g(plan, starter_apart), _plain_water_g(have, starter_apart)),
    ):
        if planned_g > 0:
            needs.append(there_g / planned_g)
    if starter_apart and plan.starter_g > 0:
        needs.append(have.starter_g / plan.starter_g)
    for portion in have.portions:
        if portion.item == "water" or is_flour(foods[portion.item]):
            continue
        planned_g = plan.g(portion.item)
        if planned_g > 0:
            needs.append(portion.g / planned_g)
    return max(needs)


def _flour_g(bowl: Bowl, foods: Foods, starter_apart: bool) -> float:
    return bowl.bowl_flour_g(foods) if starter_apart else bowl.holds(foods).flour_g


def _plain_water_g(bowl: Bowl, starter_apart: bool) -> float:
    return bowl.g("water") if starter_apart else bowl.g("water") + bowl.starter_water_g


def made_up(plan: Bowl, have: Bowl, growth: float, starter_too: bool, foods: Foods) -> Iterable[Portion]:
    """Rows to add so that every share of the flour is the plan's, the flour grown by `growth`."""
    starter_g = max(plan.starter_g * growth - have.starter_g, 0.0) if starter_too else 0.0
    inside = starter_g / (1 + plan.starter_hydration_pct / 100)
    planned, there = plan.holds(foods), have.holds(foods)
    yield from flour_rows(plan, planned.flour_g * growth - there.flour_g - inside, foods)
    plain_g = (plan.g("water") + plan.starter_water_g) * growth - have.g("water") - have.starter_water_g
    yield Portion("water", plain_g - (starter_g - inside))
    if starter_g > 0:
        yield Portion(STARTER, starter_g)
    for portion in plan.portions:
        if portion.item != "water" and not is_flour(foods[portion.item]):
            yield Portion(portion.item, portion.g * growth - have.g(portion.item))


def flour_rows(plan: Bowl, flour_g: float, foods: Foods) -> tuple[Portion, ...]:
    """So much flour in the plan's own blend."""
    whole_g = plan.bowl_flour_g(foods)
    if whole_g <= 0:
        return (Portion(plan.starter_flour, flour_g),)
    return tuple(
        Portion(portion.item, flour_g * portion.g / whole_g)
        for portion in plan.portions
        if is_flour(foods[portion.item]) and portion.g > 0
    )


def salt_rows(plan: Bowl, flour_g: float, foods: Foods) -> tuple[Portion, ...]:
    """The salt that goes with so much flour."""
    whole_g = plan.holds(foods).flour_g
    return tuple(
        Portion(portion.item, portion.g * flour_g / whole_g)
        for portion in plan.portions
        if foods[portion.item].group == "salt"
    )


def part_kept(plan: Bowl, have: Bowl, growth: float) -> PartKept:
    """Keep 1/growth of what is in the bowl; the rest of the plan goes in afresh."""
    share = 1 / growth
    rows = [Portion(row.item, row.g - have.g(row.item) * share) for row in plan.portions]
    if plan.starter_g > 0:
        rows.append(Portion(STARTER, plan.starter_g - have.starter_g * share))
    return PartKept(have.dough_g * share, weighable(rows))


def weighable(rows: Iterable[Portion]) -> tuple[Portion, ...]:
    return tuple(row for row in rows if row.g >= LEAST_G)


def row_of(item: str) -> str:
    return STARTER if item.startswith("starter") else item
