"""The dough a recipe makes: its weights as a dough, then the same by shares, so that any size keeps them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from assistant.answers.dough_said import BY_MASS, solved
from assistant.engine.dough import Formula
from assistant.engine.recipe import Bowl, WeighedLine, bowl_of
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.recipe.sheet import Sheet
from grammar.requests.formula import FormulaRequest, Part
from knowledge.vocabulary import fold, vocabulary

_WET = frozenset({"water", "dairy", "egg", "starter"})
SAME = 0.004
"""Share by which the dough said in percentages may differ from the weighed one and still be it."""
_LEAST_PIECE_G = 8.0
"""A dough shared by what a recipe says it makes comes to at least so much apiece; else that counts something else."""


@dataclass(frozen=True, slots=True)
class RecipeDough:
    """The dough of a recipe and the request that makes it again at any size; both None with the reason why."""

    formula: Formula | None = None
    said: FormulaRequest | None = None
    why_none: str = ""


def dough_of(lines: tuple[WeighedLine, ...], sheet: Sheet, room: Room) -> RecipeDough:
    """The dough the weighed lines make, by shares where these give the same dough again."""
    bowl = bowl_of(lines, room.kb.ingredients)
    why_none = _why_none(bowl, lines, room)
    if why_none is not None:
        return RecipeDough(why_none=why_none)
    weighed = replace(_weighed_request(bowl, room), preferments=_preferments(bowl, lines, sheet, room))
    try:
        formula = solved(weighed, room)
    except Refused as refused:
        return RecipeDough(why_none=f"No dough comes of it: {refused.why}.")
    except KeyError:
        return RecipeDough()
    said = _in_percentages(formula, weighed, sheet, room)
    try:
        again = solved(said, room)
    except Refused:
        return RecipeDough(formula, weighed)
    return RecipeDough(again, said) if _alike(formula, again) else RecipeDough(formula, weighed)


def _why_none(bowl: Bowl, lines: tuple[WeighedLine, ...], room: Room) -> str | None:
    """Why the bowl holds no dough; None where it may."""
    group = {item: room.kb.ingredients[item].group for item in bowl.masses}
    if not set(group.values()) & _WET:
        if any(matters(line, room) for line in lines):
            return "What brings the water is not weighed, so there are no percentages yet."
        if bowl.masses:
            return "Nothing in it brings water, so it is no dough yet and there are no percentages."
    if not any(group[item] == "flour" or item.startswith("starter") for item in bowl.masses):
        return "There is no flour with a weight in it, so there are no percentages." if bowl.masses else ""
    return None


def is_flour(item: str, room: Room) -> bool:
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
    pieces, piece_g = _pieces(formula, sheet, room)
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


def _pieces(formula: Formula, sheet: Sheet, room: Room) -> tuple[float | None, float | None]:
    """How many pieces the recipe says it makes and the dough of each, g; None where it counts who eats."""
    makes = sheet.makes
    if makes is None or makes.pieces is None:
        return None, None
    if ("cue", "portions") in vocabulary(room.kb).get(fold(makes.thing.split(" ")[0]), ()):
        return None, None
    if not makes.thing and not re.search(r"\b(?:makes|yields?)\b", makes.said, re.I):
        return None, None  # a bare number may count servings
    piece_g = formula.dough_g / makes.pieces
    return (float(makes.pieces), piece_g) if piece_g >= _LEAST_PIECE_G else (None, None)


def _piece_word(sheet: Sheet, room: Room) -> str | None:
    """The kind of piece it makes, by the name it is called."""
    if sheet.makes is None:
        return None
    terms = vocabulary(room.kb)
    words = (sheet.makes.thing, *reversed(sheet.makes.thing.split()))
    return next((id for word in words for kind, id in terms.get(fold(word), ()) if kind == "piece"), None)


def _alike(one: Formula, other: Formula) -> bool:
    """Whether two doughs hold the same of everything."""
    items = {row.item for row in one.rows} | {row.item for row in other.rows}
    slack = SAME * one.dough_g
    return all(abs(one.row_g(item) - other.row_g(item)) <= slack for item in items)


def matters(line: WeighedLine, room: Room) -> bool:
    """Whether a line without a weight would change flour or water."""
    if line.read or line.g is not None or line.part == "outside":
        return False
    return line.item is None or room.kb.ingredients[line.item].group in _WET | {"flour"}
