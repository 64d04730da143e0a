"""The safety notes that belong to a stage of a dough."""

from __future__ import annotations

from assistant.engine.cautions import Scene, cautions
from assistant.engine.dough import Formula
from assistant.talk.room import Room
from knowledge.records.breads import Bread
from knowledge.records.cautions import Caution

ALKALI_BREAD = "pretzel"
"""Goes through an alkali bath rather than plain boiling water."""


def safety_notes(
    room: Room, stage: str, bread: Bread | None, formula: Formula | None, air_c: float, minutes: float
) -> tuple[str, ...]:
    """The safety notes that belong to a stage of this dough: egg and milk kept warm, a bath, a hot oven."""
    kb = room.kb
    items = {row.item for row in formula.rows if row.item in kb.ingredients} if formula is not None else set()
    if formula is None and bread is not None and bread.egg_usual_pct > 0:
        items.add("egg_whole")
    scene = Scene(
        kind="timing",
        line=room.text,
        ingredients=frozenset(items),
        breads=frozenset({bread.id}) if bread is not None else frozenset(),
        baths=_baths(bread) if stage == "boil" else frozenset(),
        steps=frozenset({stage}),
        room_c=air_c,
        warm_min=minutes if air_c > 8 and stage in ("bulk", "proof") else None,
    )
    return tuple(note.text for note in cautions(scene, kb.all(Caution), kb.ingredients))


def _baths(bread: Bread | None) -> frozenset[str]:
    return frozenset({"soda" if bread is not None and bread.id == ALKALI_BREAD else "plain"})
