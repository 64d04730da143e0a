"""A recipe's lines weighed: which of a line's measures holds, where they disagree, and the masses of the whole."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from assistant.engine.measures import MeasureBook, Said, item_meant
from assistant.engine.refusal import Refused
from assistant.engine.weighing import Weighed, weigh
from knowledge.records.ingredients import Ingredient

DISAGREES = 0.25
"""Share of the stated weight by which a stated volume may differ before it is pointed out."""

PREPARED = frozenset({"dough_prepared", "pate_fermentee"})
"""Items that are preferments made before: what is in them is their own list's to say."""
TAKES_UP = 0.15
"""Share by which the starter a dough takes may differ from what its build makes and still be that starter."""

_HYDRATION = re.compile(r"(\d{2,3}(?:\.\d+)?)\s*%\s*hydration")
_RANK = {"mass": 0, "label": 1, "volume": 2, "count": 3}


@dataclass(frozen=True, slots=True)
class Stated:
    """One line of a recipe as stated, ingredient known or not.

    measures: every statement of how much, each a tuple of parts to be added. others: ingredients offered instead.
    wanted: an amount is due (false for "to taste", "for dusting"). part: "dough", "build" (a starter or preferment
    listed by itself) or "outside" (on top, in the filling, for the tin).
    """

    text: str
    item: str | None
    name: str
    phrase: str = ""
    measures: tuple[tuple[Said, ...], ...] = ()
    others: tuple[str, ...] = ()
    states: str = ""
    passed_over: tuple[str, ...] = ()
    wanted: bool = True
    lost: bool = False
    part: str = "dough"


@dataclass(frozen=True, slots=True)
class WeighedLine:
    """One line in grams.

    g, low_g, high_g: None where the line could not be weighed. read: ingredient and amount are known, or none is due.
    remarks: what the baker should know (a disagreement, a guess, why it was not read). assumed: what was filled in.
    """

    text: str
    item: str | None
    name: str
    g: float | None = None
    low_g: float | None = None
    high_g: float | None = None
    by: str = ""
    basis: str = ""
    source: str = ""
    read: bool = False
    remarks: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    part: str = "dough"
    starter_hydration_pct: float | None = None


@dataclass(frozen=True, slots=True)
class Bowl:
    """What goes into the dough, grams by ingredient; the ripe starter's hydration where the recipe tells it.

    prepared: lines of preferments made before, whose flour and water are not listed.
    """

    masses: Mapping[str, float]
    starter_hydration_pct: float | None = None
    prepared: tuple[WeighedLine, ...] = ()


def weigh_line(stated: Stated, system: str, book: MeasureBook, country: str = "") -> WeighedLine:
    """The line in grams under a cup system; a line that cannot be weighed says why in its remarks.

    country: the cup system that was said or set, which decides words that differ between countries; empty for none.
    """
    line = _weighed(stated, system, book, country)
    hydration = _HYDRATION.search(stated.states)
    told = float(hydration.group(1)) if hydration and (line.item or "").startswith("starter") else None
    return replace(line, part=stated.part, starter_hydration_pct=told)


def _weighed(stated: Stated, system: str, book: MeasureBook, country: str) -> WeighedLine:
    masses = _plain_masses(stated, book)
    if stated.item is None:
        g = masses[0] if masses else None
        if stated.name and g is not None:
            why = f"'{stated.name}' is not known here: left out of the percentages and allergens, its weight stands"
        else:
            why = "I do not know this ingredient" if stated.name else "no ingredient is named"
        return WeighedLine(
            stated.text,
            None,
            stated.name,
            *(g, g, g),
            by="mass" if g is not None else "",
            read=bool(stated.name) and g is not None,
            remarks=(why,),
        )
    size = next((part.size for measure in stated.measures for part in measure if part.size), None)
    told: list[str] = []
    item, because = item_meant(stated.item, stated.phrase, size, _system_of(stated, country), book)
    if because and stated.phrase not in ("flour", "flours"):
        told.append(because)
    name = book.ingredients[item].name
    if stated.passed_over and book.ingredients[item].group in ("flour", "dairy", "sugar", "fat", "salt", "cheese"):
        told.append(f"'{' '.join(stated.passed_over)}' is not known here; counted as {name}")
    if not stated.measures:
        if stated.lost:
            told.append("the amount was damaged in copying")
        elif stated.wanted:
            told.append("no amount is given")
        return WeighedLine(stated.text, item, name, read=not stated.wanted and not stated.lost, remarks=tuple(told))
    weighed, refused = _weighings(stated, item, system, book)
    for other in stated.others if not weighed else ():
        weighed, _ = _weighings(stated, other, system, book)
        if weighed:
            told.append(f"weighed as {book.ingredients[other].name}: {refused[0].why}")
            item, name = other, book.ingredients[other].name
            break
    if not weighed:
        told.append(refused[0].why)
        return WeighedLine(stated.text, item, name, remarks=tuple(told))
    best, disagreement = _best(weighed, stated, book.ingredients[item].group)
    if disagreement:
        told.append(disagreement)
    return WeighedLine(
        stated.text, item, name, best.g, best.low_g, best.high_g, best.by, best.basis, best.source, True,
        tuple(told), best.assumed,
    )  # fmt: skip


