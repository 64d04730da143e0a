"""Food values of the bread in hand, by 100 g and by piece, and of single ingredients."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_named import dough_named
from assistant.engine.cautions import allergen_line
from assistant.engine.composition import Portion, allergens
from assistant.engine.dough import Formula
from assistant.engine.house import LEAN_BREAD
from assistant.engine.naming import figure, short_name
from assistant.engine.nutrition import Nutrition, Values, nutrition
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page, Table
from grammar.requests.batch import Batch
from grammar.requests.nutrition import NutritionRequest

KJ_PER_KCAL = 4.184
ESTIMATE = "Food values are estimates from tables, not a label: food that is sold needs its own by local rules."
NAMES = {
    "kcal": ("energy", "kcal"), "protein_g": ("protein", "g"), "fat_g": ("fat", "g"),
    "carbohydrate_g": ("carbohydrate", "g"), "sugar_g": ("sugar", "g"), "salt_g": ("salt", "g"),
    "fibre_g": ("fibre", "g"),
}  # fmt: skip


@answers(NutritionRequest)
def answer(request: NutritionRequest, room: Room) -> Outcome:
    """The values asked for, of so much as was asked first. Refused where no dough is in hand and none is named."""
    if request.item:
        return _of_ingredient(request, room)
    dough = dough_named(room, request.batch, "to tell the food values of")
    formula, kb = dough.formula, room.kb
    usual = dough.bread if dough.bread is not None else kb.breads[LEAN_BREAD]
    loss_pct = usual.bake_loss_pct
    found = nutrition(dough.portions, kb.ingredients)
    baked = found.baked(loss_pct)
    hundred = baked.scaled(100 / baked.g)
    piece = baked.scaled(formula.piece_g / formula.dough_g) if formula.piece_g is not None else None
    items = [portion.item for portion in dough.portions]
    fields: dict[str, Any] = {
        "per_100_g": values_of(hundred),
        "per_piece": values_of(piece) if piece is not None else None,
        "allergens": list(allergens(items, kb.ingredients)),
        "piece_g": piece.g if piece is not None else None,
        "bake_loss_pct": loss_pct,
        "unknown": list(found.unknown),
    }
    other = _other(request, hundred, baked, piece)
    if other is not None:
        fields |= {"portion_g": other.values.g, "per_portion": values_of(other.values)}
    assumed = (*dough.assumed, f"{figure(loss_pct)} % lost in baking (usual for {usual.name.lower()})")
    columns = [*((other,) if other is not None else ())]
    if piece is not None and (other is None or request.portion_g is None):
        columns.append(_Column(f"in one of {piece.g:.0f} g baked", piece))
    columns.append(_Column("in 100 g", hundred))
    if request.portion_g == 100:
        columns.reverse()
    blocks = _page(request, columns, found, room)
    if not dough.in_hand:
        blocks.insert(0, Line(f"{dough.name}:", role="head"))
    blocks.append(Line("Assumed: " + "; ".join((*dough.supposed, assumed[-1])) + ".", role="note"))
    line = allergen_line(items, kb.ingredients)
    told = tuple(one for one in (ESTIMATE, line) if one is not None)
    blocks += [Line(ESTIMATE, role="note"), *((Line(line),) if line else ())]
    sources = tuple(dict.fromkeys(kb.ingredients[one].source for one in items if one in kb.ingredients))
    return Outcome(
        "nutrition", fields, f"food values{_asked(request)} of {dough.name}",
        Page(tuple(blocks)), assumed=assumed, cautions=told, sources=sources,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Column:
    """Values of so much, and how that is said."""

    head: str
    values: Values


def _other(request: NutritionRequest, hundred: Values, baked: Values, piece: Values | None) -> _Column | None:
    """What was asked for beside the piece and the 100 g: a mass, several pieces, or the whole batch."""
    if request.portion_g is not None and abs(request.portion_g - 100) > 0.5:
        return _Column(f"in {figure(request.portion_g)} g", hundred.scaled(request.portion_g / 100))
    pieces = request.batch.pieces
    if pieces is not None and pieces != 1 and piece is not None:
        return _Column(f"in {figure(pieces)} of {piece.g:.0f} g", piece.scaled(pieces))
    if request.altogether or request.batch.times is not None:
        return _Column(f"in all of it, {baked.g:.0f} g baked", baked)
    return None


def dough_in_hand(room: Room, wanted: str) -> tuple[Formula, tuple[Portion, ...]]:
    """The dough in hand, solved, and what it is made of. Refused without one; wanted: what it is needed for."""
    dough = dough_named(room, Batch(), wanted)
    return dough.formula, dough.portions


def values_of(values: Values) -> dict[str, float]:
    """The machine form of food values."""
    return {name: getattr(values, name) for name in NAMES}


def _asked(request: NutritionRequest) -> str:
    return f" ({', '.join(request.about)})" if request.about else ""


def _page(request: NutritionRequest, columns: list[_Column], found: Nutrition, room: Room) -> list[Line | Table]:
    """The values asked for in the order of the columns; of all values, energy first and the table on "more"."""
    blocks: list[Line | Table] = []
    heads = ("", *(column.head.removeprefix("in ") for column in columns))
    rows = tuple(
        (label, *(_value(getattr(column.values, name), unit) for column in columns))
        for name, (label, unit) in NAMES.items()
    )
    for name in [_field(one) for one in request.about] or ["kcal"]:
        label, unit = NAMES[name]
        parts = [f"{_told(name, column.values, unit, request.kj)} {column.head}" for column in columns]
        blocks.append(Line(f"{label.capitalize()}: {', '.join(parts)}.", role="head"))
    if not request.about:
        first = columns[0]
        others = ((name, label, unit) for name, (label, unit) in NAMES.items() if name != "kcal")
        rest = [f"{label} {_value(getattr(first.values, name), unit)}" for name, label, unit in others]
        blocks.append(Line(f"{first.head[0].upper()}{first.head[1:]}: {', '.join(rest)}. “more”: the table."))
    blocks.append(Table(rows, "l" + "r" * len(columns), heads, more=True))
    if found.unknown:
        names = ", ".join(short_name(room.kb.ingredients[one]) for one in found.unknown)
        blocks.append(Line(f"Not all values are known of {names}: the sums leave those out.", role="warn"))
    return blocks


def _told(name: str, values: Values, unit: str, in_kj: bool) -> str:
    value = getattr(values, name)
    joule = f" ({value * KJ_PER_KCAL:.0f} kJ)" if name == "kcal" and in_kj else ""
    return _value(value, unit) + joule


def _field(name: str) -> str:
    return "kcal" if name == "kcal" else f"{name}_g"


def _value(value: float, unit: str) -> str:
    if unit == "kcal":
        return f"{value:.0f} {unit}"
    return f"{value:.1f} {unit}" if value >= 0.095 else f"{value:.2f} {unit}"


def _of_ingredient(request: NutritionRequest, room: Room) -> Outcome:
    food = room.kb.ingredients[request.item[0]]
    found = nutrition((Portion(food.id, 100.0),), room.kb.ingredients)
    hundred = found.dough
    portion = hundred.scaled((request.portion_g or 100.0) / 100)
    fields: dict[str, Any] = {
        "item": food.id, "per_100_g": values_of(hundred), "per_piece": None, "allergens": list(food.allergens),
        "portion_g": portion.g, "per_portion": values_of(portion), "unknown": list(found.unknown),
    }  # fmt: skip
    if food.kcal_100g is None:
        fields["per_100_g"]["kcal"] = fields["per_portion"]["kcal"] = None
    name, of = short_name(food), f"{figure(portion.g)} g of"
    wanted = [_field(one) for one in request.about] or list(NAMES)
    told = [
        f"{NAMES[one][0]} {_value(getattr(portion, one), NAMES[one][1])}"
        for one in wanted
        if not (one == "kcal" and food.kcal_100g is None)
    ]
    blocks = [Line(f"{of[0].upper()}{of[1:]} {name}: {', '.join(told)}.")]
    if found.unknown:
        blocks.append(Line(f"Not all of {name}'s values are known; what is missing is left out.", role="warn"))
    blocks.append(Line(ESTIMATE, role="note"))
    return Outcome(
        "nutrition", fields, f"food values{_asked(request)} of {of} {name}", Page(tuple(blocks)),
        cautions=(ESTIMATE,), sources=(food.source,),
    )  # fmt: skip
