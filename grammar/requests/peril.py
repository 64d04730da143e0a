"""A danger: mould, glass, lye on the skin, a dog full of dough. Heard before all else."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.complaint import hear
from grammar.dangers import asks_for_rescue, dangers_heard
from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.going_on import supposes, turns_to

_EATERS = {"baby", "child", "pregnant"}
_SURE = 100.0
"""Nothing else a line says goes before a danger."""


@dataclass(frozen=True, slots=True)
class PerilRequest:
    """there are pink streaks in my starter
    a glass jar broke over the dough
    the dog ate the rising dough

    dangers: ids, the gravest first; those just warned of where something is still to be saved ("not even a spoonful?").
    symptoms: faults told beside them.
    """

    dangers: tuple[str, ...] = ()
    symptoms: tuple[str, ...] = ()


def _reads(line: Line) -> Own | None:
    dangers = dangers_heard(line.text, line.lexicon, line.context.of)
    if not dangers and line.context.dangers and not _weighs(line):
        dangers = line.context.dangers if _of_the_same(line) else ()
    if not dangers:
        return None
    return Own(PerilRequest(dangers, hear(line.text, line.lexicon, line.tokens).symptoms), _SURE)


def _of_the_same(line: Line) -> bool:
    """Whether a line pleads for what was condemned, supposes it otherwise or turns to somebody else who may eat it."""
    somebody = turns_to(line.text, line.lexicon) and any(_EATERS & {*t.ids("person")} for t in line.tokens)
    return somebody or asks_for_rescue(line.text, line.lexicon) or supposes(line.text, line.lexicon)


def _weighs(line: Line) -> bool:
    """Whether the line gives masses or shares, and so speaks of a dough: "a spoon of it" does not."""
    return any(t.quantity is not None and t.quantity.dim in ("mass", "pct") for t in line.tokens)


FRAME = Frame(PerilRequest, "diagnosis", never_by_slots, reads=_reads, first=True, needs=("slot:none",))
