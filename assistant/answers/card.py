"""A card of the dough in hand, written into the folder of cards."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.answers.fermenting import bread_of_formula
from assistant.answers.nutrition import dough_in_hand
from assistant.answers.plan_calendar import FORMAT, calendar_card
from assistant.engine.dough import Formula
from assistant.engine.house import LEAN_BREAD
from assistant.engine.naming import figure
from assistant.engine.nutrition import nutrition
from assistant.engine.refusal import Refused
from assistant.engine.rounding import whole_grams
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.card import FORMATS, CardFacts
from assistant.voice.page import Line, Page
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
    said = request.name or facts.title + (f" for {request.whom}" if request.whom else "")
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
    bake_min = float(registry.answer(TimingRequest(stage="bake", bread=usual.id), plain).answer["minutes"])
    weighed = whole_grams([row.g for row in formula.rows])
    rows = tuple((row.name, g, row.pct) for row, g in zip(formula.rows, weighed.rows_g, strict=True))
    piece = None
    if formula.piece_g is not None:
        baked = nutrition(portions, room.kb.ingredients).baked(usual.bake_loss_pct)
        piece = baked.scaled(formula.piece_g / formula.dough_g)
    allergens = next((one for one in shown.cautions if one.startswith("Allergens")), "Allergens: none known.")
    title = room.bake.name if room.bake is not None and room.bake.name else "dough"
    facts = CardFacts(
        title=title,
        made=room.now.date(),
        yields=_yields(formula),
        rows=rows,
        dough_g=weighed.total_g,
        inside=tuple(_inside(formula)),
        steps=_steps(formula, bread, usual, bake_min),
        allergens=allergens,
        keeping=_keeping(usual),
        cautions=tuple(one for one in shown.cautions if not one.startswith("Allergens")),
        piece=piece,
        bake_min=bake_min if bread is not None else None,
    )
    like = () if bread is not None else (f"worked and kept like {usual.name.lower()}",)
    return facts, (*shown.assumed, *like)


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


def _steps(formula: Formula, bread: Bread | None, usual: Bread, bake_min: float) -> tuple[str, ...]:
    """The course in short, by the bread's own row; the times are looked at, not the clock."""
    steps = ["Mix everything to a smooth dough" + (", the late ingredients last." if _late(formula) else ".")]
    if usual.rise_bulk_pct > 0:
        steps.append(f"Bulk: leave it until it has grown by {figure(usual.rise_bulk_pct)} %.")
    if formula.pieces is not None and formula.piece_g is not None:
        steps.append(f"Divide into {figure(formula.pieces)} pieces of {figure(formula.piece_g)} g, rest, shape.")
    else:
        steps.append("Divide, rest, shape.")
    if usual.rise_proof_pct > 0:
        steps.append(f"Proof: until grown by {figure(usual.rise_proof_pct)} %.")
    if bread is not None and bread.boil_s_per_side:
        steps.append(f"Boil {bread.boil_s_per_side:.0f} s a side; mind the steam and the splashes.")
    core = f", to {degrees_said(usual.core_c)} inside" if usual.core_c else ""
    steps.append(f"Bake at {degrees_said(usual.oven_c_usual)}, about {hours_said(bake_min)}{core}.")
    steps.append("Cool on a rack before cutting.")
    return tuple(steps)


def _late(formula: Formula) -> bool:
    return any(row.later for row in formula.rows)


def _keeping(bread: Bread) -> str:
    best, days = bread.best_eaten_within_h, bread.keeps_days
    kept = f"{figure(days)} day{'' if days == 1 else 's'}"
    return f"Best within {hours_said(60 * best)}; keeps {kept} wrapped at room temperature; freeze what is left over."
