"""Kitchen measures to grams and back, each with its low and high.

A cup of a powder is no weight: how it is filled moves it by a fifth. So everything here answers with three figures
and says in words what they rest on. Volumes are scaled by millilitres between cup systems; a mass or the printed weight
of a pack needs no range. Nothing is guessed where the facts give no figure: `Refused` says why and asks for a weight.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from assistant.engine.naming import short_name
from assistant.engine.refusal import Refused
from knowledge import Knowledge
from knowledge.records.fills import Fill
from knowledge.records.ingredients import Ingredient
from knowledge.records.manners import Manner
from knowledge.records.measures import Measure
from knowledge.records.namesakes import Namesake
from knowledge.records.packs import Pack

CupSystem = Literal["us", "metric", "imperial", "australian", "japanese"]

US_CUP_ML, US_TBSP_ML, US_TSP_ML = 236.588, 14.787, 4.929
"""The volumes that `cup_g`, `tbsp_g` and `tsp_g` of an ingredient are grams of (NIST)."""

LIQUID_READING = 0.03
"""Share by which a line on a jug or a level spoon of a liquid or fat is misread."""
SOLID_SPREAD = 0.1
"""Share by which a cup of whole, cut or ground solids differs where nobody has published a low and a high."""

_LIQUID_GROUPS = frozenset({"water", "dairy", "fat", "egg"})
_SYRUP_WATER_PCT = 15.0
_PIECE_SIZES = {"small": 0.7, "medium": 1.0, "large": 1.35, "extra large": 1.6, "jumbo": 1.8}
_EGG_SIZES = {
    "small": "egg_small", "medium": "egg_medium", "large": "egg_whole", "extra large": "egg_xl", "jumbo": "egg_jumbo",
}  # fmt: skip
_PART_OF_EGG = {"egg_white": 0.66, "egg_yolk": 0.34}
_NEVER_COUNTED = frozenset({"flour", "water", "salt", "starter", "leavening", "fat", "dairy", "sugar", "malt"})
_SPOONS = frozenset({"tbsp", "dsp", "tsp"})
_PIECELIKE = re.compile(r"stick|packet|sachet|cake|package|envelope|slice", re.I)

SYSTEM_NAMES = {
    "us": "US", "metric": "metric", "imperial": "imperial", "australian": "Australian", "japanese": "Japanese",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """One amount as stated: `low` to `high` of a measure (its id), with what was said of size, filling and pack."""

    low: float
    high: float
    unit: str
    size: str | None = None
    manner: str | None = None
    pack: Said | None = None
    system: str | None = None

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Weighed:
    """Grams with what they rest on.

    by: "mass", "label" (a printed weight), "volume" or "count". basis: the reckoning in words. assumed: what was
    filled in. ml: the volume where one was stated.
    """

    g: float
    low_g: float
    high_g: float
    by: Literal["mass", "label", "volume", "count"]
    basis: str
    source: str = ""
    assumed: tuple[str, ...] = ()
    ml: float | None = None


@dataclass(frozen=True)
class MeasureBook:
    """The facts of measuring, ready to be looked up."""

    measures: Mapping[str, Measure]
    ingredients: Mapping[str, Ingredient]
    manners: Mapping[str, Manner]
    packs: tuple[Pack, ...]
    fills: Mapping[str, tuple[Fill, ...]]
    namesakes: tuple[Namesake, ...]
    _patterns: dict[str, re.Pattern[str]] = field(default_factory=dict, repr=False, compare=False)

    def ml(self, unit: str, system: str) -> float:
        """Millilitres of one measure under a cup system. KeyError for what is no volume."""
        volumes = self.measures[unit].ml
        return volumes.get(system, volumes["us"])

    def dimension(self, unit: str) -> str:
        return self.measures[unit].dimension

    def packed_as(self, unit: str, items: Sequence[str]) -> str:
        """The one of these things that comes in such a pack (a cube of yeast is fresh), else the first."""
        packed = {item for pack in self.packs if pack.unit == unit for item in pack.items}
        return next((item for item in items if item in packed), items[0])

    def fill_of(self, item: str, states: str) -> Fill | None:
        """How the thing is filled or cut when it is measured, the longest saying first."""
        at = _outside_comma(states)
        before, later = states[:at], states[at:]
        sayings = [(form, fill) for fill in self.fills.get(item, ()) for form in fill.said_as]
        for form, fill in sorted(sayings, key=lambda pair: -len(pair[0])):
            if self._says(before, form) or (fill.after_comma and self._says(later, form)):
                return fill
        if later:
            for fill in self.fills.get(item, ()):
                if any(self._says(later, form) for form in fill.later_as):
                    return fill
        return None

    def _says(self, text: str, form: str) -> bool:
        pattern = self._patterns.get(form)
        if pattern is None:
            pattern = re.compile(rf"(?<![a-z])(?<!not )(?<!un){re.escape(form)}(?![a-z])")
            self._patterns[form] = pattern
        return pattern.search(text) is not None


def _outside_comma(text: str) -> int:
    """Place of the first comma outside brackets that follows a letter; the text's end where there is none."""
    depth = 0
    for place, sign in enumerate(text):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and depth <= 0 and re.search(r"[a-z]{3}", text[:place]):
            return place
    return len(text)


