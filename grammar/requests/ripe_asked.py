"""When the starter of the bake under way, or of the plan that stands, is ripe or has to be."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Slot
from grammar.levels import MAYBE, SELDOM, SURE

_OF_THE_BAKE = 9.0
"""What stands goes before what may be asked in general."""
STARTER = ("ingredient:starter*", "cue:starter")


@dataclass(frozen=True, slots=True)
class RipeAskedRequest:
    """when must the starter be ripe
    what time do I need my starter at its peak
    """


def build(bound: Bound) -> RipeAskedRequest | None:
    """The request; None where nothing stands that it could be about, or the bread is meant."""
    named = bound.said(*STARTER)
    stands = not bound.context.standing.isdisjoint({"plan", "told"}) or (named and bound.context.has_bake)
    if not stands or any(p.kind == "amount" for p in bound.phrases):
        return None
    peaks = bound.said("clocked:ripe", "heat:reach") or {"ripe", "peak", "peaks"} & set(bound.text.lower().split())
    return RipeAskedRequest() if named or (peaks and bound.said("look:ripe")) else None


FRAME = Frame(
    RipeAskedRequest,
    "progress",
    build,
    slots={"thing": Slot(term=STARTER, weight=SELDOM)},
    cues={
        "ask:when": SURE, "ask:how_long": SURE, "ask:can_i": 0.0, "ask:is_it": 0.0, "ask:should_i": 0.0, "link:if": 0.0,
        "stance:called_for": MAYBE, "look:ripe": SURE, "look:done_by": MAYBE, "look:use_it": MAYBE,
        "clocked:ripe": SURE, "clocked:ready": MAYBE, "heat:reach": MAYBE, "mistake:meant": 0.0, "done:ripe": 0.0,
        "tail:*": 0.0, "span:now": 0.0, "step:mix": 0.0, "starter_state:ripe_now": MAYBE,
    },
    needs=("ask:when", "heat:reach"),
    rules_out=("symptom:*", "ask:why", "ask:what", "feeding:feed", "piece:*", "bread:*"),
    wholly=True,
    base=_OF_THE_BAKE,
    settles=True,
)  # fmt: skip
