"""The mended dough is the dough in hand from then on, where what was said of it can be set anew to give just that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from assistant.answers.dough_said import solved
from assistant.engine.bowl import STARTER, Bowl, bowl_of
from assistant.engine.refusal import Refused
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part

NOTE, BEFORE = "mend", "before"
SAME = 0.005
"""Two rows within half a per cent are the same on a kitchen scale."""


def as_before(room: Room) -> Room:
    """The room with the dough as it was before the mend that a line goes on from ("it's already in bulk")."""
    memory = room.bench.notes.get(NOTE) or {}
    if room.bake is None or memory.get("bake") != room.bake.id or BEFORE not in memory:
        return room
    return replace(room, bench=room.bench.with_changed_bake(memory[BEFORE]))


def in_hand(outcome: Outcome, plan: Bowl, after: Bowl, room: Room) -> Outcome:
    """The outcome with the dough in hand set to what is in the bowl after the mend; as it was where it is the same."""
    said = room.formula_said
    bake = room.bake
    if bake is None or not isinstance(said, FormulaRequest):
        return outcome
    before = bowl_of(solved(said, room), room.kb.ingredients)
    if not _alike(before, plan) or _alike(before, after):
        return outcome
    for changed in _ways(said, after, room):
        try:
            if not _alike(bowl_of(solved(changed, room), room.kb.ingredients), after):
                continue
        except Refused:
            continue
        bench = room.bench.with_changed_bake(kept(changed)).with_notes(NOTE, {"bake": bake.id, BEFORE: dict(bake.said)})
        return replace(outcome, bench=bench, change={"what": "formula", "new": False, "dough": bake.name})
    return outcome


def _ways(said: FormulaRequest, after: Bowl, room: Room) -> Iterator[FormulaRequest]:
    """What was said, set anew: the same shares in another size, else every row by its weight."""
    if after.pieces is not None and said.piece_g is not None:
        yield replace(said, pieces=float(after.pieces), piece_g=after.piece_g)
    size = replace(said, flour_g=None, dough_g=after.dough_g, pieces=None, piece_g=None)
    yield size
    if said.preferments:
        return
    foods = room.kb.ingredients
    parts: list[Part] = []
    water_g = salt_g = 0.0
    for row in after.portions:
        group = foods[row.item].group
        if row.item == "water":
            water_g += row.g
        elif row.item == "salt_table":
            salt_g += row.g
        else:
            parts.append(Part((row.item,), g=row.g, flour=group == "flour"))
    yield FormulaRequest(
        bread=said.bread,
        piece=said.piece,
        pieces=float(after.pieces) if after.pieces is not None else None,
        parts=tuple(parts),
        water_g=water_g or None,
        salt_g=salt_g or None,
        starter_g=after.starter_g or None,
        starter_hydration_pct=after.starter_hydration_pct if after.starter_g > 0 else None,
        without=() if after.starter_g > 0 else (STARTER,),
        from_masses=True,
        kitchen_c=said.kitchen_c,
    )


def _alike(first: Bowl, second: Bowl) -> bool:
    """Whether two bowls hold the same rows at the same weights."""
    items = {*first.items(), *second.items(), STARTER} - {first.starter_flour}
    items |= {row.item for row in (*first.portions, *second.portions)}
    return all(abs(first.g(item) - second.g(item)) <= max(SAME * second.g(item), 0.2) for item in items)

