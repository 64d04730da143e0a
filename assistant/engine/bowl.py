"""What stands in the bowl: the rows of one dough with the ripe starter told apart, and what they hold together.

Swaps and mends work on this plain picture of a dough; a formula is turned into one by taking its rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from assistant.engine.composition import Composition, Portion, allergens, composition, is_flour
from assistant.engine.dough import Formula
from knowledge.records.ingredients import Ingredient

Foods = Mapping[str, Ingredient]

STARTER = "starter"
"""The item id of the ripe starter's row, whatever its hydration."""


@dataclass(frozen=True, slots=True)
class Bowl:
    """One dough.

    portions: every row but the starter, grams. starter_g, starter_hydration_pct: the ripe starter. starter_flour:
    what it is fed with. pieces, piece_g, loss_pct: how it is to be divided; None where that was not said.
    """

    portions: tuple[Portion, ...]
    starter_g: float = 0.0
    starter_hydration_pct: float = 100.0
    starter_flour: str = "flour_bread"
    pieces: int | None = None
    piece_g: float | None = None
    loss_pct: float = 0.0

    @property
    def starter_flour_g(self) -> float:
        """Flour inside the starter, grams."""
        return self.starter_g / (1 + self.starter_hydration_pct / 100)

    @property
    def starter_water_g(self) -> float:
        """Water inside the starter, grams."""
        return self.starter_g - self.starter_flour_g

    @property
    def dough_g(self) -> float:
        """All of it, grams."""
        return sum(portion.g for portion in self.portions) + self.starter_g

    def g(self, item: str) -> float:
        """Grams of one item, 0 where it is not in the bowl; `starter` is the ripe starter."""
        if item == STARTER or item.startswith("starter_"):
            return self.starter_g
        return sum(portion.g for portion in self.portions if portion.item == item)

    def items(self) -> tuple[str, ...]:
        """The ids in the bowl, the starter's flour standing for the starter."""
        inside = tuple(portion.item for portion in self.portions if portion.g > 0)
        return (*inside, self.starter_flour) if self.starter_g > 0 else inside

    def holds(self, foods: Foods) -> Composition:
        """Flour, water, fat, sugar, salt and protein of the whole, the starter's flour and water counted."""
        starter = (
            (Portion(self.starter_flour, self.starter_flour_g), Portion("water", self.starter_water_g))
            if self.starter_g > 0
            else ()
        )
        return composition((*self.portions, *starter), foods)

    def hydration_pct(self, foods: Foods) -> float | None:
        """Counted water in percent of all flour; None without flour."""
        whole = self.holds(foods)
        return 100 * whole.water_g / whole.flour_g if whole.flour_g > 0 else None

    def salt_pct(self, foods: Foods) -> float | None:
        """The salt rows in percent of all flour; None without flour."""
        flour_g = self.holds(foods).flour_g
        salt_g = sum(portion.g for portion in self.portions if foods[portion.item].group == "salt")
        return 100 * salt_g / flour_g if flour_g > 0 else None

    def bowl_flour_g(self, foods: Foods) -> float:
        """Flour outside the starter, grams."""
        return sum(portion.g for portion in self.portions if is_flour(foods[portion.item]))

    def allergens(self, foods: Foods) -> tuple[str, ...]:
        """Allergen tags of everything in the bowl."""
        return allergens(self.items(), foods)

    def times(self, factor: float) -> Bowl:
        """The same dough, so many times as large; how it is divided stays open."""
        portions = tuple(Portion(one.item, one.g * factor) for one in self.portions)
        return replace(self, portions=portions, starter_g=self.starter_g * factor, pieces=None)

    def with_added(self, added: Iterable[Portion]) -> Bowl:
        """The bowl after each portion went in (or came out, where it is negative); rows that end at nothing go."""
        rows: dict[str, Portion] = {}
        starter_g = self.starter_g
        for portion in (*self.portions, *added):
            if portion.item == STARTER:
                starter_g += portion.g
                continue
            there = rows.get(portion.item)
            rows[portion.item] = replace(portion, g=portion.g + (there.g if there else 0.0))
        kept = tuple(portion for portion in rows.values() if abs(portion.g) > 1e-9)
        return replace(self, portions=kept, starter_g=max(starter_g, 0.0))


def bowl_of(formula: Formula, foods: Foods) -> Bowl:
    """The rows of a solved formula. Other preferments are taken apart into their flour, water, yeast and salt."""
    rows: list[Portion] = []
    flour = next((row.item for row in formula.rows if row.role == "flour"), "flour_bread")
    yeast = next((row.item for row in formula.rows if row.item.startswith("yeast_")), "yeast_instant")
    salt = next((row.item for row in formula.rows if row.role == "salt"), "salt_table")
    for row in formula.rows:
        if row.item in foods and row.item != STARTER:
            rows.append(Portion(row.item, row.g))
    for part in formula.preferments:
        rows += [
            Portion(flour, part.flour_g + part.grain_g),
            Portion("water", part.water_g),
            Portion(yeast, part.yeast_g),
            Portion(salt, part.salt_g),
        ]
    starter = formula.starter
    whole = Bowl(
        (),
        starter_g=starter.g if starter is not None else 0.0,
        starter_hydration_pct=starter.hydration_pct if starter is not None else 100.0,
        pieces=int(formula.pieces) if formula.pieces is not None and formula.pieces >= 1 else None,
        piece_g=formula.piece_g,
        loss_pct=formula.loss_pct,
    )
    return whole.with_added(row for row in rows if row.g > 0)
