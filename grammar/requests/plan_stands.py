"""A question about the plan that stands: all of it, the hours of one step, or what is to be done by hand."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Slot
from grammar.moments import Moment
from grammar.phrases import Phrase

START = "start"
"""In the place of a step: whichever comes first."""


@dataclass(frozen=True, slots=True)
class PlanStands:
    """show me the plan again
    when do I shape
    what needs doing tonight

    The plan that stands, or the hours of one of its steps (an id, None: all of it). within: what is to be done by hand
    on that day or in that part of it. step START: whichever is the first.
    """

    step: str | None = None
    within: Moment | None = None


def build(bound: Bound) -> PlanStands | None:
    """A question about the plan that stands; None where none does, or where the line says more than that."""
    if not {"plan", "told"} & bound.context.standing:
        return None
    if bound.said("ask:to_do"):
        return PlanStands(within=_within(bound) or Moment(day="today"))
    steps = [one for p in bound.phrases if not p.negated for one in (*p.ids("step"), *_first_of(p))]
    when = bound.said("ask:when")
    if bound.said("ask:plan_start") or (when and bound.said("clocked:start") and not steps):
        return None if any(p.kind == "amount" for p in bound.phrases) else PlanStands(START)
    if steps and (when or bound.said("ask:look_for")):
        return PlanStands(steps[-1])
    return PlanStands() if bound.said("ask:plan*") and bound.said("act:show", "ask:what", "tail:*") else None


def _first_of(phrase: Phrase) -> tuple[str, ...]:
    """The step whose first load is spoken of: "the first ones hit the water", "the first batch in the oven"."""
    if "start_boil" not in phrase.ids("starts"):
        return ()
    return ("bake",) if {"oven", "bake", "baking"} & set(phrase.text.lower().split()) else ("boil",)


def _within(bound: Bound) -> Moment | None:
    hit = bound.first("within")
    return hit.amount.moment if hit is not None and hit.amount is not None else None


FRAME = Frame(
    PlanStands, "plan", build, base=2.5, settles=True,
    needs=("step:*", "ask:plan*", "ask:to_do", "starts:start_boil", "clocked:start"),
    slots={"within": Slot({"moment": 1.0}, bare=0.4, where=("ask:to_do",))},
    cues={
        "step:*": 1.6, "starts:start_boil": 1.6, "ask:first": 0.0, "pick:1": 0.0, "ask:last_out": 0.0,
        "ask:plan*": 2.0, "ask:to_do": 2.6, "ask:look_for": 1.6, "ask:when": 1.6, "act:show": 1.4,
        "ask:what": 0.6,
        "tail:*": 0.2, "act:make": 0.2, "cue:dough": 0.0, "piece:*": 0.0, "bread:*": 0.0, "cue:steps": 0.2,
        "ask:is_it": 0.0, "ask:should": 0.0, "look:*": 0.0, "stage:*": 0.0, "topic:*": 0.0, "clocked:start": 1.0,
        "ask:should_i": 0.0, "ask:can_i": 0.0,
    },
    rules_out=("act:always", "mistake:*", "ask:plan_ways"),
)  # fmt: skip