def measure_book(kb: Knowledge) -> MeasureBook:
    """The book of measures from the trade facts."""
    fills: dict[str, tuple[Fill, ...]] = {}
    for fill in kb.all(Fill).values():
        for item in fill.items:
            fills[item] = (*fills.get(item, ()), fill)
    return MeasureBook(
        kb.all(Measure),
        kb.ingredients,
        kb.all(Manner),
        tuple(kb.all(Pack).values()),
        fills,
        tuple(kb.all(Namesake).values()),
    )


def item_meant(item: str, phrase: str, size: str | None, system: str, book: MeasureBook) -> tuple[str, str | None]:
    """(ingredient id, why it is another than the word's first meaning).

    Egg sizes choose the egg; a name that differs between countries goes by the cup system that was said or set, and
    by its spelling where none was (`system` empty).
    """
    if item == "egg_whole" and size:
        item = _EGG_SIZES.get(size, item)
    for namesake in book.namesakes:
        named = not namesake.words or phrase in namesake.words or (item == "egg_whole" and size == "large")
        meant = namesake.means.get(system) if system else namesake.unsaid
        if namesake.item == item and named and meant is not None and meant != item:
            return meant, namesake.because
    return item, None


def weigh(parts: Iterable[Said], item: str, system: str, states: str, book: MeasureBook) -> Weighed:
    """The weight of one whole measure, its parts added up.

    Args:
        parts: the amounts that are added ("1 cup" and "2 tbsp").
        item: ingredient id.
        system: the cup system in force; an amount that names its own goes by that.
        states: the words around, lower case, for how a cup is filled.
    Raises:
        Refused: a volume of what only a scale can measure, or a measure nobody has weighed.
    """
    weighed = [_weigh_part(part, book.ingredients[item], system, states, book) for part in parts]
    if len(weighed) == 1:
        return weighed[0]
    rank = {"mass": 0, "label": 1, "volume": 2, "count": 3}
    assumed = tuple(dict.fromkeys(text for one in weighed for text in one.assumed))
    return Weighed(
        g=sum(one.g for one in weighed),
        low_g=sum(one.low_g for one in weighed),
        high_g=sum(one.high_g for one in weighed),
        by=max((one.by for one in weighed), key=lambda by: rank[by]),
        basis="; ".join(dict.fromkeys(one.basis for one in weighed)),
        source=weighed[0].source,
        assumed=assumed,
    )


def grams_of_mass(said: Said, book: MeasureBook) -> Weighed:
    """A stated mass in grams; no ingredient needed."""
    unit = book.measures[said.unit]
    g = unit.g or 0.0
    basis = "as weighed" if said.unit == "g" else f"1 {unit.name} = {g:g} g"
    return Weighed(said.middle * g, said.low * g, said.high * g, "mass", basis, unit.source)


