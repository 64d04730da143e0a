"""Why: the givens, the sum with its figures, what was assumed and the sources, for one figure or for all of them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.answers.dough_read_as import read_as
from assistant.answers.dough_said import cup_system, defaults_of, givens_of
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.naming import figure as spoken
from assistant.engine.reasons.found import reason_for, reasons_for
from assistant.engine.reasons.reason import Reason
from assistant.engine.refusal import Refused
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.formula_page import brief
from assistant.voice.page import Block, Line, Page, rendered
from grammar.requests.formula import FormulaRequest
from grammar.requests.why import WhyRequest

FIGURES = {
    "hydration": "hydration_pct", "water": "row water", "all_water": "water_g", "flour": "flour_g",
    "all_flour": "flour_g", "salt": "salt_pct", "starter": "row starter", "loss": "loss_pct", "dough": "dough_g",
    "total": "dough_g",
    "pieces": "pieces", "piece_mass": "piece_g", "baked": "piece_g", "prefermented": "prefermented_pct",
    "starter_hydration": "row starter",
}  # fmt: skip
"""What a baker calls a figure -> its reason. Of water the poured one is meant: it is the one on the scale."""
WHOLE = ("dough_g", "flour_g", "water_g")
FIRST = ("dough_g", "flour_g", "row water")
"""The sums shown at once when a whole dough is asked about; the other rows come with "more"."""


@answers(WhyRequest)
def why(request: WhyRequest, room: Room) -> Outcome:
    """The reason for the figure asked, or for the last answer as a whole. Refused where there is nothing to explain."""
    asked = recalled(room.bench.focus)
    said = room.formula_said
    whole = request.figure is None and request.about is None
    if whole and asked is not None and not isinstance(asked, FormulaRequest | WhyRequest):
        return _in_full(asked, room)
    if not isinstance(said, FormulaRequest):
        if asked is not None and not isinstance(asked, WhyRequest):
            return _in_full(asked, room)
        raise Refused("there is no dough in hand and nothing was asked yet", "say a dough: 24 rolls of 80 g at 66 %")
    givens = givens_of(said, room.kb, cup_system(room.bench.settings))
    formula = solve(givens, defaults_of(room.bench.settings), room.kb)
    if whole:
        return _whole(formula, read_as(said, givens, room.kb), room)
    reason = _asked_for(request, formula, room)
    if reason is None:
        named = spoken(request.figure) if request.figure is not None else str(request.about).replace("_", " ")
        figures = ", ".join(f"{spoken(round(row.g))} {row.name.split(',')[0]}" for row in formula.rows)
        raise Refused(f"{named} is no figure of this dough", f"its figures are {figures}")
    return _one(reason, formula, read_as(said, givens, room.kb))


def _asked_for(request: WhyRequest, formula: Formula, room: Room) -> Reason | None:
    named = FIGURES.get(request.about, request.about) if request.about is not None else None
    if request.figure is not None:
        by_value = reason_for(formula, room.kb, None, request.figure)
        if by_value is not None:
            return by_value
    if named is not None and named.startswith("starter"):
        named = "row starter"
    found = reason_for(formula, room.kb, named, None)
    if found is None and named is not None and named.startswith("salt"):
        found = reason_for(formula, room.kb, "salt_pct", None)
    return found


def _one(reason: Reason, formula: Formula, understood: str) -> Outcome:
    unit = f" {reason.unit}" if reason.unit else ""
    blocks: list[Block] = [
        Line(f"{reason.name[0].upper()}{reason.name[1:]} {_printed(reason)}{unit}:", role="head"),
        Line(f"{reason.sum}."),
        Line(f"You said: {understood}."),
    ]
    if formula.assumed:
        blocks.append(Line(f"Assumed: {'; '.join(brief(formula.assumed))}."))
    blocks += [Line(f"Source: {source}.", more=True) for source in reason.sources]
    page = Page(tuple(blocks))
    answer: dict[str, Any] = {
        "topic": f"why {reason.name}", "text": rendered(page), "figure": reason.figure, "value": reason.value,
        "unit": reason.unit, "sum": reason.sum,
    }  # fmt: skip
    understood = f"why {reason.name} is {_printed(reason)}{unit}"
    return Outcome("explanation", answer, understood, page, formula.assumed, (), reason.sources)


def _whole(formula: Formula, understood: str, room: Room) -> Outcome:
    """The whole dough: what was said, the sum, the rows."""
    reasons = reasons_for(formula, room.kb)
    rows = ("row ", "preferment ")
    shown = [reason for reason in reasons if reason.figure in WHOLE or reason.figure.startswith(rows)]
    blocks: list[Block] = [Line(f"You said: {understood}.")]
    if formula.assumed:
        blocks.append(Line(f"Assumed: {'; '.join(brief(formula.assumed))}."))
    blocks += [
        Line(f"{reason.name[0].upper()}{reason.name[1:]}: {reason.sum}.", more=reason.figure not in FIRST)
        for reason in shown
    ]
    sources = tuple(dict.fromkeys(source for reason in shown for source in reason.sources))
    blocks += [Line(f"Source: {source}.", more=True) for source in sources]
    page = Page(tuple(blocks))
    answer: dict[str, Any] = {
        "topic": "why this dough", "text": rendered(page),
        "sums": [{"figure": reason.figure, "value": reason.value, "sum": reason.sum} for reason in shown],
    }  # fmt: skip
    return Outcome("explanation", answer, "why this dough is as it is", page, formula.assumed, (), sources)


def _in_full(asked: Any, room: Room) -> Outcome:
    """The last answer with everything it was worked out from."""
    outcome = registry.answer(asked, replace(room, bound=None))
    blocks: list[Block] = [replace(block, more=False) for block in outcome.page.blocks]
    if outcome.assumed:
        blocks.append(Line(f"Assumed: {'; '.join(outcome.assumed)}."))
    blocks += [Line(f"Source: {source}.") for source in outcome.sources]
    page = Page(tuple(blocks))
    return Outcome(
        "explanation", {"topic": f"why {outcome.kind}", "text": rendered(page), "of": outcome.answer},
        f"why: {outcome.read_as}", page, outcome.assumed, outcome.cautions, outcome.sources,
    )  # fmt: skip


def _printed(reason: Reason) -> str:
    return f"{reason.value:.0f}" if reason.unit == "g" and reason.value >= 9.95 else spoken(reason.value)
