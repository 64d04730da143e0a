"""A dough to weigh out: the answer, its page, and the bake it becomes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_change import kept_in_proportion, resized
from assistant.answers.dough_guard import guarded
from assistant.answers.dough_read_as import read_as
from assistant.answers.dough_said import by_head, cup_system, defaults_of, givens_of, piece_name
from assistant.answers.formula_asked import asked_lines
from assistant.answers.formula_fields import answer_fields
from assistant.answers.formula_open import ask_what_is_open
from assistant.answers.stock_check import kept_stock, short_lines
from assistant.engine.bowl import bowl_of
from assistant.engine.cautions import Scene, allergen_line, cautions, first_time, label_line
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.givens import Givens
from assistant.engine.naming import figure
from assistant.engine.possible import check_figure
from assistant.engine.reasons.found import reasons_for
from assistant.talk.bench import Bench
from assistant.talk.doughs import under_way
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.formula_page import formula_page, summary
from assistant.voice.page import Line, Page
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_before import remembered
from knowledge import Knowledge
from knowledge.records.cautions import Caution
from knowledge.records.traces import Trace

HEARD = "cautions_heard"
"""Fact of a bake: which mild cautions it has been told."""


@answers(FormulaRequest)
def answer(request: FormulaRequest, room: Room) -> Outcome:
    """The dough solved, and put on the bench where this line changed it."""
    line = room.line if isinstance(room.line, FormulaRequest) else None
    guarded(line, room)
    ask_what_is_open(request, line, room)
    request = resized(kept_in_proportion(by_head(request, room.kb), line, room), line, room)
    givens = givens_of(request, room.kb, cup_system(room.bench.settings))
    formula = solve(givens, defaults_of(room.bench.settings), room.kb)
    for field, came_to in (("hydration_pct", formula.hydration_pct), ("salt_pct", formula.salt_pct)):
        if came_to:  # nothing of either is said where it is meant so
            check_figure(field, came_to, room.kb)
    formula = _with_what_is_open(formula, request)
    name = piece_name(request, formula.pieces, room.kb) if formula.pieces is not None else ""
    assumed = (*formula.assumed, *request.choices)
    heard = _heard(line, room)
    notes = _cautions(formula, room)
    shown = tuple(caution.text for caution in first_time(notes, heard))
    allergens = _allergens(formula, givens, room.kb)
    page = formula_page(formula, name, asked_lines(request, formula, room.kb), assumed, (*shown, *allergens[:1]))
    if kept_stock(room.bench):
        short = short_lines(bowl_of(formula, room.kb.ingredients), kept_stock(room.bench), room)
        page = Page((*page.blocks, *short))
    said = replace(
        request, asked=(), pieces_asked=False, scale=None, more_pieces=None, adds=False, anew=False, stays=None,
        dough_c=None,
    )  # fmt: skip
    if isinstance(room.formula_said, FormulaRequest) and not _is_new(line, room):
        said = remembered(said, room.formula_said)
    only_asked = line is not None and line.pieces_asked and line.stays == "dough"
    benched = _benched(said, line, formula, name, tuple(note.id for note in notes), room)
    bench, change = (None, None) if only_asked else benched
    if change is not None and change["new"] and room.bake is not None and room.bake in under_way(room.bench, room.now):
        page = Page((*page.blocks, Line(f"A new dough; {room.bake.label} keeps.", role="note")))
    return Outcome(
        kind="formula",
        answer=answer_fields(formula),
        read_as=read_as(request, givens, room.kb),
        page=page,
        assumed=assumed,
        cautions=(*(note.text for note in notes), *allergens),
        sources=_sources(formula, room.kb),
        bench=bench,
        change=change,
        focus=room.formula_said if only_asked else replace(said, asked=request.asked),
    )


def _with_what_is_open(formula: Formula, request: FormulaRequest) -> Formula:
    """The formula with what the request leaves open: a preferment without its share, a warmth that is the water's."""
    open_ones = (kind.replace("_", " ") for kind in request.open_preferments)
    wanted = (f"how much {name}? None is in yet: say '30 % of the flour'" for name in open_ones)
    formula = replace(formula, remarks=(*formula.remarks, *wanted))
    if request.dough_c is None:
        return formula
    warm = f"what warms it to {figure(request.dough_c)} °C is the water: 'how warm must the water be?'"
    return replace(formula, offers=(*formula.offers, warm))


def _heard(line: FormulaRequest | None, room: Room) -> frozenset[str]:
    """Mild cautions this bake has been told already; a new dough has heard none."""
    if room.bake is None or _is_new(line, room):
        return frozenset()
    return frozenset(room.bake.facts.get(HEARD, ()))


def _is_new(line: FormulaRequest | None, room: Room) -> bool:
    earlier = room.formula_said
    if not isinstance(earlier, FormulaRequest):
        return room.bake is None or (line is not None and line.whole)
    return line is not None and line.begins_anew(earlier)


def _benched(
    said: FormulaRequest, line: FormulaRequest | None, formula: Formula, name: str, notes: tuple[str, ...], room: Room
) -> tuple[Bench | None, Mapping[str, Any] | None]:
    """The bench with this dough in hand; nothing changes where the line only showed it again."""
    if line is None:
        return None, None
    title = summary(formula, name)
    facts = {HEARD: list(notes)} if notes else {}
    if _is_new(line, room):
        bench = room.bench.with_bake(kept(said), room.stamp(), title, facts)
        return bench, {"what": "formula", "new": True, "bake": bench.in_hand, "dough": title, "said": kept(said)}
    changed = kept(said)
    if room.bake is not None and _told({**changed}) == _told(room.bake.said):
        return None, None
    change = {"what": "formula", "new": False, "bake": room.bench.in_hand, "dough": title, "said": changed}
    if line.steps:
        change["step"] = kept(line)
    return room.bench.with_changed_bake(changed, title, facts), change


def _told(said: Mapping[str, Any]) -> dict[str, Any]:
    """A dough as said, without what was corrected last."""
    return {name: value for name, value in said.items() if name != "last"}


def _cautions(formula: Formula, room: Room) -> tuple[Caution, ...]:
    items = frozenset(row.item for row in formula.rows)
    breads = frozenset({formula.bread}) if formula.bread is not None else frozenset()
    scene = Scene(kind="formula", line=room.text, ingredients=items & frozenset(room.kb.ingredients), breads=breads)
    return cautions(scene, room.kb.all(Caution), room.kb.ingredients)


def _allergens(formula: Formula, givens: Givens, kb: Knowledge) -> tuple[str, ...]:
    """The allergens of the dough, named; then which labels to read."""
    items = [row.item for row in formula.rows if row.item in kb.ingredients]
    if any(row.role in ("starter", "preferment") for row in formula.rows):
        items.append(givens.starter_flour or "flour_bread")
    lines = (allergen_line(items, kb.ingredients), label_line(items, kb.all(Trace), kb.ingredients))
    return tuple(line for line in lines if line is not None)


def _sources(formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    """Where the figures come from, each once."""
    found = (source for reason in reasons_for(formula, kb) for source in reason.sources)
    return tuple(dict.fromkeys(found))