def _weigh_part(said: Said, item: Ingredient, system: str, states: str, book: MeasureBook) -> Weighed:
    system = said.system or system
    dimension = book.dimension(said.unit)
    if said.pack is not None:
        one = _weigh_part(said.pack, item, system, states, book)
        by: Literal["label", "volume"] = "label" if book.dimension(said.pack.unit) == "mass" else "volume"
        return replace(one, g=one.g * said.middle, low_g=one.low_g * said.low, high_g=one.high_g * said.high, by=by)
    if dimension == "mass":
        return grams_of_mass(said, book)
    if dimension == "volume":
        return _weigh_volume(said, item, system, states, book)
    return _weigh_count(said, item, book)


def _weigh_volume(said: Said, item: Ingredient, system: str, states: str, book: MeasureBook) -> Weighed:
    if item.mass_only:
        raise _by_weight_only(item)
    density = density_of(item, said.unit, states, book)
    unit = book.measures[said.unit]
    share, share_low, share_high, assumed = _manner(said, book)
    ml = book.ml(said.unit, system)
    one = ml * density.g_per_ml
    spread_low = (unit.low_share or 1) * share_low
    spread_high = (unit.high_share or 1) * share_high
    name = unit.name if len(unit.ml) == 1 else f"{SYSTEM_NAMES[system]} {unit.name}"
    basis = f"1 {name} = {ml:g} ml; {density.basis}"
    return Weighed(
        g=said.middle * one * share,
        low_g=said.low * one * spread_low * density.low_share,
        high_g=said.high * one * spread_high * density.high_share,
        by="volume",
        basis=basis,
        source=item.source,
        assumed=assumed,
        ml=said.middle * ml * share,
    )


@dataclass(frozen=True, slots=True)
class Density:
    """Grams per millilitre as filled in a kitchen, its low and high as shares of it, and the reckoning in words."""

    g_per_ml: float
    low_share: float
    high_share: float
    basis: str


def density_of(item: Ingredient, unit: str, states: str, book: MeasureBook) -> Density:
    """How heavy a millilitre of the thing is in this measure.

    Spoons go by the weighed spoon, cups, jugs and pints by the weighed cup; water is 1 g/ml by definition, the tables
    round it. Raises Refused where no volume has been weighed.
    """
    if item.mass_only:
        raise _by_weight_only(item)
    if item.group == "water" and item.cup_g is not None:
        return Density(1.0, 1 - LIQUID_READING, 1 + LIQUID_READING, "1 g a millilitre")
    grams, ml, measure = _weighed_measure(item, unit)
    low, high = _spread(item)
    fill = book.fill_of(item.id, states)
    words = f"{grams:g} g a US {measure}"
    if fill is not None and item.cup_g is not None:
        grams = grams * fill.cup_g / item.cup_g
        low, high = fill.cup_low_g / fill.cup_g, fill.cup_high_g / fill.cup_g
        words = f"{grams:.3g} g a US {measure}, {fill.name}"
    return Density(grams / ml, low, high, f"{short_name(item)}: {words}")


def _weighed_measure(item: Ingredient, unit: str) -> tuple[float, float, str]:
    """(grams, millilitres, name) of the published measure nearest to the one asked for."""
    cup = (item.cup_g, US_CUP_ML, "cup")
    tbsp = (item.tbsp_g, US_TBSP_ML, "tablespoon")
    tsp = (item.tsp_g, US_TSP_ML, "teaspoon")
    order = {"tbsp": (tbsp, cup, tsp), "dsp": (tbsp, tsp, cup), "tsp": (tsp, tbsp, cup)}
    small = unit in ("pinch", "dash", "smidgen", "drop")
    for grams, ml, name in order.get("tsp" if small else unit, (cup, tbsp, tsp)):
        if grams is not None:
            return grams, ml, name
    raise Refused(
        f"nobody has published what a measure of {short_name(item)} weighs, and it varies too much to guess",
        f"the weight of the {short_name(item)} in grams",
    )


def _spread(item: Ingredient) -> tuple[float, float]:
    """Low and high of a cup as shares of the usual one."""
    if item.cup_g is not None and item.cup_low_g is not None and item.cup_high_g is not None:
        low, high = item.cup_low_g / item.cup_g, item.cup_high_g / item.cup_g
        return min(low, 1 - LIQUID_READING), max(high, 1 + LIQUID_READING)
    syrup = item.group in ("sugar", "malt") and (item.water_pct or 0) >= _SYRUP_WATER_PCT
    spread = LIQUID_READING if item.group in _LIQUID_GROUPS or syrup else SOLID_SPREAD
    return 1 - spread, 1 + spread


