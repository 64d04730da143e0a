"""The machine form of a formula."""

from __future__ import annotations

from typing import Any

from assistant.engine.dough import Formula


def answer_fields(formula: Formula) -> dict[str, Any]:
    """The machine form of a formula."""
    starter = formula.starter
    return {
        "pieces": _count(formula.pieces),
        "piece_g": formula.piece_g,
        "baked_g": formula.baked_g,
        "loss_pct": formula.loss_pct,
        "dough_g": formula.dough_g,
        "spare_g": formula.spare_g,
        "bread": formula.bread,
        "flour_g": formula.flour_g,
        "water_g": formula.water_g,
        "hydration_pct": formula.hydration_pct,
        "salt_pct": formula.salt_pct,
        "salt_total_pct": formula.salt_total_pct,
        "starter_pct": formula.starter_pct if formula.starter_pct is not None else 0.0,
        "prefermented_pct": formula.prefermented_pct,
        "mix": [
            {"item": row.item, "name": row.name, "g": row.g, "pct": row.pct, **({"later": True} if row.later else {})}
            for row in formula.rows
        ],
        "starter": None
        if starter is None
        else {
            "g": starter.g,
            "hydration_pct": starter.hydration_pct,
            "flour_g": starter.flour_g,
            "water_g": starter.water_g,
        },
        "preferments": [
            {
                "item": part.item,
                "name": part.name,
                "g": part.g,
                "hydration_pct": part.hydration_pct,
                "flour_g": part.flour_g,
                "grain_g": part.grain_g,
                "water_g": part.water_g,
                "yeast_g": part.yeast_g,
                "salt_g": part.salt_g,
            }
            for part in formula.preferments
        ],
        "water_from": [{"item": item, "g": g} for item, g in formula.water_from.items()],
        "allergens": list(formula.allergens),
        "remarks": [*formula.remarks, *formula.offers],
    }


def _count(pieces: float | None) -> float | int | None:
    return int(pieces) if pieces is not None and pieces == int(pieces) else pieces
