"""What a baker goes by from now on: cups, the usual flour, shares of a dough."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.kit_clause import Clause, NotThis, Values
from grammar.kit_items import Item
from grammar.tokens import Quantity

BY_HABIT = {
    "salt": "salt_pct", "hydration": "hydration_pct", "starter": "starter_pct", "loss": "loss_pct",
    "starter_hydration": "starter_hydration_pct", "piece": "piece_g",
}  # fmt: skip
_STARTER_IS_WET_PCT = 40.0
"""A starter "at 60 %" is that wet; less than this is a share of the flour."""
_CUP_ML = ((190, 210, "japanese"), (230, 245, "us"), (245, 260, "metric"), (270, 300, "imperial"))


def only(amounts: Sequence[Item]) -> Quantity:
    if len(amounts) != 1 or amounts[0].amount is None:
        raise NotThis
    return amounts[0].amount


def named_of(
    clause: Clause, named: Sequence[Item], values: Values, habit: bool
) -> None:
    cups = [one for one in named if one.id.startswith("cup ")]
    flours = [one for one in named if not one.id.startswith("cup ")]
    volumes = [one for one in clause.amounts if one.id == "volume"]
    if cups and not flours and len(volumes) == len(clause.amounts) - _ones(clause):
        if not ("cup" in clause.kits or "cup" in cups[0].text or "measure" in cups[0].text):
            raise NotThis
        values["cup"] = cups[0].id.removeprefix("cup ")
    elif len(flours) == 1 and habit and not cups and not clause.amounts and not clause.kits:
        values["flour"] = flours[0].id
    else:
        raise NotThis


def _ones(clause: Clause) -> int:
    """Pronouns that read as numbers: "the Aussie one"."""
    return sum(1 for one in clause.amounts if one.text == "one")


def cup_of(amounts: Sequence[Item], values: Values) -> None:
    if not amounts and "cup" in values:
        return
    amount = only([one for one in amounts if one.text not in ("one", "a")])
    found = next((name for low, high, name in _CUP_ML if low <= amount.base <= high), None)
    if amount.dim != "volume" or amount.unit in ("cup", "cups") or found is None:
        raise NotThis
    values.setdefault("cup", found)


def by_habit(clause: Clause, values: Values, habit: bool) -> None:
    """Shares of a dough kept from now on: only where that is said."""
    own = clause.says("habit")
    if not (habit or own) or len(clause.amounts) > 1:
        raise NotThis
    kits = [name for name in clause.kits if name in BY_HABIT]
    name = "starter_hydration" if {"hydration", "starter"} <= set(kits) else kits[0]
    if not clause.amounts:
        if name == "loss" and clause.says("none") and habit:
            values["loss_pct"] = 0.0
            return
        raise NotThis
    amount = only(clause.amounts)
    if amount.dim not in (("mass",) if name == "piece" else ("pct", "num")) or not habit:
        raise NotThis
    if name == "starter" and amount.value >= _STARTER_IS_WET_PCT:
        name = "starter_hydration"
    values[BY_HABIT[name]] = amount.base if name == "piece" else amount.value
