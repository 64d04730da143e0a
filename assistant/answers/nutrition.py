"""Food values of the bread in hand, by 100 g and by piece, and of single ingredients."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.dough_said import cup_system, defaults_of, givens_of
from assistant.answers.fermenting import bread_of_formula
from assistant.engine.cautions import allergen_line
from assistant.engine.composition import Portion, allergens
from assistant.engine.contents import contents
from assistant.engine.dough import Formula
from assistant.engine.formula import solve
from assistant.engine.house import LEAN_BREAD
from assistant.engine.naming import figure, short_name
from assistant.engine.nutrition import Nutrition, Values, nutrition
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page, Table
from grammar.requests.formula import FormulaRequest
from grammar.requests.nutrition import NutritionRequest

ESTIMATE = "Food values are estimates from tables, not a label: food that is sold needs its own by local rules."
NAMES = {
    "kcal": ("energy", "kcal"), "protein_g": ("protein", "g"), "fat_g": ("fat", "g"),
    "carbohydrate_g": ("carbohydrate", "g"), "sugar_g": ("sugar", "g"), "salt_g": ("salt", "g"),
    "fibre_g": ("fibre", "g"),
}  # fmt: skip


@answers(NutritionRequest)
def answer(request: NutritionRequest, room: Room) -> Outcome:
    """The values asked for first, then all of them. Refused where no dough is in hand and no ingredient is named."""
    if request.item:
        return _of_ingredient(request, room)
    formula, portions = dough_in_hand(room, "its food values")
    kb = room.kb
    bread = bread_of_formula(room, room.formula_said)
    usual = bread if bread is not None else kb.breads[LEAN_BREAD]
    loss_pct = usual.bake_loss_pct
    found = nutrition(portions, kb.ingredients)
    baked = found.baked(loss_pct)
    hundred = baked.scaled(100 / baked.g)
    piece = None
    if formula.piece_g is not None:
        piece = baked.scaled(formula.piece_g / formula.dough_g)
    items = [portion.item for portion in portions]
    fields: dict[str, Any] = {
        "per_100_g": values_of(hundred),
        "per_piece": values_of(piece) if piece is not None else None,
        "allergens": list(allergens(items, kb.ingredients)),
        "piece_g": piece.g if piece is not None else None,
        "bake_loss_pct": loss_pct,
        "unknown": list(found.unknown),
    }
    per_other = None
    if request.portion_g is not None and abs(request.portion_g - 100) > 0.5:
        per_other = hundred.scaled(request.portion_g / 100)
        fields |= {"portion_g": request.portion_g, "per_portion": values_of(per_other)}
    assumed = (f"{figure(loss_pct)} % lost in baking (usual for {usual.name.lower()})",)
    blocks = _page(request, hundred, piece, per_other, found, room)
    blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    line = allergen_line(items, kb.ingredients)
    told = tuple(one for one in (ESTIMATE, line) if one is not None)
    blocks += [Line(ESTIMATE, role="note"), *((Line(line),) if line else ())]
    sources = tuple(dict.fromkeys(kb.ingredients[one].source for one in items if one in kb.ingredients))
    return Outcome(
        "nutrition", fields, f"food values{_asked(request)} of {room.bake.name if room.bake else 'the dough in hand'}",
        Page(tuple(blocks)), assumed=assumed, cautions=told, sources=sources,
    )  # fmt: skip


def dough_in_hand(room: Room, wanted: str) -> tuple[Formula, tuple[Portion, ...]]:
    """The dough in hand, solved, and what it is made of. Refused without one; wanted: what it is needed for."""
    said = room.formula_said
    if not isinstance(said, FormulaRequest):
        raise Refused(f"No dough is in hand to tell {wanted} of.", "say a dough first: 24 rolls of 85 g at 66 %")
    settings = room.bench.settings
    givens = givens_of(said, room.kb, cup_system(settings))
    formula = solve(givens, defaults_of(settings), room.kb)
    fed_with = givens.starter_flour or defaults_of(settings).starter_flour or "flour_bread"
    return formula, contents(formula, fed_with, givens.preferments, room.kb.ingredients)


def values_of(values: Values) -> dict[str, float]:
    """The machine form of food values."""
    return {name: getattr(values, name) for name in NAMES}


def _asked(request: NutritionRequest) -> str:
    return f" ({', '.join(request.about)})" if request.about else ""


def _page(
    request: NutritionRequest, hundred: Values, piece: Values | None, other: Values | None, found: Nutrition, room: Room
) -> list[Line | Table]:
    blocks: list[Line | Table] = []
    if request.about:
        for name in (_field(one) for one in request.about):
            label, unit = NAMES[name]
            parts = [f"{_value(getattr(hundred, name), unit)} in 100 g"]
            if piece is not None:
                parts.insert(0, f"{_value(getattr(piece, name), unit)} in one of {piece.g:.0f} g baked")
            if other is not None:
                parts.insert(0, f"{_value(getattr(other, name), unit)} in {figure(request.portion_g or 0)} g")
            blocks.append(Line(f"{label.capitalize()}: {', '.join(parts)}.", role="head"))
    columns = [value for value in (hundred, piece, other) if value is not None]
    heads = ("", "100 g", *((f"piece, {piece.g:.0f} g",) if piece is not None else ()),
             *((f"{figure(request.portion_g or 0)} g",) if other is not None else ()))  # fmt: skip
    rows = tuple(
        (label, *(_value(getattr(one, name), unit) for one in columns)) for name, (label, unit) in NAMES.items()
    )
    if request.about:
        blocks.append(Table(rows, "l" + "r" * len(columns), heads, more=True))
    else:
        kcal, *rest = rows
        pairs = [f"{label} {' / '.join(values)}" for label, *values in rest]
        told = f"in {' and in '.join(head for head in heads if head)}"
        blocks += [
            Line(f"Energy {' / '.join(kcal[1:])} {told}.", role="head"), Line("; ".join(pairs) + "."),
            Table(rows, "l" + "r" * len(columns), heads, more=True),
        ]  # fmt: skip
    if found.unknown:
        names = ", ".join(short_name(room.kb.ingredients[one]) for one in found.unknown)
        blocks.append(Line(f"Not all values are known of {names}: the sums leave those out.", role="warn"))
    return blocks


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
