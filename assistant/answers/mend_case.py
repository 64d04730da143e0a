"""A mistake in the bowl as it is put right: what was told of it, and the dough as it was meant."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.answers.in_the_bowl import name_of
from assistant.engine.bowl import Bowl, Foods
from assistant.engine.refusal import Refused
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.mend_request import MendRequest
from knowledge.records.lapses import Lapse

_ALIKE = frozenset({"salt", "leavening", "fat", "dairy", "malt", "sugar", "egg", "seed"})
"""Groups whose members are taken for one another: the "butter" told is the fat of the dough."""
_CUP_ML = 236.588


@dataclass(frozen=True, slots=True)
class Case:
    """assumed: what was assumed of the dough, in words; known: whether its size is known."""

    request: MendRequest
    plan: Bowl
    assumed: tuple[str, ...]
    known: bool
    room: Room

    @property
    def stage(self) -> str:
        return self.request.stage or "mixing"

    @property
    def foods(self) -> Foods:
        return self.room.kb.ingredients

    @property
    def lapses(self) -> Mapping[str, Lapse]:
        return self.room.kb.all(Lapse)

    def called(self, item: str) -> str:
        return name_of(item, self.room)

    def item(self) -> str:
        """What the mistake is of; Unclear where that was not said."""
        item = item_of(self.request, self.plan, self.room)
        if item is not None:
            return item
        if self.request.mistake == "ounces":
            raise Unclear(
                "What was weighed in ounces, all of it or one thing?",
                ("scale was on ounces for the salt", "took ounces for grams for 24 g yeast"),
            )
        raise Unclear(
            "Too much or too little of what?", ("50 g too much water", "forgot the salt", "put the salt in twice")
        )


def item_of(request: MendRequest, plan: Bowl | None, room: Room) -> str | None:
    """Which ingredient a mistake is of: one of the dough before any other. None where none was named."""
    foods = room.kb.ingredients
    named = [item for item in request.item if item in foods]
    flours = [row for row in plan.portions if foods[row.item].group == "flour"] if plan is not None else []
    if "flour" in request.item and flours:
        return max(flours, key=lambda row: row.g).item
    if plan is not None:
        groups = {foods[item].group for item in named}
        alike = [row.item for row in plan.portions if foods[row.item].group in groups]
        inside = [item for item in named if plan.g(item) > 0]
        named = [*inside, *(alike if groups & _ALIKE else ()), *named]
    return named[0] if named else "flour_bread" if "flour" in request.item else None


def grams_said(request: MendRequest, value: float | None, item: str | None, room: Room) -> float | None:
    """Grams of an amount said in grams, in pieces, or in millilitres of this ingredient."""
    food = room.kb.ingredients[item] if item is not None and item in room.kb.ingredients else None
    if value is not None and request.counted and food is not None and food.each_g:
        return value * food.each_g
    if value is None or not request.in_ml or item is None:
        return value
    if food is None or food.cup_g is None:
        raise Refused(f"{name_of(item, room).capitalize()} cannot be weighed from a volume.", "Say it in grams.")
    return value * food.cup_g / _CUP_ML
