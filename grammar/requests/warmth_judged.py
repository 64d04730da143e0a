"""Whether a warmth is right for a leaven or a dough: of the water it goes into, or of the place it stands in."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, celsius
from grammar.levels import LIKELY, SURE, speaks
from grammar.roles import take

HOTTEST_C = 100.0
"""A bare figure above this is in Fahrenheit: no water is hotter."""
_WET = ("ingredient:water", "cue:water", "ingredient:milk*", "cue:tap", "heat:kettle", "kettle:*", "heat:water_temp")
_STARTER = ("ingredient:starter*", "cue:starter")
_YEAST = ("ingredient:yeast*", "yeast_kind:*", "cue:leaven")
_STANDS = ("cue:kitchen", "cue:place", "cue:dough", "stage:bulk", "stage:proof", "step:proof", "look:proofing_box")
_TOO_HOT = ("ask:too_hot", "mistake:hot_water")
_JUDGED = (*_TOO_HOT, "ask:heat_ok", "ask:is_it", "ask:can_i", "stance:will_take", "ask:too_long",
           "hazard:safe")


@dataclass(frozen=True, slots=True)
class WarmthJudgedRequest:
    """is 50 too hot for the yeast
    water at 38 all right for the starter?
    is a 32 degree kitchen too warm for dough

    place: it stands in it; else it is the water's. starter, yeast: what it is to be right for, where that was said.
    """

    warm_c: float
    place: bool = False
    starter: bool = False
    yeast: bool = False


def build(bound: Bound) -> WarmthJudgedRequest | None:
    """The request; None where nothing is judged, where it is told of what was done, or nothing says what it is of."""
    hit = bound.first("warm_c")
    quantity = None if hit is None or hit.amount is None else hit.amount.quantity
    wet, place, starter, yeast = (bound.said(*words) for words in (_WET, _STANDS, _STARTER, _YEAST))
    judged = bound.said(*_TOO_HOT) or ((wet or starter or yeast) and bound.said(*_JUDGED))
    asks = bound.asks() or bound.inverted() or bound.said("ask:is_it", "ask:can_i", "stance:will_take", "ask:too_long",
           "hazard:safe")
    done = hit is None or "done" in hit.meant or bound.said("mistake:water_was")
    if quantity is None or done or not (asks and judged and (wet or place or starter or yeast)):
        return None
    stands = place or (starter and not wet and quantity.value < _AIR_MOST_C)
    return WarmthJudgedRequest(celsius(quantity.value, quantity.unit, HOTTEST_C), stands and not wet, starter, yeast)


_AIR_MOST_C = 36.0
"""A starter stands no warmer than this; what is hotter is water for it."""

FRAME = Frame(
    WarmthJudgedRequest,
    "water",
    build,
    slots={
        "warm_c": take("place_c", dims={"temperature": SURE, "num": LIKELY}, cues=(*_WET, *_STANDS), bare=SURE,
                       low=15, high=212, strict=False, links={"at": LIKELY}),
    },
    cues={
        **dict.fromkeys(_JUDGED, SURE), **speaks(
            maybe=" ".join(dict.fromkeys((*_WET, *_STARTER, *_YEAST, *_STANDS))),
            heard=(
                "heat:* cue:portions stock:enough_for act:make act:use act:add cue:oven ask:what_if stance:* mark:* "
                "step:* look:sits look:leave_out cue:night span:* cue:flour feeding:cold ingredient:flour*"
            ),
            against="ask:how_warm ask:oven_heat",
        ),
    },
    needs=("slot:warm_c",),
    rules_out=("symptom:*", "ask:how*", "ask:when*", "ask:why", "ask:what", "piece:*", "bread:*"),
    wholly=True,
    base=6.0,
    asked=True,
    settles=True,
)  # fmt: skip
