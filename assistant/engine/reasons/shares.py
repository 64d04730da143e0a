"""Why the shares of a dough are what they are: hydration, salt, starter, prefermented flour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.reasons.reason import Reason, water_sources, with_layer

if TYPE_CHECKING:
    from knowledge import Knowledge


def bread_source(formula: Formula, field: str, kb: Knowledge) -> tuple[str, ...]:
    """The bread's record, where the figure was taken from it."""
    if formula.bread is None or formula.layers.get(field) != "assumed":
        return ()
    return (f"{kb.breads[formula.bread].name}: {kb.breads[formula.bread].source}",)


def share_reasons(formula: Formula, kb: Knowledge) -> list[Reason]:
    def usual(field: str) -> tuple[str, ...]:
        return bread_source(formula, field, kb)

    flour = grams(formula.flour_g)
    salt_g = sum(row.g for row in formula.rows if row.role == "salt")
    more = formula.salt_total_pct - formula.salt_pct
    out = [
        Reason(
            "hydration_pct", "hydration", formula.hydration_pct, "%",
            f"{grams(formula.water_g)} g water / {flour} g flour = {figure(formula.hydration_pct)} %"
            f"{with_layer(formula, 'hydration_pct')}", (*usual("hydration_pct"), *water_sources(formula, kb)),
        ),
        Reason(
            "salt_pct", "salt share", formula.salt_pct, "%",
            f"{grams(salt_g)} g salt / {flour} g flour = {figure(formula.salt_pct)} %"
            f"{with_layer(formula, 'salt_pct')}", usual("salt_pct"),
        ),
        Reason(
            "salt_total_pct", "salt in all", formula.salt_total_pct, "%",
            f"{figure(formula.salt_pct)} % weighed + {figure(more)} % in other things",
        ),
    ]  # fmt: skip
    if formula.starter is not None and formula.starter_pct is not None:
        starter, outside = formula.starter, formula.flour_g - formula.starter.flour_g
        out += [
            Reason(
                "starter_pct", "starter share", formula.starter_pct, "%",
                f"{grams(starter.g)} g starter / {grams(outside)} g flour outside it = {figure(formula.starter_pct)} %"
                f"{with_layer(formula, 'starter_pct')}", usual("starter_pct"),
            ),
            Reason(
                "prefermented_pct", "prefermented flour", formula.prefermented_pct, "%",
                f"{grams(starter.flour_g)} g flour in the starter / {flour} g of all flour "
                f"= {figure(formula.prefermented_pct)} %",
            ),
        ]  # fmt: skip
    return out
