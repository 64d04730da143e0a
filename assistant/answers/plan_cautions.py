"""What can hurt in a plan: every caution for programs, the grave ones on the page itself."""

from __future__ import annotations

from assistant.answers.plan_said import Settled
from assistant.engine.cautions import Scene, allergen_line, cautions
from assistant.engine.plan.limits import WARM_AIM_MIN
from assistant.engine.plan.steps import Plan
from assistant.talk.room import Room
from knowledge.records.cautions import Caution

_GRAVE_RANK = 18
"""Up to this rank a note stands on the short page of a plan, whatever was heard before."""


def cautions_of(said: Settled, found: Plan, room: Room) -> tuple[str, ...]:
    """Everything to be careful of, and the allergens."""
    items = [row.item for row in said.formula.rows if row.item in room.kb.ingredients]
    if said.formula.starter is not None:
        items.append("flour_bread")
    line = allergen_line(items, room.kb.ingredients)
    notes = (*_warm(said, found), *(one.text for one in _found(said, found, room)))
    return (*notes, line) if line else notes


def shown_cautions(said: Settled, found: Plan, room: Room) -> tuple[str, ...]:
    """What the page of the plan says of it."""
    grave = (one.text for one in _found(said, found, room) if one.danger or one.rank <= _GRAVE_RANK)
    warm = _warm(said, found)
    return (*warm, *(text for text in grave if not (warm and text == _egg_text(room))))


def _egg_text(room: Room) -> str:
    """The general note, which the plan's own hours say better."""
    return room.kb.all(Caution)["egg_milk_warm"].text


def _found(said: Settled, found: Plan, room: Room) -> tuple[Caution, ...]:
    bath = said.finishing.bath
    items = {row.item for row in said.formula.rows if row.item in room.kb.ingredients}
    if bath is not None and bath.item is not None:
        items.add(bath.item)
    scene = Scene(
        kind="plan",
        line=room.text,
        ingredients=frozenset(items),
        breads=frozenset({said.bread.id}),
        baths=frozenset() if bath is None else frozenset({bath.id}),
        steps=frozenset(t.step for t in found.tasks if t.step != "boil" or not said.finishing.cold_dip),
        oven_c=said.batch.oven_c,
        room_c=said.kitchen.room_c,
        warm_min=float(found.warm_min),
    )
    return cautions(scene, room.kb.all(Caution), room.kb.ingredients)


def _warm(said: Settled, found: Plan) -> tuple[str, ...]:
    if not said.batch.perishable:
        return ()
    return (
        f"egg or milk in the dough: {found.warm_min / 60:.1f} h out of the fridge in all; food-safety advice for "
        f"perishables is 2 h, the trade holds such doughs up to {WARM_AIM_MIN // 60} h; local advice goes first",
    )
