"""A class: what stands at each place and is needed in all, and what goes home in which state."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.plan_said import Settled, trade_of
from assistant.engine.naming import grams
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.plan import PlanRequest

BEGUN_BEFORE = "they come when it is on its way: what stands before their hour is done by whoever teaches."


def begun_before(said: Settled, room: Room) -> tuple[Settled, Plan | Miss]:
    """The plan where a class is too short for the whole of it: begun before they come, ready when they go."""
    sooner = replace(said, wish=replace(said.wish, start_at=None, start_exact=False))
    return sooner, plan(sooner.batch, sooner.kitchen, sooner.wish, trade_of(room.kb))


def with_places(outcome: Outcome, request: PlanRequest, said: Settled, room: Room) -> Outcome:
    """The plan with what each place needs, a second dough for home counted in, and how that one goes on."""
    places = said.batch.places
    times = said.makes
    each = [(row.item, row.name, row.g * times / places) for row in said.formula.rows]
    at_each = ", ".join(f"{grams(g)} g {name.split(',')[0]}" for _, name, g in each)
    flour_g = said.formula.flour_g * times
    lines = [Line(f"each of {places} places: {at_each}"), Line(f"in all {grams(flour_g)} g of flour", role="note")]
    answer = {
        **outcome.answer,
        "places": places,
        "per_place": [{"item": item, "name": name, "g": g} for item, name, g in each],
        "in_all": [{"item": item, "g": g * places} for item, _, g in each],
    }
    if request.home:
        state = _home_words(said, outcome)
        lines.append(Line(f"home: {state}"))
        answer["home"] = {"pieces": places, "g": said.formula.dough_g / places, "what_to_do": state}
    rest = tuple(replace(one, more=True) if isinstance(one, Line) and one.role == "note" else one
                 for one in outcome.page.blocks)  # fmt: skip
    read = f"a class of {places}, {outcome.read_as}"
    return replace(outcome, answer=answer, page=Page((*rest[:1], *lines, *rest[1:])), read_as=read)


def _home_words(said: Settled, outcome: Outcome) -> str:
    """What the dough that goes home is, and what to do with it."""
    batch, bread = said.batch, said.bread
    oven = f"{bread.oven_c_usual:.0f} °C, about {batch.bake_min:.0f} min"
    start = said.wish.start_at
    if start is None or outcome.answer["start_at"] < start.isoformat(timespec="minutes"):
        rises = f"up by {batch.rise_bulk_pct:.0f} %, shape, proof to +{batch.rise_proof_pct:.0f} %"
        keeps = ", its ripe starter from the fridge" if said.formula.starter is not None else ""
        return f"a second dough, mixed in the class{keeps}, in an oiled box: at home {rises}, bake at {oven}"
    cold = f"{batch.process.retard_low_h:.0f} to {batch.process.retard_high_h:.0f} h"
    box = "a second dough, mixed and shaped beside the first, in an oiled box"
    return f"{box}: straight into a fridge, {cold}; then {oven}"
