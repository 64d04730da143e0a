"""Whether a line makes a plan at all: something has to be wanted by a time, or a plan be asked for in so many words."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from grammar.frames import NOTHING, Bound, fits
from grammar.moments import Moment
from grammar.requests.plan_hours import Hours
from grammar.requests.timing_stage import stages_of

if TYPE_CHECKING:
    from grammar.requests.plan import PlanRequest

WAY = "way"
"""What the open question of a bedtime asks for: one of the ways on."""
_OF_THE_DOUGH: dict[str, object] = {
    **dict.fromkeys(
        ("pieces", "piece_g", "bread", "piece", "hydration_pct", "salt_pct", "starter_pct", "yeast", "yeast_pct")
    ),
    **dict.fromkeys(("flours", "rows", "preferments"), ()),
}
"""What changes the dough alone is no change of plan."""


def makes_a_plan(request: PlanRequest, bound: Bound) -> bool:
    """Whether the line wants something by a time, or changes what a plan wants."""
    if bound.context.focus == "plan":
        # With no dough in hand (the plan was refused) a change of the dough can only be meant for the plan.
        kept = replace(request, **_OF_THE_DOUGH) if bound.context.has_bake else request  # type: ignore[arg-type]
        if "told" in bound.context.standing and request.pieces is not None and not bound.of("hour"):
            return False  # so many of a bake under way are told of; they are no new plan
        return kept != type(request)()
    of_stage = bound.said("ask:when", "ask:how_long", "stand:left") and stages_of(bound) and not bound.said("ask:plan*")
    if of_stage and (request.ready is None or not request.names_dough):
        return False
    if bound.said("ask:how_many") and (request.ready, request.bake_at, request.start) == (None,) * 3:
        return False  # how many come out of it, by no hour
    if request.bedtime:
        return request.risen_pct is not None or bound.said("stage:bulk", "cue:dough", "cue:risen")
    told = request.hydration_pct is not None and request.starter_pct is not None
    soon = bound.said("ask:asap") and not (told and request.names_dough)  # a dough told whole, to be weighed out soon
    asked = soon or bound.said("ask:plan*", "ask:when_ready", "starts:now") or when_done(bound)
    if request.names_dough:
        return asked or request.ready is not None or request.bake_at is not None
    if _of_the_starter(bound):
        return False  # so much of it ripe by then is a build
    if not bound.context.has_bake:
        return bound.said("ask:plan*") or (asked and request.starter_pct is not None) or _clocked(request, bound)
    return asked or _clocked(request, bound) or request.late_min is not None


def _of_the_starter(bound: Bound) -> bool:
    """Whether the mass said is the starter's: what is wanted of it, or what it stands right behind."""
    if any(jar.meant[:1] == ("wished",) for jar in bound.of("jar_g")[:1]):
        return True
    mass = bound.amount("piece_g")
    bare = mass is not NOTHING and bound.word("piece_g") is NOTHING
    return bare and fits(bound.next_to(mass), ("ingredient:starter*", "cue:starter"))


_WANTED = ("ask:*", "starts:*", "bedtime:*", "way:*", "clocked:*", "look:done", "act:same", "cue:fridge", "cold:*")


def only_a_day(ready: Moment | None, hours: Hours, bound: Bound) -> bool:
    """Whether a day is named in passing and nothing wanted by then: "26 rolls for the rowers sunday, 75 g". Of a dough
    told in shares a day alone only says what it is for."""
    if ready is None or ready.has_hour or ready.part is not None or bound.context.focus == "plan":
        return False
    others = (hours.bake_at, hours.start, hours.ripe, *hours.taken)
    if any(others) or bound.said(*_WANTED) or "by" in bound.links():
        return False
    told = any(bound.first(share) is not None for share in _SHARES)
    led = (two for one, two in pairwise(bound.phrases) if {"for", "before", "until"} & set(one.ids("link")))
    return told or all(one.moment is None for one in led)


_SHARES = ("hydration_pct", "salt_pct", "starter_pct", "row_pct")


def when_done(bound: Bound) -> bool:
    """ask:when_ready with the bread in its middle: "when are 30 rings done"."""
    named = bound.first("pieces") is not None and not bound.said("stage:*")
    return named and bound.said("ask:when") and bound.said("clocked:ready", "look:done")


def _clocked(request: PlanRequest, bound: Bound) -> bool:
    if request.bake_at is not None:
        return bound.said("clocked:in_oven") or request.cold is not None
    wanted = bound.said("clocked:ready", "ask:plan*") or (request.every and bound.said("look:done"))
    return request.ready is not None and (wanted or bool(request.taken))


def way_picked(bound: Bound) -> str | None:
    """The way on that is picked, by its number or its name, where the ways on were offered."""
    if WAY not in bound.context.asked:
        return None
    words = [one for p in bound.phrases if not p.negated for one in (*p.ids("pick"), *p.ids("night_way"))]
    return words[0] if words else "1" if bound.said("act:take") else None
