"""What somebody in the company does not eat: allergies, and ways of eating."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record
from knowledge.records.ingredients import ALLERGENS

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Diet(Record):
    """One thing to keep out of a dough.

    foods: what it is called in "allergic to …" and its like, the turns of kind `turn` and id `kept_out`.
    allergens: tags that must not be there. ingredients: further ids that must not be there. groups: whole groups of
    ingredients likewise. medical: an allergy or illness rather than a choice, so traces count. advice: what to know
    before answering. hopeless: why no swap makes a wheat dough fit, where that is so. named_for: the ingredient
    meant where only the diet and an amount are said ("no milk for her, it has 250 ml").
    """

    TERM_KIND: ClassVar[str] = "diet"

    name: str
    said_as: tuple[str, ...] = ()
    foods: tuple[str, ...] = ()
    allergens: tuple[str, ...] = ()
    ingredients: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    medical: bool = False
    advice: str = ""
    hopeless: str = ""
    named_for: str = ""

    def forms(self, kb: Knowledge) -> tuple[str, ...]:
        """What was written down, and every turn of keeping out with every food it is named for."""
        word = kb.words.get("turn kept_out")
        turns = word.said_as if word is not None else ()
        return (*self.said_as, *(turn.replace("…", food) for turn in turns for food in self.foods))

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name no ingredient, tags nobody carries, and a diet that keeps nothing out."""
        if not (self.allergens or self.ingredients or self.groups):
            yield "allergens: nothing is kept out"
        for tag in set(self.allergens) - ALLERGENS:
            yield f"allergens: unknown tag {tag!r}"
        for item in (*self.ingredients, *((self.named_for,) if self.named_for else ())):
            if item not in kb.ingredients:
                yield f"ingredients: {item!r} is no ingredient"


FAMILY = Family(folder="diets", record=Diet)