def bowl_of(lines: Iterable[WeighedLine], ingredients: Mapping[str, Ingredient]) -> Bowl:
    """The dough's masses: what is outside left out, a starter listed with its build counted once.

    Where the dough takes about as much starter as a build makes, the starter is the row and the build tells its
    hydration; a build that no line takes up goes in as it is listed.
    """
    lines = tuple(lines)
    dough = [line for line in lines if line.part == "dough" and line.item not in PREPARED]
    prepared = tuple(line for line in lines if line.part != "outside" and line.item in PREPARED and line.g)
    build = [line for line in lines if line.part == "build" and line.g and line.item not in PREPARED]
    made = sum(line.g or 0 for line in build)
    hydration = next((line.starter_hydration_pct for line in dough if line.starter_hydration_pct), None)
    starters = [line for line in dough if (line.item or "").startswith("starter") and line.g]
    if build and starters and abs(sum(line.g or 0 for line in starters) / made - 1) <= TAKES_UP:
        return Bowl(masses_of(dough), hydration or _build_hydration(build, ingredients))
    return Bowl(masses_of((*build, *dough)), hydration, () if build else prepared)


def _build_hydration(build: Iterable[WeighedLine], ingredients: Mapping[str, Ingredient]) -> float | None:
    """Water in percent of flour of what a starter is built from; its seed counts half and half."""
    flour = water = 0.0
    for line in build:
        group = ingredients[line.item].group if line.item else ""
        g = line.g or 0.0
        flour += g if group == "flour" else g / 2 if group == "starter" else 0.0
        water += g if group == "water" else g / 2 if group == "starter" else 0.0
    return 100 * water / flour if flour else None


def masses_of(lines: Iterable[WeighedLine]) -> dict[str, float]:
    """Grams by ingredient, in the order first met; lines without weight or ingredient are left out."""
    total: dict[str, float] = {}
    for line in lines:
        if line.item is not None and line.g:
            total[line.item] = total.get(line.item, 0.0) + line.g
    return total


def _system_of(stated: Stated, system: str) -> str:
    return next((part.system for measure in stated.measures for part in measure if part.system), None) or system


def _plain_masses(stated: Stated, book: MeasureBook) -> list[float]:
    """Stated masses, grams before ounces; they hold whatever the ingredient is."""
    found: list[tuple[bool, float]] = []
    for measure in stated.measures:
        if all(part.pack is None and book.dimension(part.unit) == "mass" for part in measure):
            grams = sum(part.middle * (book.measures[part.unit].g or 0) for part in measure)
            found.append((measure[0].unit not in ("g", "kg", "mg"), grams))
    return [grams for _, grams in sorted(found, key=lambda pair: pair[0])]


def _weighings(
    stated: Stated, item: str, system: str, book: MeasureBook
) -> tuple[list[tuple[Weighed, tuple[Said, ...]]], list[Refused]]:
    weighed: list[tuple[Weighed, tuple[Said, ...]]] = []
    refused: list[Refused] = []
    for measure in stated.measures:
        try:
            weighed.append((weigh(measure, item, system, stated.states, book), measure))
        except Refused as no:
            refused.append(no)
    return weighed, refused


def _best(weighed: list[tuple[Weighed, tuple[Said, ...]]], stated: Stated, group: str) -> tuple[Weighed, str | None]:
    """The measure that holds: a mass before a printed weight before a volume before a count; grams before ounces."""
    ordered = sorted(weighed, key=lambda pair: (_RANK[pair[0].by], pair[1][0].unit not in ("g", "kg")))
    best, measure = ordered[0]
    others = [one for one, _ in ordered[1:] if one.by in ("volume", "label")]
    if best.by == "mass" and measure[0].unit == "oz" and group in ("water", "dairy"):
        volume = next((one for one, _ in ordered if one.by == "volume" and one.ml), None)
        fluid_ml = measure[0].middle * 29.574
        if volume is not None and volume.ml is not None and abs(volume.ml / fluid_ml - 1) < 0.03:
            return best, None  # "1 cup (8 oz)" of a liquid: the ounces may be fluid ones, the two agree either way
    for other in others:
        if best.by in ("mass", "label") and best.g > 0 and abs(other.g / best.g - 1) > DISAGREES:
            return best, (
                f"the two measures differ: {best.g:.4g} g is stated, the volume would be about {other.g:.3g} g; "
                "the weight is taken"
            )
    return best, None
