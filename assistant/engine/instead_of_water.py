"""Milk, whey or beer in place of the water: how much of it brings the water that the hydration wants."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine.givens import Extra, Givens

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.dough import Formula
    from knowledge import Knowledge

LIQUID_WATER_PCT = 60.0
"""An ingredient that holds this much water or more can be poured instead of water."""
_ROUNDS, _DRY_PCT = 6, 0.005


def poured_instead(givens: Givens, kb: Knowledge) -> str | None:
    """The liquid named without an amount in a dough that is to have no water poured; None where there is none."""
    if "water" not in givens.without:
        return None
    open_liquids = [
        extra.item for extra in givens.extras
        if extra.pct is None and extra.g is None and (kb.ingredients[extra.item].water_pct or 0.0) >= LIQUID_WATER_PCT
    ]  # fmt: skip
    return open_liquids[0] if len(open_liquids) == 1 else None


def without_water(givens: Givens, liquid: str, solved: Callable[[Givens], Formula], kb: Knowledge) -> Formula:
    """The dough with so much of the liquid that no water is left to pour.

    The liquid's share x adds x·w of water, w being its own share of water: x grows by what is still poured, by w. One
    round does where everything else is in shares; masses that were said take a few.
    """
    own = (kb.ingredients[liquid].water_pct or 0.0) / 100
    others = tuple(extra for extra in givens.extras if extra.item != liquid)
    plain = replace(givens, without=tuple(item for item in givens.without if item != "water"))
    pct = 0.0
    formula = solved(replace(plain, extras=others))
    for _ in range(_ROUNDS):
        left_pct = 100 * formula.row_g("water") / formula.flour_g
        if left_pct <= _DRY_PCT:
            break
        pct += left_pct / own
        formula = solved(replace(plain, extras=(*others, Extra(liquid, pct=pct))))
    return replace(formula, rows=tuple(row for row in formula.rows if row.item != "water" or row.g > 1.0))
