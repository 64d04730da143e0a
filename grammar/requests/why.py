"""Why a figure is what it is."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.slots import Slot


@dataclass(frozen=True, slots=True)
class WhyRequest:
    """why
    why 1214
    where does the 487 come from
    """

    figure: float | None = None
    about: str | None = None  # a cue id or an ingredient id: "why so much water"


def _why(bound: Bound) -> WhyRequest | None:
    if not bound.context.has_bake and bound.context.focus is None:
        return None  # nothing was said whose reason could be asked
    about = next(
        (
            i
            for p in bound.phrases
            if p.kind == "label"
            for i in (*p.ids("ingredient"), *p.ids("cue"))
            if i not in ("formula",)
        ),
        None,
    )
    if about is None and bound.first("figure") is None and any(p.kind in ("junk", "amount") for p in bound.phrases):
        return None
    return WhyRequest(bound.base("figure"), about)


FRAME = Frame(
    WhyRequest,
    "why",
    _why,
    needs=("ask:why",),
    slots={"figure": Slot({"num": 1.0, "mass": 1.0, "pct": 1.0}, cues=("ingredient:*", "cue:*"), bare=0.6)},
    cues=speaks(telling="ask:why", maybe="ingredient:* cue:* ask:how_much"),
    rules_out=("symptom:*", "stage:*"),
    help_topic="explanation",
)
