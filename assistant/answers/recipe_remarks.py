"""What is remarked about a recipe: what is not weighed, how far cups leave the hydration open, its own oven."""

from __future__ import annotations

from assistant.answers.recipe_dough import RecipeDough, is_flour, matters
from assistant.engine.dough import Formula
from assistant.engine.naming import figure
from assistant.engine.oven_settings import FAN_LOWER_C, celsius
from assistant.engine.recipe import WeighedLine
from assistant.talk.room import Room
from grammar.recipe.sheet import Sheet
from knowledge.records.oven_marks import OvenMark


def remarks_on(sheet: Sheet, lines: tuple[WeighedLine, ...], dough: RecipeDough, room: Room) -> tuple[str, ...]:
    """Everything worth a remark, the lines' own first."""
    found = [f"{_short(line.text)}: {remark}." for line in lines for remark in line.remarks]
    if dough.formula is not None:
        if any(matters(line, room) for line in lines):
            found.append("A line of the dough is not weighed: the percentages are without it.")
        found += _open_hydration(lines, dough.formula, room)
    if dough.why_none:
        found.append(dough.why_none)
    if sheet.cut_short:
        found.append("The paste was longer than any recipe; its end was not looked at.")
    if sheet.oven is not None or sheet.bake_min is not None:
        found.append(_oven_words(sheet))
    return tuple(found)


def _open_hydration(lines: tuple[WeighedLine, ...], formula: Formula, room: Room) -> list[str]:
    """How far the hydration is open where flour is measured by the cup."""
    flour = [line for line in lines if line.item and line.g and line.part != "outside" and is_flour(line.item, room)]
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


def oven_c_of(sheet: Sheet, room: Room) -> float | None:
    """The oven in °C, conventional; None where the recipe names none."""
    oven = sheet.oven
    if oven is None:
        return None
    if oven.unit == "gas":
        marks = room.kb.all(OvenMark).values()
        c = next((one.c for one in marks if abs(one.mark - oven.value) < 1e-6), None)
    else:
        c = oven.value if oven.unit == "C" else celsius(oven.value)
    return None if c is None else c + (FAN_LOWER_C if oven.fan else 0.0)
