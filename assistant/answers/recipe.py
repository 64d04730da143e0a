"""A whole recipe: every line to grams, the dough it makes, and that dough put in hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.formula_fields import answer_fields
from assistant.answers.recipe_dough import RecipeDough, dough_of
from assistant.answers.recipe_remarks import oven_c_of, remarks_on
from assistant.answers.recipe_taken_as import taken_as, taken_up, with_fresh_yeast, with_kosher_range
from assistant.engine.cautions import Scene, allergen_line, cautions, label_line
from assistant.engine.measures import SYSTEM_NAMES, measure_book
from assistant.engine.naming import grams
from assistant.engine.recipe import WeighedLine, weigh_line
from assistant.engine.refusal import Refused
from assistant.papers.recipe_file import recipe_text
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from assistant.talk.bench import Bench
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.formula_page import formula_page, summary
from assistant.voice.page import Block
from assistant.voice.recipe_page import recipe_page
from grammar.recipe.data import BadRecipeData
from grammar.recipe.line import read_line, read_lines
from grammar.recipe.page import read_recipe
from grammar.recipe.sheet import Sheet
from grammar.requests.recipe import RecipeRequest
from knowledge.records.cautions import Caution
from knowledge.records.traces import Trace


@answers(RecipeRequest)
def answer(request: RecipeRequest, room: Room) -> Outcome:
    """The recipe in grams; its dough becomes the bake in hand."""
    sheet = _sheet(recipe_text(request.path) if request.path is not None else request.text, room)
    sheet = _with_rows_anew(sheet, request.anew, room)
    said_system = request.system or room.setting("cup")
    system = str(said_system or "us")
    book = measure_book(room.kb)
    lines = tuple(weigh_line(stated(line), system, book, str(said_system or "")) for line in sheet.lines)
    lines = taken_up(with_kosher_range(sheet, with_fresh_yeast(sheet, lines, room), room))
    dough = dough_of(lines, sheet, room)
    remarks = remarks_on(sheet, lines, dough, room)
    assumed = taken_as(sheet, lines, system, said_system is not None, book)
    oven_c = oven_c_of(sheet, room)
    notes, allergens = _warnings(lines, oven_c, room)
    bench, change, more = _in_hand(dough, sheet, lines, oven_c, room)
    page = recipe_page(sheet.title, lines, dough.formula, remarks, assumed, (*notes, *allergens[:1]), more)
    return Outcome(
        kind="conversion",
        answer={
            "lines": [_line_fields(line) for line in lines],
            "title": sheet.title or None,
            "makes": sheet.makes.said if sheet.makes is not None else None,
            "oven_c": oven_c,
            "bake_min": list(sheet.bake_min) if sheet.bake_min is not None else None,
            "formula": answer_fields(dough.formula) if dough.formula is not None else None,
            "remarks": list(remarks),
        },
        read_as=f"a recipe of {len(lines)} ingredient lines, {SYSTEM_NAMES[system]} measures",
        page=page,
        assumed=assumed,
        cautions=(*notes, *allergens),
        sources=tuple(dict.fromkeys(line.source for line in lines if line.source)),
        unread=tuple(line.text for line in lines if not line.read and "no amount is given" not in line.remarks),
        bench=bench,
        change=change,
        focus=RecipeRequest(text="Ingredients\n" + "\n".join(line.text for line in lines), system=request.system),
    )


def _warnings(
    lines: tuple[WeighedLine, ...], oven_c: float | None, room: Room
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The cautions for what is in it, and its allergens with what a label may say besides."""
    items = frozenset(line.item for line in lines if line.item)
    scene = Scene(kind="conversion", line="", ingredients=items, oven_c=oven_c)
    notes = tuple(note.text for note in cautions(scene, room.kb.all(Caution), room.kb.ingredients))
    allergens = (
        allergen_line(items, room.kb.ingredients),
        label_line(items, room.kb.all(Trace), room.kb.ingredients),
    )
    return notes, tuple(line for line in allergens if line is not None)


def _in_hand(
    dough: RecipeDough, sheet: Sheet, lines: tuple[WeighedLine, ...], oven_c: float | None, room: Room
) -> tuple[Bench | None, dict[str, Any] | None, tuple[Block, ...]]:
    """The bench with the dough in hand, the change that makes and the dough's own page; nothing where there is none."""
    if dough.formula is None or dough.said is None:
        return None, None, ()
    name = sheet.makes.thing if sheet.makes is not None and dough.formula.pieces is not None else ""
    label = sheet.title or summary(dough.formula, name)
    facts = {
        "title": sheet.title,
        "lines": [f"{grams(line.g)} g {line.name}" if line.g else line.text for line in lines],
        "oven_c": oven_c,
        "bake_min": list(sheet.bake_min) if sheet.bake_min is not None else None,
    }
    bench = room.bench.with_bake(kept(dough.said), room.stamp(), label, {"recipe": facts})
    change = {"what": "formula", "new": True, "bake": bench.in_hand, "dough": label}
    blocks = formula_page(dough.formula, name, (), (), ()).blocks
    return bench, change, tuple(replace(block, more=True) for block in blocks)


def _with_rows_anew(sheet: Sheet, anew: str, room: Room) -> Sheet:
    """The recipe with rows said anew in the place of those of the same thing, or of the same sort where that is one."""
    group = {id: thing.group for id, thing in room.kb.ingredients.items()}.get
    lines, words = list(sheet.lines), recipe_words(room.kb)
    for row in read_lines(anew, words) if anew else ():
        same = [n for n, line in enumerate(lines) if line.item == row.item]
        alike = same or [n for n, line in enumerate(lines) if row.item and group(line.item or "") == group(row.item)]
        if len(alike) != 1 or not row.measures:
            raise Unclear(f"Which row of the recipe is “{row.text}” to be?", tuple(line.text for line in lines[:3]))
        much = " and ".join(part.said for part in row.measures[0].parts)
        lines[alike[0]] = read_line(f"{much} {lines[alike[0]].name}", words)
    return replace(sheet, lines=tuple(lines))


def _sheet(text: str, room: Room) -> Sheet:
    try:
        sheet = read_recipe(text, recipe_words(room.kb))
    except BadRecipeData as bad:
        raise Refused(str(bad), "paste the ingredient list itself, one ingredient a line") from None
    if not sheet.lines:
        raise Unclear(
            "I find no ingredient lines in that. Paste them one a line, each with its amount.",
            ("500 g strong flour, 325 g water, 10 g salt",),
        )
    return sheet


def _line_fields(line: WeighedLine) -> dict[str, Any]:
    ranged = line.by in ("volume", "count")
    return {
        "text": line.text,
        "item": line.item,
        "g": line.g,
        "low_g": line.low_g if ranged else None,
        "high_g": line.high_g if ranged else None,
        "read": line.read,
        "in_dough": line.part != "outside",
        "remarks": list(line.remarks),
    }
