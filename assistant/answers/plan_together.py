"""Several doughs planned on one clock: those named in the line, or those under way on the bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.answers.course_kept import course_as_plan
from assistant.answers.dough_said import piece_name
from assistant.answers.plan_kept import TOPIC
from assistant.answers.plan_said import Settled, settled, trade_of
from assistant.answers.plan_together_reply import Named, refused_together, reply_together
from assistant.engine.plan.steps import Plan
from assistant.engine.plan.together import NotTogether, Part, Together, plan_together
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bake
from assistant.talk.doughs import answers_to, under_way
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.lexicon import fold
from grammar.requests.formula import FormulaRequest
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_doughs import PlanDough
from grammar.requests.plan_follow import followed
from knowledge import Knowledge

MOST_DOUGHS = 6


def several(request: PlanRequest, room: Room) -> PlanRequest | None:
    """The request with all its doughs, where it is for two or more; None where it is for one."""
    if request.doughs:
        return request
    if request.every:
        doughs = [_of_bench(bake) for bake in under_way(room.bench, room.now)]
        return replace(request, doughs=tuple(doughs), every=False) if len(doughs) > 1 else None
    earlier = _whole(room)
    if earlier is None or request.names_dough or request.late_min or request.bedtime:
        return None
    return followed(request, earlier)


def _whole(room: Room) -> PlanRequest | None:
    """The wish of all the doughs that the plan of the one in hand is part of."""
    whole = (room.bench.notes.get(TOPIC) or {}).get("whole")
    earlier = recalled(whole) if whole else None
    return earlier if isinstance(earlier, PlanRequest) and earlier.doughs else None


def whole_standing(room: Room) -> tuple[Together, tuple[Named, ...], PlanRequest] | None:
    """The plan of several doughs that stands, each as it runs now; None where the one in hand has its plan alone."""
    wish = _whole(room)
    if wish is None:
        return None
    named: list[Named] = []
    plans: list[Plan] = []
    for dough in wish.doughs:
        bake = _on_bench(dough, room)
        there = None if bake is None else replace(room, bench=room.bench.taking(bake.id))
        stood = None if there is None else course_as_plan(there)
        if bake is None or stood is None:
            return None
        own, said, plan = stood
        named.append(Named(_name(dough, bake, said, named, room.kb), own, said, bake.id))
        plans.append(plan)
    return Together(tuple(plans)), tuple(named), wish


def _of_bench(bake: Bake) -> PlanDough:
    said = recalled(bake.said)
    pieces = said.pieces if isinstance(said, FormulaRequest) else None
    return PlanDough(text=bake.called or bake.name, pieces=pieces, bake=bake.id)


def answer_together(request: PlanRequest, room: Room) -> Outcome:
    """One plan for all the doughs of a request. Raises Refused where they cannot all be had."""
    if len(request.doughs) > MOST_DOUGHS:
        raise Refused(f"{len(request.doughs)} doughs at once are more than one kitchen keeps in hand", "up to six")
    named: list[Named] = []
    for dough in request.doughs:
        bake = _on_bench(dough, room)
        own = _alone(request, dough, bake)
        bench = replace(room.bench, in_hand=None) if bake is None else room.bench.taking(bake.id)
        said = settled(_as_loaf(own, dough, room.kb), replace(room, bench=bench))
        named.append(Named(_name(dough, bake, said, named, room.kb), own, said, None if bake is None else bake.id))
    parts = [Part(one.said.batch, one.said.kitchen, one.said.wish) for one in named]
    found = plan_together(parts, trade_of(room.kb))
    if isinstance(found, NotTogether):
        raise refused_together(found, named, request, room)
    return reply_together(found, named, request, room)


def _alone(request: PlanRequest, dough: PlanDough, bake: Bake | None) -> PlanRequest:
    """What is asked for one of the doughs."""
    ready = dough.ready if dough.ready is not None else request.ready
    alone = replace(request, doughs=(), every=False, ready=ready, pieces=None, piece_g=None, bread=None, piece=None)
    alone = replace(alone, flours=(), rows=(), preferments=(), hydration_pct=None, salt_pct=None)
    alone = replace(alone, starter_pct=None, yeast_pct=None)
    if bake is not None:
        return replace(alone, yeast=None)
    return replace(
        alone, pieces=dough.pieces, piece_g=dough.piece_g, bread=dough.bread, piece=dough.piece, flours=dough.flours,
        rows=dough.rows, preferments=dough.preferments,
    )  # fmt: skip


def _as_loaf(request: PlanRequest, dough: PlanDough, kb: Knowledge) -> PlanRequest:
    """ "a rye" is a rye loaf: a flour that names a dough alone names the loaf of that name."""
    if not request.flours or request.bread is not None or request.piece is not None:
        return request
    word = fold(dough.text)
    loaf = {f"{word} loaf", f"{word} bread"}
    bread = next((bread.id for bread in kb.breads.values() if loaf & {*map(fold, bread.said_as)}), None)
    return replace(request, bread=bread, flours=()) if bread is not None else replace(request, piece="loaf")


def _on_bench(dough: PlanDough, room: Room) -> Bake | None:
    """The dough of the bench that is meant: by its number, or by its name where no other number of pieces is said."""
    there = under_way(room.bench, room.now)
    if dough.bake is not None:
        return next((bake for bake in there if bake.id == dough.bake), None)
    word = fold(dough.text)
    for bake in reversed(there):
        names = answers_to(bake.said, bake.called, room.kb)
        known = word in names or any(name.startswith(f"{word} ") for name in names)
        if known and (dough.pieces is None or dough.pieces == bake.said.get("pieces")):
            return bake
    return None


def _name(dough: PlanDough, bake: Bake | None, said: Settled, before: Sequence[Named], kb: Knowledge) -> str:
    """What a dough is called in the plan, each by another name."""
    name = bake.called if bake is not None and bake.called else ""
    name = name or (dough.text if bake is None else piece_name(said.dough, said.batch.pieces, kb))
    if name in ("", "piece", "pieces"):
        name = said.bread.said_as[0]
    same = sum(one.name == name or one.name.startswith(f"{name} (") for one in before)
    return f"{name} ({same + 1})" if same else name

