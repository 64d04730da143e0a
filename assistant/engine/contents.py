"""What a dough is made of, down to single ingredients: the starter and every preferment taken apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.engine.composition import Portion
from assistant.engine.dough import Formula
from assistant.engine.givens import Preferment
from knowledge.records.ingredients import Ingredient


def contents(
    formula: Formula, starter_flour: str, preferments: Sequence[Preferment], foods: Mapping[str, Ingredient]
) -> tuple[Portion, ...]:
    """Each ingredient once, in grams; together they weigh the dough.

    starter_flour: what the starter is fed with. preferments: as they were said, for the flour and yeast of each; where
    none was said, the dough's first flour and instant yeast stand for it.
    """
    g: dict[str, float] = {}

    def pour(item: str, amount: float) -> None:
        if amount > 0:
            g[item] = g.get(item, 0.0) + amount

    white = next((row.item for row in formula.rows if row.role == "flour" and row.item in foods), starter_flour)
    salt = next((row.item for row in formula.rows if row.role == "salt"), "salt_table")
    for row in formula.rows:
        if row.role not in ("starter", "preferment") and row.item in foods:
            pour(row.item, row.g)
    if formula.starter is not None:
        pour(starter_flour, formula.starter.flour_g)
        pour("water", formula.starter.water_g)
    for part in formula.preferments:
        said = next((one for one in preferments if one.kind == part.item), None)
        flour = starter_flour if part.item == "old_discard" else (said.flour if said and said.flour else white)
        pour(flour, part.flour_g + part.grain_g)
        pour("water", part.water_g)
        pour(said.yeast if said and said.yeast else "yeast_instant", part.yeast_g)
        pour(salt, part.salt_g)
    return tuple(Portion(item, amount) for item, amount in g.items())
