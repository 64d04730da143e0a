"""A dough to weigh out, said from any side, whole or as a change to the one in hand."""

from __future__ import annotations

from grammar.follow import Follow
from grammar.frames import Frame
from grammar.requests.formula_build import build
from grammar.requests.formula_merge import went_on
from grammar.requests.formula_parts import Part
from grammar.requests.formula_request import FormulaRequest
from grammar.requests.formula_slots import CUES, SLOTS

__all__ = ["FRAME", "FormulaRequest", "Part"]


FRAME = Frame(
    FormulaRequest,
    "formula",
    build,
    follow=Follow(account=went_on),
    slots=SLOTS,
    cues=CUES,
    rules_out=(
        "cue:pot", "ask:how_long", "ask:when", "act:help", "into:cm", "into:inch", "unit:cm", "unit:inch*",
        "heat:core",
    ),
    help_topic="dough",
    settles=True,
)
