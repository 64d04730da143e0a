"""Whether an oven's heat is right for a bread: "pitas at 200 ok?", "is 240 too hot for brioche"."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, celsius
from grammar.levels import LIKELY, MAYBE, SURE, speaks
from grammar.roles import take
from grammar.slots import Slot

HOTTEST_C = 320.0
"""A bare figure above this, said of an oven, is in Fahrenheit."""
_JUDGED = ("ask:too_hot", "ask:heat_ok", "ask:is_it", "ask:can_i", "ask:should_i", "stance:guess", "stance:serves")


@dataclass(frozen=True, slots=True)
class OvenJudgedRequest:
    """pitas at 200 ok?
    is 240 too hot for brioche
    """

    oven_c: float
    bread: str | None = None
    piece: str | None = None
    fan: bool = False


def build(bound: Bound) -> OvenJudgedRequest | None:
    """The request; None where nothing is judged, or the figure counts the pieces that stand behind it."""
    hit, bread = bound.first("oven_c"), bound.first("bread")
    if hit is None or hit.amount is None or hit.amount.quantity is None or bread is None or bread.label is None:
        return None
    place = bound.phrases.index(hit.amount)
    counts = bound.phrases[place + 1 : place + 2] == (bread.label,) and hit.amount.dim == "num"
    judged = bound.said(*_JUDGED)
    may_be_grams = hit.amount.dim == "num" and bound.context.has_bake  # "and rings at 150?"
    if counts or not (judged or ((bound.asks() or bound.inverted()) and not may_be_grams)):
        return None
    quantity = hit.amount.quantity
    names = bread.label
    return OvenJudgedRequest(
        celsius(quantity.value, quantity.unit, HOTTEST_C),
        next(iter(names.ids("bread")), None),
        next(iter(names.ids("piece")), None),
        bound.said("cue:fan"),
    )


FRAME = Frame(
    OvenJudgedRequest,
    "timing",
    build,
    slots={
        "oven_c": take("oven_c", dims={"temperature": SURE, "num": LIKELY}, cues=("cue:oven", "cue:fan", "stage:bake"),
                       bare=SURE, low=140, high=320, strict=False, links={"at": LIKELY, "to": MAYBE}),
        "bread": Slot(term=("bread:*", "piece:*"), weight=MAYBE),
    },
    cues={
        **dict.fromkeys(_JUDGED, SURE), **speaks(
            maybe="cue:oven cue:fan stage:bake",
            heard="mistake:hot_water cue:portions stock:enough_for heat:degrees act:make hazard:safe",
            unlikely="look:*",
            against="ask:oven_heat",
        ),
    },
    needs=("slot:oven_c",),
    rules_out=("symptom:*", "ask:how*", "ask:when*", "ask:why", "cue:fridge", "cue:starter", "ingredient:*"),
    wholly=True,
    base=9.0,
    asked=True,
    settles=True,
)  # fmt: skip
