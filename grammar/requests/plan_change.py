"""A change to a plan: the one asked for before, or one that the talk has gone away from."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from grammar.frames import Bound, Frame
from grammar.requests.plan import PlanRequest, build
from grammar.requests.plan_slots import CUES, RULED_OUT, SLOTS


@dataclass(frozen=True, slots=True)
class PlanChange(PlanRequest):
    """what if the kitchen is 19
    half an hour later
    move bulk to the fridge
    I'm running 40 min late
    """


def build_change(bound: Bound) -> PlanChange | None:
    """A change to the plan asked for before; None where none was, or where only the dough would change."""
    if bound.context.focus != "plan":
        return None
    request = build(bound)
    if request is None or request.stands_alone or _number_alone(request, bound):
        return None
    return _as_change(request)


def _number_alone(request: PlanRequest, bound: Bound) -> bool:
    """Whether a number of pieces is all that speaks for another dough, and no word stands by it."""
    hit = bound.first("pieces")
    return hit is not None and hit.label is None and request.bread is None and request.piece is None


_WARM_TOPICS = ("timing", "feed", "water")
"""Topics in which another temperature is a change to what was just asked."""


def build_return(bound: Bound) -> PlanChange | None:
    """A change to a plan that the talk has gone away from; only what cannot be meant for anything else."""
    if bound.context.focus == "plan" or "plan" not in bound.context.standing:
        return None
    request = build(replace(bound, context=replace(bound.context, focus="plan")))
    if request is None or request.names_dough or request.stands_alone:
        return None
    supposed = (request.kitchen_c, request.night_c, request.start)
    what_if = bound.said("ask:what_if") and any(one is not None for one in supposed)
    if what_if and request.start is None and bound.context.focus in _WARM_TOPICS:
        return None
    hours = request.taken or (request.ready is not None and bound.said("clocked:ready", "ask:plan*", "act:same"))
    moved = request.shift_min is not None or request.late_min is not None
    never_cold = request.cold == "none" and not bound.asks() and not bound.said("ask:*")
    return _as_change(request) if what_if or hours or moved or never_cold else None


def _as_change(request: PlanRequest) -> PlanChange:
    return PlanChange(**{one.name: getattr(request, one.name) for one in fields(request)})


FRAMES = (
    # After a plan, "at 19?" or "pot takes 4" changes that plan rather than the dough or the kitchen's settings.
    Frame(PlanChange, "plan", build_change, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, base=1.6, settles=True),
    Frame(PlanChange, "plan", build_return, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, base=2.0, settles=True),
)  # fmt: skip
