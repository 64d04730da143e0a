"""Lines of a recipe whose name leaves open what is meant: what each is taken as, and how that is said."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.recipe_dough import is_flour
from assistant.engine.measures import SYSTEM_NAMES, MeasureBook
from assistant.engine.recipe import PREPARED, WeighedLine
from assistant.talk.room import Room
from grammar.recipe.sheet import Sheet

DRIED_AT_MOST = 0.022
"""Share of the flour above which yeast said by weight and nothing more is taken for fresh."""
_CUPS = frozenset({"cup", "tbsp", "tsp", "pint", "fl_oz", "quart"})
_BARE_YEAST = frozenset({"yeast", "yeasts"})
_BARE_KOSHER = "kosher salt"


def with_fresh_yeast(sheet: Sheet, lines: tuple[WeighedLine, ...], room: Room) -> tuple[WeighedLine, ...]:
    """Bare "yeast" by weight is fresh where there is far more of it than a dough takes dried."""
    flour_g = sum(line.g or 0.0 for line in lines if line.item and is_flour(line.item, room))
    fresh = room.kb.ingredients["yeast_fresh"].name
    return tuple(
        replace(line, item="yeast_fresh", name=fresh, assumed=("yeast taken as fresh: dried, it would be too much",))
        if said.phrase in _BARE_YEAST and line.by == "mass" and flour_g and (line.g or 0) > DRIED_AT_MOST * flour_g
        else line
        for said, line in zip(sheet.lines, lines, strict=True)
    )


def with_kosher_range(sheet: Sheet, lines: tuple[WeighedLine, ...], room: Room) -> tuple[WeighedLine, ...]:
    """Bare kosher salt by the spoon may be the light flakes: its low says so."""
    dense, light = (room.kb.ingredients[id].tsp_g or 1.0 for id in ("salt_kosher_dense", "salt_kosher_light"))
    return tuple(
        replace(line, low_g=line.low_g * light / dense)
        if said.phrase == _BARE_KOSHER and line.by == "volume" and line.low_g is not None
        else line
        for said, line in zip(sheet.lines, lines, strict=True)
    )


def taken_up(lines: tuple[WeighedLine, ...]) -> tuple[WeighedLine, ...]:
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


def taken_as(
    sheet: Sheet, lines: tuple[WeighedLine, ...], system: str, is_said: bool, book: MeasureBook
) -> tuple[str, ...]:
    """What was taken for granted of the lines, in words. is_said: the cup system was said or set."""
    pairs = list(zip(sheet.lines, lines, strict=True))
    by_volume = any(line.by == "volume" for line in lines)
    used = {part.unit for said in sheet.lines for measure in said.measures for part in measure.parts}
    found: list[str] = []
    if not is_said and by_volume and used & _CUPS:
        cup_ml = book.ml("cup", system)
        found.append(f"{SYSTEM_NAMES[system]} cups and spoons (cup {cup_ml:.4g} ml)")
    dried = [said for said, line in pairs if line.item == "yeast_instant" and said.phrase in _BARE_YEAST]
    if dried and any(_says_yeast(line) for line in lines):
        found.append("yeast taken as dried (instant)")
    if any(said.phrase == _BARE_KOSHER and line.by == "volume" for said, line in pairs):
        found.append("kosher salt taken as the dense kind; light flakes weigh 0.6 of it: weigh it")
    return (*found, *dict.fromkeys(text for line in lines for text in line.assumed))


def _says_yeast(line: WeighedLine) -> bool:
    """A line that says yeast in so many words, by no printed pack: a packet is dried without saying so."""
    return line.item == "yeast_instant" and " yeast" in f" {line.text.lower()}" and line.by != "label"
