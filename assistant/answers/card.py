"""A card of the dough in hand, written into the folder of cards."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.answers.bread_meant import bread_of_formula
from assistant.answers.course_kept import course_if_any
from assistant.answers.nutrition import dough_in_hand
from assistant.answers.oven_dial import on_the_dial
from assistant.answers.plan_calendar import FORMAT, calendar_card
from assistant.answers.plan_words import shown_steps
from assistant.engine.dough import Formula, Row
from assistant.engine.house import LEAN_BREAD
from assistant.engine.naming import figure
from assistant.engine.nutrition import nutrition
from assistant.engine.plan.clock import Clock
from assistant.engine.refusal import Refused
from assistant.engine.rounding import whole_grams
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.card import CardFacts, CardRow
from assistant.voice.card_formats import FORMATS
from assistant.voice.clock_said import at
from assistant.voice.page import Line, Page
from assistant.voice.plan_page import bars_of
from assistant.voice.plan_stretches import Shown
from assistant.voice.spans import degrees_said, hours_said
from grammar.requests.card import CardRequest
from grammar.requests.timing import TimingRequest
from knowledge.records.breads import Bread


@answers(CardRequest)
def answer(request: CardRequest, room: Room) -> Outcome:
    """The card on disk, its path told. Refused without a dough (or a plan) in hand, or a folder that takes it."""
    if request.format == FORMAT:
        return calendar_card(request.name, room)
    facts, assumed = _facts(room)
    facts = replace(facts, whom=request.whom)
    kind = request.format or "text"
    ending, written = FORMATS[kind]
    own = f"{facts.title} label" if kind == "label" else facts.title
    said = request.name or own + (f" for {request.whom}" if request.whom else "")
    name = said if request.name and "." in request.name else f"{said}.{ending}"
    if room.cards is None:
        raise Refused("There is no folder to write a card into.", "start the program with a home folder")
    text = written(facts)
    path = room.cards.write(name, text)
    change = {"what": "card", "name": path.name, "content": text, "format": kind, "dough": facts.title}
    blocks = [
        Line(f"Card written: {path}"),
        Line(f"{facts.title}: {len(facts.rows)} ingredients, {len(facts.steps)} steps. {facts.allergens}"),
        Line(facts.keeping),
    ]
    answer_: dict[str, Any] = {"path": str(path), "format": kind}
    return Outcome(
        "card", answer_, f"a card of {facts.title} as {kind}", Page(tuple(blocks)), assumed=assumed,
        cautions=(facts.allergens, *facts.cautions), change=change,
    )  # fmt: skip


def _facts(room: Room) -> tuple[CardFacts, tuple[str, ...]]:
    formula, portions = dough_in_hand(room, "to make a card of")
    said = room.formula_said
    shown = registry.answer(said, replace(room, bound=None, text=""))
    bread = bread_of_formula(room, said)
    usual = bread if bread is not None else room.kb.breads[LEAN_BREAD]
    plain = replace(room, bound=None, text="")
    timed = registry.answer(TimingRequest(stage="bake", bread=usual.id), plain).answer
    bake_min, oven_c = float(timed["minutes"]), float(timed["temp_c"])
    weighed = whole_grams([row.g for row in formula.rows])
    half, twice = (whole_grams([row.g * by for row in formula.rows]).rows_g for by in (0.5, 2.0))
    rows = tuple(
        CardRow(row.name, _read_as(row, formula), g, row.pct, scale, h, t)
        for row, g, scale, h, t in zip(formula.rows, weighed.rows_g, weighed.readings_g, half, twice, strict=True)
    )
    piece = None
    if formula.piece_g is not None:
        baked = nutrition(portions, room.kb.ingredients).baked(usual.bake_loss_pct)
        piece = baked.scaled(formula.piece_g / formula.dough_g)
    allergens = next((one for one in shown.cautions if one.startswith("Allergens")), "Allergens: none known.")
    title = room.bake.name if room.bake is not None and room.bake.name else "dough"
    kitchen_c, shown_hours = room.kitchen_c, tuple[Shown, ...]()
    running = course_if_any(room)
    if running is not None:  # the hours of the plan, or of the bake as it runs
        _, planned, plan = running
        kitchen_c = planned.kitchen.room_c
        shown_hours = shown_steps(plan, planned, room.kb, Clock(planned.wish.now))
    facts = CardFacts(
        title=title,
        made=room.now.date(),
        yields=_yields(formula),
        rows=rows,
        dough_g=weighed.total_g,
        inside=tuple(_inside(formula)),
        steps=_steps(formula, bread, usual, bake_min, oven_c),
        hours=tuple((at(one.start, room.now.date()), one.label, one.look_for) for one in shown_hours),
        bars=bars_of(shown_hours),
        facts=tuple(_facts_of_place(formula, bread, kitchen_c, room)),
        contents=tuple(row.name for row in sorted(formula.rows, key=lambda row: -row.g)),
        allergens=allergens,
        keeping=_keeping(usual),
        cautions=tuple(one for one in shown.cautions if not one.startswith("Allergens")),
        piece=piece,
        bake_min=bake_min if bread is not None else None,
    )
    like = () if bread is not None else (f"worked and kept like {usual.name.lower()}",)
    return facts, (*shown.assumed, *like, *on_the_dial(oven_c, room))


def _read_as(row: Row, formula: Formula) -> str:
    """The row's name in words that a reader of recipes takes for the same thing."""
    if row.item == "starter" and formula.starter is not None:
        return f"starter at {figure(formula.starter.hydration_pct)} % hydration"
    return row.name


