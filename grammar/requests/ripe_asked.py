"""When the starter of the bake under way, or of the plan that stands, is ripe or has to be."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame
from grammar.levels import SELDOM, speaks
from grammar.slots import Slot

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
    peaks = bound.said("clocked:ripe") or {"ripe", "peak", "peaks"} & set(bound.text.lower().split())
    return RipeAskedRequest() if named or (peaks and bound.said("look:ripe")) else None


FRAME = Frame(
    RipeAskedRequest,
    "progress",
    build,
    slots={"thing": Slot(term=STARTER, weight=SELDOM)},
    cues=speaks(
        sure="ask:when ask:how_long look:ripe clocked:ripe",
        maybe="stance:called_for look:done_by look:use_it clocked:ready heat:reach starter_state:ripe_now",
        heard="ask:can_i ask:is_it ask:should_i link:if mistake:meant done:ripe tail:* span:now step:mix",
    ),
    needs=("ask:when", "heat:reach"),
    rules_out=("symptom:*", "ask:why", "ask:what", "feeding:feed", "piece:*", "bread:*"),
    wholly=True,
    base=_OF_THE_BAKE,
    settles=True,
)  # fmt: skip
