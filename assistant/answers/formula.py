"""A dough to weigh out: the answer, its page, and the bake it becomes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_change import how_much, kept_in_proportion, resized
from assistant.answers.dough_guard import guarded
from assistant.answers.dough_read_as import read_as
from assistant.answers.dough_said import by_head, cup_system, defaults_of, givens_of, piece_name, solved
from assistant.answers.stock_check import kept_stock, short_lines
from assistant.engine.bowl import bowl_of
from assistant.engine.cautions import Scene, allergen_line, cautions, first_time, label_line
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.givens import Givens
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.possible import check_figure
from assistant.engine.reasons.found import reasons_for
from assistant.talk.bench import Bench
from assistant.talk.doughs import under_way
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.formula_page import formula_page, summary
from assistant.voice.page import Line, Page
from grammar.requests.formula import FormulaRequest
from grammar.requests.formula_before import remembered
from knowledge import Knowledge
from knowledge.records.cautions import Caution
from knowledge.records.traces import Trace

__all__ = ["answer", "answer_fields", "solved"]

HEARD = "cautions_heard"
"""Fact of a bake: which mild cautions it has been told."""


@answers(FormulaRequest)
def answer(request: FormulaRequest, room: Room) -> Outcome:
    """The dough solved, and put on the bench where this line changed it."""
    line = room.line if isinstance(room.line, FormulaRequest) else None
    guarded(line, room)
    if line is not None and line.vague and line.more_pieces is None and line.asked and room.bake is not None:
        raise how_much(line.asked[0], room)
    if line is not None and line.heads_changed is not None and line.heads_changed.by and not _fed(room):
        many = abs(line.heads_changed.by)
        more = "more" if line.heads_changed.by > 0 else "fewer"
        near = (f"{figure(many)} {more} pieces", f"{figure(2 * many)} {more} pieces")
        raise Unclear("How many pieces does each one get?", near)
    if line is not None and line.vague and line.more_pieces is not None:
        count, word = abs(line.more_pieces), "fewer" if line.more_pieces < 0 else "more"
        less = "less" if line.more_pieces < 0 else "more"
        near = (f"{count:g} {word} pieces", f"{count:g} points {less} water: make it ...")
        raise Unclear(f"{count:g} {word} of what: pieces, grams, or points of hydration?", near)
    batches = request.batches or (line.batches if line is not None else ())
    if batches:
        raise Unclear("Those are two doughs: I weigh out one at a time. Which first?", batches)
    if request.two_sizes or (line is not None and line.two_sizes):
        raise _two_sizes(line or request, room)
    if request.either is not None:
        figure_said = f"{request.either:g}"
        raise Unclear(f"{figure_said} what: pieces, or grams each?", (f"{figure_said} pieces", f"{figure_said} g each"))
    request = resized(kept_in_proportion(by_head(request, room.kb), line, room), line, room)
    givens = givens_of(request, room.kb, cup_system(room.bench.settings))
    formula = solve(givens, defaults_of(room.bench.settings), room.kb)
    for field, came_to in (("hydration_pct", formula.hydration_pct), ("salt_pct", formula.salt_pct)):
        if came_to:  # nothing of either is said where it is meant so
            check_figure(field, came_to, room.kb)
    wanted = tuple(f"how much {kind.replace('_', ' ')}? None is in yet" for kind in request.open_preferments)
    formula = replace(formula, remarks=(*formula.remarks, *(f"{words}: say '30 % of the flour'" for words in wanted)))
    if request.dough_c is not None:
        warm = f"what warms it to {figure(request.dough_c)} °C is the water: 'how warm must the water be?'"
        formula = replace(formula, offers=(*formula.offers, warm))
    name = piece_name(request, formula.pieces, room.kb) if formula.pieces is not None else ""
    assumed = (*formula.assumed, *request.choices)
    heard = _heard(line, room)
    notes = _cautions(formula, room)
    shown = tuple(caution.text for caution in first_time(notes, heard))
    allergens = _allergens(formula, givens, room.kb)
    page = formula_page(formula, name, _answered(request, formula, room.kb), assumed, (*shown, *allergens[:1]))
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
        focus=room.formula_said if only_asked else said,
    )


def _fed(room: Room) -> bool:
    """Whether it is known of the dough in hand how many it is to feed."""
    said = room.formula_said
    return isinstance(said, FormulaRequest) and (said.heads is not None or said.portions is not None)


def _two_sizes(line: FormulaRequest, room: Room) -> Unclear:
    """ "make half of them 100 g": one batch has one weight; what each half would be on its own."""
    earlier = room.formula_said
    now = solved(earlier, room) if isinstance(earlier, FormulaRequest) else None
    if now is None or now.pieces is None or now.piece_g is None or line.piece_g is None:
        return Unclear("How many pieces of which weight?", ("12 rolls of 80 g", "6 rolls of 120 g"))
    some = round(now.pieces * (line.scale or 0.5))
    total_g = (now.pieces - some) * now.piece_g + some * line.piece_g
    ways = (f"{figure(total_g)} g dough", f"{figure(some)} pieces of {figure(line.piece_g)} g")
    left = f"{figure(now.pieces - some)} of {figure(now.piece_g)} g and {figure(some)} of {figure(line.piece_g)} g"
    question = f"{left} are two weights in one batch: {figure(total_g)} g of dough in all. Which is to be made?"
    return Unclear(question, ways)


def answer_fields(formula: Formula) -> dict[str, Any]:
    """The machine form of a formula."""
    starter = formula.starter
    return {
        "pieces": _count(formula.pieces),
        "piece_g": formula.piece_g,
        "baked_g": formula.baked_g,
        "loss_pct": formula.loss_pct,
        "dough_g": formula.dough_g,
        "spare_g": formula.spare_g,
        "bread": formula.bread,
        "flour_g": formula.flour_g,
        "water_g": formula.water_g,
        "hydration_pct": formula.hydration_pct,
        "salt_pct": formula.salt_pct,
        "salt_total_pct": formula.salt_total_pct,
        "starter_pct": formula.starter_pct if formula.starter_pct is not None else 0.0,
        "prefermented_pct": formula.prefermented_pct,
        "mix": [
            {"item": row.item, "name": row.name, "g": row.g, "pct": row.pct, **({"later": True} if row.later else {})}
            for row in formula.rows
        ],
        "starter": None
        if starter is None
        else {
            "g": starter.g,
            "hydration_pct": starter.hydration_pct,
            "flour_g": starter.flour_g,
            "water_g": starter.water_g,
        },
        "preferments": [
            {
                "item": part.item,
                "name": part.name,
                "g": part.g,
                "hydration_pct": part.hydration_pct,
                "flour_g": part.flour_g,
                "grain_g": part.grain_g,
                "water_g": part.water_g,
                "yeast_g": part.yeast_g,
                "salt_g": part.salt_g,
            }
            for part in formula.preferments
        ],
        "water_from": [{"item": item, "g": g} for item, g in formula.water_from.items()],
        "allergens": list(formula.allergens),
        "remarks": [*formula.remarks, *formula.offers],
    }


def _heard(line: FormulaRequest | None, room: Room) -> frozenset[str]:
    """Mild cautions this bake has been told already; a new dough has heard none."""
    if room.bake is None or _is_new(line, room):
        return frozenset()
    return frozenset(room.bake.facts.get(HEARD, ()))


def _count(pieces: float | None) -> float | int | None:
    return int(pieces) if pieces is not None and pieces == int(pieces) else pieces


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


def _answered(request: FormulaRequest, formula: Formula, kb: Knowledge) -> tuple[str, ...]:
    """A line for each thing the question asked for outright: "salt 33.1 g"."""
    out: list[str] = []
    for asked in request.asked:
        line = _asked_line(asked, formula, kb)
        if line is not None and line not in out:
            out.append(line)
    if request.pieces_asked and formula.pieces is not None and formula.piece_g is not None:
        out.append(f"{figure(formula.pieces)} pieces of {figure(formula.piece_g)} g")
    return tuple(out)


def _asked_line(asked: str, formula: Formula, kb: Knowledge) -> str | None:
    if asked in ("hydration", "percentages"):
        return f"hydration {figure(formula.hydration_pct)} %"
    if asked in ("water", "all_water"):
        return f"water {grams(formula.poured_g)} g ({grams(formula.water_g)} g with what is in other things)"
    if asked in ("flour", "all_flour"):
        return f"flour {grams(formula.bowl_flour_g)} g in the bowl, {grams(formula.flour_g)} g in all"
    if asked == "prefermented":
        share = f"{figure(formula.prefermented_pct)} % of the flour is prefermented, in the starter"
        return f"{share}: {grams(formula.starter.flour_g)} g" if formula.starter is not None else share
    if asked == "piece_g" and formula.piece_g is not None:
        return f"each {grams(formula.piece_g)} g of dough"
    if asked == "dough":
        return f"dough {grams(formula.dough_g)} g"
    if asked.startswith("starter"):
        if formula.starter is None:
            return "no starter in this dough"
        return f"starter {grams(formula.starter.g)} g, {figure(formula.starter_pct or 0)} % of the flour outside it"
    if asked.startswith("salt"):
        g = sum(row.g for row in formula.rows if row.role == "salt")
        return f"salt {g:.1f} g" if g < 100 else f"salt {grams(g)} g"
    if asked in kb.ingredients:
        name, g = short_name(kb.ingredients[asked]), formula.row_g(asked)
        return f"{name} {grams(g)} g" if g else f"no {name} in this dough"
    return None


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
