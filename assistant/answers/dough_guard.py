"""A bake that is planned or marked keeps its size until another is asked for in so many words."""

from __future__ import annotations

from assistant.engine.naming import figure
from assistant.talk.bench import ASIDE, Bake
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest

_NOT_BEGUN = frozenset({"cautions_heard", "verdict", ASIDE})
"""Facts of a bake that do not mean that its dough is being made."""
_ASKED = (
    "act:change", "act:correct", "act:scale", "act:double", "act:halve", "act:triple", "act:use", "act:make",
    "act:same", "act:add", "ask:what_if", "ask:*", "cue:fewer", "cue:greater", "cue:bigger", "cue:limit", "act:more",
)  # fmt: skip
"""Words that ask for another size."""
_LINKS = frozenset({"for", "instead", "instead_of", "rather_than", "if", "to", "each", "per"})


def guarded(line: FormulaRequest | None, room: Room) -> None:
    """Raises Unclear where a bare number of pieces would give a dough another size that is already under way."""
    bake = room.bake
    if line is None or bake is None or room.bound is None or line.whole or line.pieces is None or line.asked:
        return
    said = bake.said.get("pieces")
    if said is None or said == line.pieces or not (_marked(bake) or _planned(room)):
        return
    bound = room.bound
    if bound.said(*_ASKED) or bound.links() & _LINKS or line.size_lead or line.scale is not None or bound.asks():
        return
    if bound.lexicon.small("puts_instead") & set(room.text.lower().replace(",", " ").split()):
        return
    many = f"make it {figure(line.pieces)}"
    question = f"{bake.label} is under way. Is it to become {figure(line.pieces)} pieces, or is this a new dough?"
    raise Unclear(question, (many, f"new dough: {room.text.strip()}"))


def _marked(bake: Bake) -> bool:
    return bool(set(bake.facts) - _NOT_BEGUN)


def _planned(room: Room) -> bool:
    plan = room.bench.notes.get("plan") or {}
    return room.bake is not None and plan.get("dough") == room.bake.name
