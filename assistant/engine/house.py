"""What a kitchen goes by where a dough says nothing, and the book in which every gap that was filled is noted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from assistant.engine.givens import Defaults, Givens
from assistant.engine.naming import figure, short_name
from assistant.engine.sorted_givens import sorted_givens
from knowledge.records.usual_doughs import UsualDough
from knowledge.records.yeasts import Yeast

if TYPE_CHECKING:
    from knowledge import Knowledge

Layer = Literal["said", "set", "assumed", "solved"]

LEAN_BREAD = "hearth_loaf"
"""Where no bread is named the dough is a lean one, and this record says what is usual for it."""
HOUSE_SALT_PCT = 2.0
HOUSE_STARTER_PCT = 20.0
HOUSE_STARTER_HYDRATION_PCT = 100.0
HOUSE_LOSS_PCT = 1.0
HOUSE_FLOUR = "flour_bread"
HOUSE_YEAST = "yeast_instant"
LIQUID_FROM_PCT = 40.0
"""From this share of the flour on, milk, whey or juice is the dough's liquid and not an enrichment."""


class Gaps:
    """The gaps of one dough while they are filled: its bread, the kitchen's settings, and what was not said.

    layers: for each figure where it came from. assumed: the same in words. open_items: named without an amount where
    none is usual.
    """

    def __init__(self, said: Givens, defaults: Defaults, kb: Knowledge) -> None:
        self.said = sorted_givens(said, kb)
        self.defaults = defaults
        self.kb = kb
        self.bread = kb.breads[self.said.bread] if self.said.bread is not None else None
        self.usual = kb.all(UsualDough).get(self.said.bread) if self.said.bread is not None else None
        self.lean = kb.breads[LEAN_BREAD]
        self.layers: dict[str, Layer] = {}
        self.assumed: list[str] = []
        self.open_items: list[str] = []

    def filled(self, name: str, said: float | None, kept: float | None, usual: float, words: str) -> float:
        """The said figure, else the kitchen's, else the usual one, each noted."""
        if said is not None:
            self.layers[name] = "said"
            return said
        if kept is not None:
            self.layers[name] = "set"
            self.assumed.append(f"{words.format(figure(kept))} (your setting)")
            return kept
        self.layers[name] = "assumed"
        self.assumed.append(words.format(figure(usual)))
        return usual

    def usual_yeast_pct(self, item: str) -> float:
        """The bread's usual yeast (a lean dough's where it has none), in this kind of yeast; noted as assumed."""
        fresh = self.bread.yeast_fresh_usual_pct if self.bread is not None else self.lean.yeast_fresh_usual_pct
        pct = (fresh or self.lean.yeast_fresh_usual_pct) * self.kb.all(Yeast)[item].per_fresh
        self.layers[item] = "assumed"
        self.assumed.append(f"{short_name(self.kb.ingredients[item])} {figure(pct)} % of flour")
        return pct
