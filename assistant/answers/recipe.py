"""A whole recipe: every line to grams, the dough it makes, and that dough put in hand."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_said import BY_MASS
from assistant.answers.formula import answer_fields, solved
from assistant.engine.cautions import Scene, allergen_line, cautions, label_line
from assistant.engine.dough import Formula
from assistant.engine.measures import SYSTEM_NAMES, measure_book
from assistant.engine.naming import figure, grams
from assistant.engine.oven_settings import celsius
from assistant.engine.recipe import PREPARED, Bowl, WeighedLine, bowl_of, weigh_line
from assistant.engine.refusal import Refused
from assistant.papers.recipe_file import recipe_text
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.formula_page import formula_page, summary
from assistant.voice.page import Block
from assistant.voice.recipe_page import recipe_page
from grammar.recipe.page import BadRecipeData, read_recipe
from grammar.recipe.sheet import Sheet
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.recipe import RecipeRequest
from knowledge.records.cautions import Caution
from knowledge.records.oven_marks import OvenMark
from knowledge.records.traces import Trace
from knowledge.vocabulary import fold, vocabulary

SAME = 0.004
"""Share by which the dough said in percentages may differ from the weighed one and still be it."""
DRIED_AT_MOST = 0.022
"""Share of the flour above which yeast said by weight and nothing more is taken for fresh."""
_CUPS = ("cup", "tbsp", "tsp", "pint", "fl_oz", "quart")
_NO_PIECES = frozenset({"servings", "serving", "people", "portions", "persons", "person"})


@answers(RecipeRequest)
def answer(request: RecipeRequest, room: Room) -> Outcome:
    """The recipe in grams; its dough becomes the bake in hand."""
    text = recipe_text(request.path) if request.path is not None else request.text
    sheet = _sheet(text, room)
    said_system = request.system or room.setting("cup")
    system = str(said_system or "us")
    book = measure_book(room.kb)
    lines = tuple(weigh_line(stated(line), system, book, str(said_system or "")) for line in sheet.lines)
    lines = _taken_up(_with_kosher_range(sheet, _with_fresh_yeast(sheet, lines, room), room))
    formula, said, why_none = _dough(lines, sheet, room)
    assumed = _assumed(sheet, lines, system, said_system is not None, book.measures)
    unread = tuple(line.text for line in lines if not line.read and "no amount is given" not in line.remarks)
    remarks = _remarks(sheet, lines, why_none, formula, room)
    items = frozenset(line.item for line in lines if line.item)
    scene = Scene(kind="conversion", line="", ingredients=items, oven_c=_oven_c(sheet, room))
    notes = tuple(note.text for note in cautions(scene, room.kb.all(Caution), room.kb.ingredients))
    allergens = tuple(
        line
        for line in (
            allergen_line(items, room.kb.ingredients),
            label_line(items, room.kb.all(Trace), room.kb.ingredients),
        )
        if line is not None
    )
    title = sheet.title
    more: tuple[Block, ...] = ()
    bench, change = None, None
    if formula is not None and said is not None:
        name = sheet.makes.thing if sheet.makes is not None and formula.pieces is not None else ""
        label = title or summary(formula, name)
        bench = room.bench.with_bake(kept(said), room.stamp(), label, {"recipe": _facts(sheet, lines, room)})
        change = {"what": "formula", "new": True, "bake": bench.in_hand, "dough": label}
        more = tuple(replace(block, more=True) for block in formula_page(formula, name, (), (), ()).blocks)
    page = recipe_page(title, lines, formula, remarks, assumed, (*notes, *allergens[:1]), more)
    return Outcome(
        kind="conversion",
        answer={
            "lines": [_line_fields(line) for line in lines],
            "title": title or None,
            "makes": sheet.makes.said if sheet.makes is not None else None,
            "oven_c": _oven_c(sheet, room),
            "bake_min": list(sheet.bake_min) if sheet.bake_min is not None else None,
            "formula": answer_fields(formula) if formula is not None else None,
            "remarks": list(remarks),
        },
        read_as=f"a recipe of {len(lines)} ingredient lines, {SYSTEM_NAMES[system]} measures",
        page=page,
        assumed=assumed,
        cautions=(*notes, *allergens),
        sources=tuple(dict.fromkeys(line.source for line in lines if line.source)),
        unread=unread,
        bench=bench,
        change=change,
        focus=RecipeRequest(text="Ingredients\n" + "\n".join(line.text for line in lines), system=request.system),
    )


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


def _with_fresh_yeast(sheet: Sheet, lines: tuple[WeighedLine, ...], room: Room) -> tuple[WeighedLine, ...]:
    """Bare "yeast" by weight is fresh where there is far more of it than a dough takes dried."""
    flour_g = sum(line.g or 0.0 for line in lines if line.item and _is_flour(line.item, room))
    fresh = room.kb.ingredients["yeast_fresh"].name
    return tuple(
        replace(line, item="yeast_fresh", name=fresh, assumed=("yeast taken as fresh: dried, it would be too much",))
        if said.phrase in ("yeast", "yeasts")
        and line.by == "mass"
        and flour_g
        and (line.g or 0) > DRIED_AT_MOST * flour_g
        else line
        for said, line in zip(sheet.lines, lines, strict=True)
    )


def _with_kosher_range(sheet: Sheet, lines: tuple[WeighedLine, ...], room: Room) -> tuple[WeighedLine, ...]:
    """Bare kosher salt by the spoon may be the light flakes: its low says so."""
    dense, light = (room.kb.ingredients[id].tsp_g or 1.0 for id in ("salt_kosher_dense", "salt_kosher_light"))
    return tuple(
        replace(line, low_g=line.low_g * light / dense)
        if said.phrase == "kosher salt" and line.by == "volume" and line.low_g is not None
        else line
        for said, line in zip(sheet.lines, lines, strict=True)
    )


def _taken_up(lines: tuple[WeighedLine, ...]) -> tuple[WeighedLine, ...]:
    """ "All of the poolish" needs no amount where the poolish is listed by itself."""
    made = any(line.part == "build" and line.g for line in lines)
    return tuple(
        replace(line, read=True, remarks=("counted as it is listed by itself",))
        if made and line.g is None and line.item is not None and _is_made(line.item) and line.part == "dough"
        else line
        for line in lines
    )


def _is_made(item: str) -> bool:
    return item in PREPARED or item.startswith("starter")


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


def _dough(
    lines: tuple[WeighedLine, ...], sheet: Sheet, room: Room
) -> tuple[Formula | None, FormulaRequest | None, str]:
    """The dough and the request that makes it again at any size; why there is none where there is none."""
    bowl = bowl_of(lines, room.kb.ingredients)
    wet = any(room.kb.ingredients[item].group in ("water", "dairy", "egg", "starter") for item in bowl.masses)
    if not wet and any(_matters(line, room) for line in lines):
        return None, None, "What brings the water is not weighed, so there are no percentages yet."
    if not wet and bowl.masses:
        return None, None, "Nothing in it brings water, so it is no dough yet and there are no percentages."
    if not any(_is_flour(item, room) or item.startswith("starter") for item in bowl.masses):
        return None, None, "There is no flour with a weight in it, so there are no percentages." if bowl.masses else ""
    weighed = replace(_weighed_request(bowl, room), preferments=_preferments(bowl, lines, sheet, room))
    try:
        formula = solved(weighed, room)
    except Refused as refused:
        return None, None, f"No dough comes of it: {refused.why}."
    except KeyError:
        return None, None, ""
    said = _in_percentages(formula, weighed, sheet, room)
    try:
        again = solved(said, room)
    except Refused:
        return formula, weighed, ""
    if _alike(formula, again):
        return again, said, ""
    return formula, weighed, ""


def _is_flour(item: str, room: Room) -> bool:
    return room.kb.ingredients[item].group == "flour"


def _weighed_request(bowl: Bowl, room: Room) -> FormulaRequest:
    """The masses as a list of weights."""
    group = {item: room.kb.ingredients[item].group for item in bowl.masses}
    starters = {item: g for item, g in bowl.masses.items() if group[item] == "starter"}
    salt = sum(g for item, g in bowl.masses.items() if group[item] == "salt")
    parts = tuple(
        Part((item,), g=g, flour=group[item] == "flour")
        for item, g in bowl.masses.items()
        if group[item] not in ("salt", "starter") and item != "water"
    )
    hydration = bowl.starter_hydration_pct or (50.0 if set(starters) == {"starter_stiff_50"} else None)
    return FormulaRequest(
        water_g=bowl.masses.get("water", 0.0) or None,
        salt_g=salt or None,
        starter_g=sum(starters.values()) or None,
        starter_hydration_pct=hydration if starters else None,
        parts=parts,
        from_masses=True,
    )


def _preferments(
    bowl: Bowl, lines: tuple[WeighedLine, ...], sheet: Sheet, room: Room
) -> tuple[tuple[str, float | None, float | None, float | None], ...]:
    """The preferments a recipe takes ready-made, each by its mass; its make-up is then the usual one."""
    terms = vocabulary(room.kb)
    found = []
    for said, line in zip(sheet.lines, lines, strict=True):
        kinds = [id for kind, id in terms.get(said.phrase, ()) if kind == "preferment"]
        if line in bowl.prepared and kinds:
            found.append((kinds[0], None, line.g, None))
    return tuple(found)


def _in_percentages(formula: Formula, weighed: FormulaRequest, sheet: Sheet, room: Room) -> FormulaRequest:
    """The same dough by shares and size, so that another size keeps every share."""
    pieces, piece_g = _pieces(formula, sheet)
    without = tuple(
        word for word, there in (("starter", formula.starter is not None), ("salt", formula.salt_pct > 0)) if not there
    )
    most = max((part for part in weighed.parts if part.flour), key=lambda part: part.g or 0, default=None)
    return FormulaRequest(
        pieces=pieces,
        piece_g=piece_g,
        dough_g=None if pieces else formula.dough_g,
        hydration_pct=formula.hydration_pct,
        salt_pct=formula.salt_pct or None,
        starter_pct=formula.starter_pct if formula.starter is not None else None,
        starter_hydration_pct=formula.starter.hydration_pct if formula.starter is not None else None,
        loss_pct=0.0,
        piece=_piece_word(sheet, room) if pieces else None,
        parts=tuple(
            Part(part.item, flour=True, rest=True)
            if part is most
            else Part(part.item, pct=100 * (part.g or 0) / formula.flour_g, flour=part.flour)
            for part in weighed.parts
        ),
        preferments=tuple(
            (row.item, 100 * (row.g if row.item in BY_MASS else row.flour_g) / formula.flour_g, None, None)
            for row in formula.preferments
            if row.item != "old_discard"
        ),
        without=without,
    )


def _pieces(formula: Formula, sheet: Sheet) -> tuple[float | None, float | None]:
    makes = sheet.makes
    if makes is None or makes.pieces is None or makes.thing.split(" ")[0] in _NO_PIECES:
        return None, None
    if not makes.thing and not re.search(r"\b(?:makes|yields?)\b", makes.said, re.I):
        return None, None  # a bare number may count servings
    piece_g = formula.dough_g / makes.pieces
    return (float(makes.pieces), piece_g) if piece_g >= 8 else (None, None)


def _piece_word(sheet: Sheet, room: Room) -> str | None:
    if sheet.makes is None:
        return None
    terms = vocabulary(room.kb)
    for word in (sheet.makes.thing, *reversed(sheet.makes.thing.split())):
        for kind, id in terms.get(fold(word), ()):
            if kind == "piece":
                return id
    return None


def _alike(one: Formula, other: Formula) -> bool:
    """Whether two doughs hold the same of everything."""
    items = {row.item for row in one.rows} | {row.item for row in other.rows}
    slack = SAME * one.dough_g
    return all(abs(one.row_g(item) - other.row_g(item)) <= slack for item in items)


def _assumed(
    sheet: Sheet, lines: tuple[WeighedLine, ...], system: str, is_said: bool, measures: Mapping[str, Any]
) -> tuple[str, ...]:
    used = {part.unit for line in sheet.lines for measure in line.measures for part in measure.parts}
    by_volume = any(line.by == "volume" for line in lines)
    found: list[str] = []
    if not is_said and by_volume and used & set(_CUPS):
        found.append(f"{SYSTEM_NAMES[system]} cups and spoons (cup {measures['cup'].ml[system]:.4g} ml)")
    if any(
        line.item == "yeast_instant" and " yeast" in f" {line.text.lower()}" and line.by != "label" for line in lines
    ):
        bare = [
            one
            for one, line in zip(sheet.lines, lines, strict=True)
            if line.item == "yeast_instant" and one.phrase in ("yeast", "yeasts")
        ]
        if bare:
            found.append("yeast taken as dried (instant)")
    kosher = [
        one for one, line in zip(sheet.lines, lines, strict=True) if one.phrase == "kosher salt" and line.by == "volume"
    ]
    if kosher:
        found.append("kosher salt taken as the dense kind; light flakes weigh 0.6 of it: weigh it")
    return (*found, *dict.fromkeys(text for line in lines for text in line.assumed))


def _remarks(
    sheet: Sheet, lines: tuple[WeighedLine, ...], why_none: str, formula: Formula | None, room: Room
) -> tuple[str, ...]:
    found = [f"{_short(line.text)}: {remark}." for line in lines for remark in line.remarks]
    if formula is not None:
        if any(_matters(line, room) for line in lines):
            found.append("A line of the dough is not weighed: the percentages are without it.")
        found += _open_hydration(lines, formula, room)
    if why_none:
        found.append(why_none)
    if sheet.cut_short:
        found.append("The paste was longer than any recipe; its end was not looked at.")
    if sheet.oven is not None or sheet.bake_min is not None:
        found.append(_oven_words(sheet))
    return tuple(found)


def _matters(line: WeighedLine, room: Room) -> bool:
    """Whether a line without a weight would change flour or water."""
    if line.read or line.g is not None or line.part == "outside":
        return False
    group = room.kb.ingredients[line.item].group if line.item else ""
    return line.item is None or group in ("flour", "water", "starter", "dairy", "egg")


def _open_hydration(lines: tuple[WeighedLine, ...], formula: Formula, room: Room) -> list[str]:
    """How far the hydration is open where flour is measured by the cup."""
    flour = [line for line in lines if line.item and line.g and line.part != "outside" and _is_flour(line.item, room)]
    less = sum((line.g or 0) - (line.low_g or 0) for line in flour if line.by == "volume")
    more = sum((line.high_g or 0) - (line.g or 0) for line in flour if line.by == "volume")
    if formula.flour_g <= less or less + more < 0.05 * formula.flour_g:
        return []
    low = 100 * formula.water_g / (formula.flour_g + more)
    high = 100 * formula.water_g / (formula.flour_g - less)
    return [
        f"Cups leave the hydration open from {low:.0f} to {high:.0f} %, as the flour is filled in: weigh the flour."
    ]


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:39].rstrip() + "…"


def _oven_words(sheet: Sheet) -> str:
    parts = []
    if sheet.oven is not None:
        unit = "gas mark " if sheet.oven.unit == "gas" else ""
        degree = "" if sheet.oven.unit == "gas" else f" °{sheet.oven.unit}"
        parts.append(f"oven {unit}{sheet.oven.value:g}{degree}{' fan' if sheet.oven.fan else ''}")
        if sheet.oven.unit == "F":
            parts[-1] += f" ({celsius(sheet.oven.value):.0f} °C)"
    if sheet.bake_min is not None:
        low, high = sheet.bake_min
        parts.append(f"{figure(low)} min" if low == high else f"{figure(low)} to {figure(high)} min")
    return "It says: " + ", ".join(parts) + "."


def _oven_c(sheet: Sheet, room: Room) -> float | None:
    """The oven in °C, conventional; None where the recipe names none."""
    if sheet.oven is None:
        return None
    if sheet.oven.unit == "gas":
        marks = room.kb.all(OvenMark).values()
        c = next((one.c for one in marks if abs(one.mark - (sheet.oven.value if sheet.oven else 0)) < 1e-6), None)
    else:
        c = sheet.oven.value if sheet.oven.unit == "C" else celsius(sheet.oven.value)
    return None if c is None else c + (20.0 if sheet.oven.fan else 0.0)


def _facts(sheet: Sheet, lines: tuple[WeighedLine, ...], room: Room) -> dict[str, Any]:
    """What is kept of the recipe beside its dough."""
    return {
        "title": sheet.title,
        "lines": [f"{grams(line.g)} g {line.name}" if line.g else line.text for line in lines],
        "oven_c": _oven_c(sheet, room),
        "bake_min": list(sheet.bake_min) if sheet.bake_min is not None else None,
    }
