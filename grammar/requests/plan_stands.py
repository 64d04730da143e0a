"""A question about the plan that stands: all of it, the hours of one step, or what is to be done by hand."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.context import Context
from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.moments import Moment
from grammar.phrases import Phrase
from grammar.slots import Slot

START = "start"
"""In the place of a step: whichever comes first."""


@dataclass(frozen=True, slots=True)
class PlanStands:
    """show me the plan again
    when do I shape
    what needs doing tonight

    The plan that stands, or the hours of one of its steps (an id, None: all of it). within: what is to be done by hand
    on that day or in that part of it. step START: whichever is the first. short: the few turns of it alone.
    """

    step: str | None = None
    within: Moment | None = None
    short: bool = False


def build(bound: Bound) -> PlanStands | None:
    """A question about the plan that stands; None where none does, or where the line says more than that."""
    if not has_hours(bound.context):
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


def has_hours(context: Context) -> bool:
    """Whether any dough under way has hours of its own."""
    return bool({"plan", "told"} & context.standing) or context.known.planned


def _first_of(phrase: Phrase) -> tuple[str, ...]:
    """The step whose first load is spoken of: "the first ones hit the water", "the first batch in the oven"."""
    if "start_boil" not in phrase.ids("starts"):
        return ()
    return ("bake",) if {"oven", "bake", "baking"} & set(phrase.text.lower().split()) else ("boil",)


def _within(bound: Bound) -> Moment | None:
    return bound.amount("within").moment


FRAME = Frame(
    PlanStands, "plan", build, base=2.5, settles=True,
    needs=("step:*", "ask:plan*", "ask:to_do", "starts:start_boil", "clocked:start"),
    slots={"within": Slot({"moment": 1.0}, bare=0.4, where=("ask:to_do",))},
    cues=speaks(
        telling="ask:to_do",
        certain="step:* starts:start_boil ask:plan* ask:look_for ask:when act:show",
        sure="clocked:start",
        likely="ask:what",
        maybe="tail:* act:make cue:steps",
        heard=(
            "ask:first pick:1 ask:last_out cue:dough piece:* bread:* ask:is_it ask:should look:* stage:* "
            "topic:* ask:should_i ask:can_i"
        ),
    ),
    rules_out=("act:always", "mistake:*", "ask:plan_ways", "money:*"),
)  # fmt: skip
