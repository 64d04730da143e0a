"""Safety notes and what calls for them.

Every answer passes by these records: `assistant/engine/cautions.py` compares them with what the answer is about. A new
caution is a YAML record and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Trigger:
    """One set of circumstances. Every field that is given must hold; a list holds when any of its entries is there.

    ingredients: ids in the dough, bath or topping. with_ingredients: a second list, so that two things must meet.
    allergens: tags the dough carries. kinds: kinds of answer. topics: explanation ids. breads, baths, steps: ids.
    words: words or short phrases of the line, lower case. oven_above_c, room_above_c: temperatures in degrees Celsius.
    warm_above_min: minutes the dough stands above fridge temperature.
    """

    ingredients: tuple[str, ...] = ()
    with_ingredients: tuple[str, ...] = ()
    allergens: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    topics: tuple[str, ...] = ()
    breads: tuple[str, ...] = ()
    baths: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    oven_above_c: float | None = None
    room_above_c: float | None = None
    warm_above_min: float | None = None

    def empty(self) -> bool:
        """True when nothing is given: such a trigger would hold for every answer."""
        return all(not getattr(self, field.name) and getattr(self, field.name) != 0 for field in fields(self))


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution(Record):
    """One safety note.

    text: what is said, short. when: any of these circumstances calls for it. danger: said every time; otherwise the
    page shows it once for a bake. rank: lower comes first. instead_of: ids of milder notes this one makes needless.
    """

    text: str
    when: tuple[Trigger, ...]
    danger: bool = False
    rank: int = 50
    instead_of: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Ids that name nothing, and a trigger that would always hold."""
        if not self.when:
            yield "when: is empty, so the note could never be shown"
        for trigger in self.when:
            if trigger.empty():
                yield "when: an entry without any circumstance"
            for item in (*trigger.ingredients, *trigger.with_ingredients):
                if item not in kb.ingredients and item != "starter":
                    yield f"when.ingredients: {item!r} is no ingredient"
            for bread in trigger.breads:
                if bread not in kb.breads:
                    yield f"when.breads: {bread!r} is no bread"
        for other in self.instead_of:
            if other not in kb.all(Caution):
                yield f"instead_of: {other!r} is no caution"


FAMILY = Family(folder="cautions", record=Caution)