def _manner(said: Said, book: MeasureBook) -> tuple[float, float, float, tuple[str, ...]]:
    manner = book.manners.get(said.manner or "level")
    if manner is None or manner.id == "level":
        return 1.0, 1.0, 1.0, ()
    spoon = said.unit in _SPOONS
    shares = (manner.cup, manner.cup_low, manner.cup_high)
    if spoon:
        shares = (manner.spoon, manner.spoon_low, manner.spoon_high)
    word = "spoon" if spoon else "measure"
    return *shares, (f"a {manner.id} {word} is {shares[0]:g} of a level one",)


def _by_weight_only(item: Ingredient) -> Refused:
    return Refused(
        f"{short_name(item)} is measured by weight only: {mass_only_reason(item)}",
        f"the weight of the {short_name(item)} in grams",
    )


_POURED = re.compile(
    r"water|milk|cream|kefir|whey|oil|juice|beer|coffee|tea\b|wine|cider|honey|syrup|molasses|treacle|vinegar|broth|aquafaba|"
    r"spirits|sauce|extract"
)
_NOT_POURED = re.compile(r"powder|cheese|sour_cream|coconut_oil|condensed|chips|tea_")


def is_poured(item: Ingredient) -> bool:
    """Whether a thing is measured in a jug, so that ounces of it may be fluid ones."""
    return (
        bool(_POURED.search(item.id))
        and not _NOT_POURED.search(item.id)
        and item.group not in ("flour", "seed", "grain")
    )


def mass_only_reason(item: Ingredient) -> str:
    """Why a volume of the thing is refused."""
    if item.group == "starter":
        return "a starter is full of gas, so the same cup holds half as much an hour later"
    if item.group == "alkali":
        return "it is caustic, and a spoonful can be twice another"
    if item.group == "salt":
        return "flakes lie so loosely that spoons differ several times over"
    return "its volume says nothing dependable"


def _weigh_count(said: Said, item: Ingredient, book: MeasureBook) -> Weighed:
    unit = book.measures[said.unit]
    for pack in book.packs:
        if pack.unit == said.unit and item.id in pack.items and (pack.size is None or pack.size == said.size):
            basis = f"one {unit.name} of {short_name(item)} = {pack.g:g} g"
            by: Literal["label", "count"] = "label" if pack.in_label else "count"
            return Weighed(
                said.middle * pack.g, said.low * pack.low_g, said.high * pack.high_g, by, basis, pack.source,
            )  # fmt: skip
    piecelike = said.unit in ("each", "leaf", "clove") and not _PIECELIKE.search(item.each_unit or "")
    if item.each_g is not None and piecelike:
        share = 1.0
        if item.group not in ("egg",) and said.size:
            share = _PIECE_SIZES[said.size]
        elif item.id in _PART_OF_EGG and said.size:
            whole = book.ingredients[_EGG_SIZES[said.size]].each_g or 50.0
            share = whole * _PART_OF_EGG[item.id] / item.each_g
        spread = 0.06 if item.group == "egg" else 0.25
        g = item.each_g * share
        return Weighed(
            said.middle * g, said.low * g * (1 - spread), said.high * g * (1 + spread), "count",
            f"one {item.each_unit} = {g:.3g} g", item.source,
        )  # fmt: skip
    if said.unit == "each" and item.group in _NEVER_COUNTED and item.each_g is None and said.low >= 5:
        assumed = (f"{said.middle:g} {short_name(item)} read as grams",)
        return Weighed(said.middle, said.low, said.high, "mass", "as weighed", assumed=assumed)
    if said.unit == "each":
        raise Refused(
            f"how much one {short_name(item)} weighs is not known here",
            f"the weight of the {short_name(item)} in grams",
        )
    raise Refused(
        f"a {unit.name} of {short_name(item)} comes in several sizes", f"the grams printed on the {unit.name}"
    )