def _facts_of_place(formula: Formula, bread: Bread | None, kitchen_c: float, room: Room) -> Iterator[str]:
    """The kitchen it is worked out for, the bath, and how many loads it makes there."""
    yield f"Worked out for a kitchen of {degrees_said(kitchen_c)}; warmer goes faster, colder slower."
    pieces = formula.pieces
    if bread is not None and bread.boil_s_per_side and pieces:
        pot = room.pot_pieces
        at_once = f", {pot} at a time: {math.ceil(pieces / pot)} potfuls" if pot else ""
        yield f"Bath: a pot of water at a rolling boil, {bread.boil_s_per_side:.0f} s a side{at_once}."
    if pieces and room.oven_pieces:
        loads = math.ceil(pieces / room.oven_pieces)
        yield f"Oven: {room.oven_pieces} at once, {loads} load{'s' if loads > 1 else ''}."


def _yields(formula: Formula) -> str:
    if formula.pieces is not None and formula.piece_g is not None:
        return f"{figure(formula.pieces)} pieces of {figure(formula.piece_g)} g raw dough"
    return f"{formula.dough_g:.0f} g of dough"


def _inside(formula: Formula) -> list[str]:
    found = []
    if formula.starter is not None:
        part = formula.starter
        found.append(f"The starter holds {part.flour_g:.0f} g flour and {part.water_g:.0f} g water.")
    found += [
        f"{part.name.capitalize()}: {part.flour_g + part.grain_g:.0f} g flour, {part.water_g:.0f} g water."
        for part in formula.preferments
    ]
    return found


def _steps(
    formula: Formula, bread: Bread | None, usual: Bread, bake_min: float, oven_c: float
) -> tuple[str, ...]:
    """The course in short, by the bread's own row; the times are looked at, not the clock."""
    steps = ["Mix everything to a smooth dough" + (", the late ingredients last." if _late(formula) else ".")]
    if usual.rise_bulk_pct > 0:
        steps.append(f"Bulk: leave it until it has grown by {figure(usual.rise_bulk_pct)} %, slightly domed.")
    if formula.pieces is not None and formula.piece_g is not None:
        steps.append(f"Divide into {figure(formula.pieces)} pieces of {figure(formula.piece_g)} g, rest, shape.")
    else:
        steps.append("Divide, rest, shape.")
    if usual.rise_proof_pct > 0:
        steps.append(f"Proof: until grown by {figure(usual.rise_proof_pct)} %; a poke comes back slowly.")
    if bread is not None and bread.boil_s_per_side:
        steps.append(f"Boil {bread.boil_s_per_side:.0f} s a side; mind the steam and the splashes.")
    core = f", to {degrees_said(usual.core_c)} inside" if usual.core_c else ""
    steps.append(f"Bake at {degrees_said(oven_c)}, about {hours_said(bake_min)}{core}.")
    steps.append("Cool on a rack before cutting.")
    return tuple(steps)


def _late(formula: Formula) -> bool:
    return any(row.later for row in formula.rows)


def _keeping(bread: Bread) -> str:
    best, days = bread.best_eaten_within_h, bread.keeps_days
    kept = f"{figure(days)} day{'' if days == 1 else 's'}"
    return f"Best within {hours_said(60 * best)}; keeps {kept} wrapped at room temperature; freeze what is left over."
