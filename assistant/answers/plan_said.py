"""From what was said of a bake to what the plan is made from: the dough, the kitchen, the hours."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from assistant.answers.dough_said import solved
from assistant.answers.fermentation_models import models
from assistant.answers.plan_batch import batch_of, ripe_preferment
from assistant.answers.plan_dough import dough_planned, in_pieces, planned_bread
from assistant.answers.plan_finish import Finishing, finishing_of
from assistant.answers.plan_hours import ready_at, wish_of
from assistant.answers.plan_kitchen import kitchen_of
from assistant.engine.dough import Formula
from assistant.engine.plan.asked import Batch, Kitchen, Trade, Wish
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day
from assistant.engine.plan.feeding import JAR
from assistant.talk.room import Room
from grammar.moments import Moment
from grammar.requests.formula import FormulaRequest
from grammar.requests.plan import PlanRequest
from knowledge import Knowledge
from knowledge.records.bench_work import BenchWork
from knowledge.records.breads import Bread


@dataclass(frozen=True, slots=True)
class Settled:
    """All a plan needs. fresh: the dough is a new one, not the bake in hand; assumed: what was filled in."""

    dough: FormulaRequest
    formula: Formula
    bread: Bread
    batch: Batch
    kitchen: Kitchen
    wish: Wish
    fresh: bool
    assumed: tuple[str, ...]
    finishing: Finishing
    makes: int = 1
    """How many such doughs are made: in a class a second one goes home."""

    @property
    def pours_water(self) -> bool:
        """True where plain water goes into the bowl: then its warmth makes the dough's."""
        return self.formula.poured_g > 0

    @property
    def preferment_raises(self) -> bool:
        """True where a preferment made for it is all the leaven it has."""
        return bool(self.batch.asides) and ripe_preferment(self.formula) is not None


def trade_of(kb: Knowledge) -> Trade:
    """The constants plans are computed with."""
    made = models(kb)
    return Trade(made.k, made.heat, kb.all(BenchWork), made.records)


def settled(request: PlanRequest, room: Room) -> Settled:
    """Everything unsaid filled in, each filling named. Raises Refused where the dough cannot be solved."""
    assumed: list[str] = []
    places = int(request.places or 1)
    if places > 1:
        request = replace(request, pieces=(request.pieces or 1) * places)
    request = in_pieces(request, room.kb)
    dough, fresh = dough_planned(request, room, assumed)
    formula = solved(dough, room)
    bread = planned_bread(request, dough, formula, room.kb)
    finishing = finishing_of(bread, request.bath, room.kb)
    batch = replace(batch_of(request, formula, bread, room, fresh), cold_dip=finishing.cold_dip, places=places)
    kitchen = kitchen_of(request, bread, batch, room, assumed)
    wish = wish_of(request, room, assumed)
    if request.bake_at is not None:
        wish = replace(wish, ready_by=_baked_then(request.bake_at, batch, kitchen, wish, room, assumed))
    makes = 2 if request.places and request.home else 1
    wish = _with_leaven(wish, request, formula, batch, makes, assumed)
    told = tuple(dict.fromkeys((*(formula.assumed if fresh else ()), *assumed)))
    return Settled(dough, formula, bread, batch, kitchen, wish, fresh, told, finishing, makes)


def _with_leaven(
    wish: Wish, request: PlanRequest, formula: Formula, batch: Batch, makes: int, assumed: list[str]
) -> Wish:
    """The wish with how its leaven stands: a preferment ripe at the mix, a jar to be fed up to what is needed."""
    preferment = ripe_preferment(formula)
    if preferment is not None and wish.starter == "either":
        wish = replace(wish, starter="ripe")
        if not batch.asides:
            assumed.append(f"the {preferment} is ripe when you mix")
    if request.jar_g and formula.starter is not None and wish.starter != "ripe":
        multiply = formula.starter.g * makes * JAR / request.jar_g
        wish = replace(wish, multiply=multiply, starter="feed" if multiply > 1 else wish.starter)
    return wish


def _baked_then(moment: Moment, batch: Batch, kitchen: Kitchen, wish: Wish, room: Room, assumed: list[str]) -> datetime:
    """When the bread is ready whose first load goes into the oven at that hour."""
    day = Day(batch, kitchen, trade_of(room.kb), Clock(wish.now))
    finish = Course(day, batch.dough, batch.process.dough_c, 0).finish()
    minutes = finish.minutes - min(task.at for task in finish.tasks if task.step == "bake")
    return ready_at(moment, wish.now.replace(tzinfo=None), assumed) + timedelta(minutes=minutes)
