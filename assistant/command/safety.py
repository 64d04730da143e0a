"""The gate every answer passes on its way out: what the line or the dough calls for and was not yet said."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.cautions import Scene, cautions
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.formula import FormulaRequest
from knowledge.records.cautions import Caution

OWN_WORD = frozenset({"formula", "swap", "mend", "bath", "topping", "explanation"})
"""Kinds whose answers look at their ingredients themselves; only the words of the line are looked at again."""
OF_THE_DOUGH = frozenset({"timing", "plan", "loads", "progress"})
"""Kinds about the dough in hand that know nothing of what is in it."""
SILENT = frozenset({"help", "setting", "record", "recall", "card", "unread"})
"""Kinds that are about the talk or the notebook, not about bread to be eaten."""


def passed(outcome: Outcome, room: Room) -> Outcome:
    """The answer with the cautions it lacks: all of them for programs, the dangerous ones on the page."""
    if outcome.kind in SILENT:
        return outcome
    found = _called_for(outcome.kind, room)
    fresh = [caution for caution in found if caution.text not in outcome.cautions]
    if outcome.kind in OWN_WORD:
        fresh = [caution for caution in fresh if caution.danger]
    if not fresh:
        return outcome
    shown = tuple(Line(caution.text, role="warn") for caution in fresh if caution.danger)
    told = (*outcome.cautions, *(caution.text for caution in fresh))
    return replace(outcome, cautions=told, page=Page((*outcome.page.blocks, *shown)))


def for_refusal(room: Room) -> tuple[str, ...]:
    """The cautions that a line calls for which is refused."""
    return tuple(caution.text for caution in _called_for("refused", room))


def _called_for(kind: str, room: Room) -> tuple[Caution, ...]:
    items, breads = _dough(room) if kind in OF_THE_DOUGH else (frozenset[str](), frozenset[str]())
    scene = Scene(kind=kind, line=room.text, ingredients=items, breads=breads, room_c=_room_c(kind, room))
    return cautions(scene, room.kb.all(Caution), room.kb.ingredients)


def _room_c(kind: str, room: Room) -> float | None:
    return room.kitchen_c if kind in OF_THE_DOUGH else None


def _dough(room: Room) -> tuple[frozenset[str], frozenset[str]]:
    """Ids named for the dough in hand, and its bread."""
    said = room.formula_said
    if not isinstance(said, FormulaRequest):
        return frozenset(), frozenset()
    items = {part.item[0] for part in said.parts if part.item}
    return frozenset(items & set(room.kb.ingredients)), frozenset({said.bread} if said.bread else ())
