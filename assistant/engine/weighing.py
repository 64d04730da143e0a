"""An amount in kitchen measures to grams: by mass, by the label of a pack, by volume or by count.

Everything answers with three figures, low, usual and high, and says in words what they rest on; a mass or the printed
weight of a pack needs no range. Nothing is guessed where the facts give no figure: `Refused` says why and asks for a
weight.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from assistant.engine.density import by_weight_only, density_of
from assistant.engine.measures import EGG_SIZES, SYSTEM_NAMES, MeasureBook, Said
from assistant.engine.naming import short_name
from assistant.engine.refusal import Refused
from knowledge.records.ingredients import Ingredient

_PIECE_SIZES = {"small": 0.7, "medium": 1.0, "large": 1.35, "extra large": 1.6, "jumbo": 1.8}
_PART_OF_EGG = {"egg_white": 0.66, "egg_yolk": 0.34}
_NEVER_COUNTED = frozenset({"flour", "water", "salt", "starter", "leavening", "fat", "dairy", "sugar", "malt"})
_SPOONS = frozenset({"tbsp", "dsp", "tsp"})
_PIECES = frozenset({"each", "leaf", "clove"})
_PACKED = re.compile(r"stick|packet|sachet|cake|package|envelope|slice", re.I)
"""A weight of "one" that is a pack's, not a piece's."""
_EGG_SPREAD, _PIECE_SPREAD = 0.06, 0.25
"""Shares by which one egg of a size and one other piece differ from the usual one."""
_LEAST_BARE_G = 5
"""A bare number of what is never counted is grams from here on."""


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
        raise by_weight_only(item)
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


def _weigh_count(said: Said, item: Ingredient, book: MeasureBook) -> Weighed:
    """The weight of a number of packs or pieces; Refused where nobody has weighed one, or where one has many sizes."""
    unit = book.measures[said.unit]
    weighed = _weigh_packs(said, item, book) or _weigh_pieces(said, item, book)
    if weighed is not None:
        return weighed
    if said.unit != "each":
        raise Refused(
            f"a {unit.name} of {short_name(item)} comes in several sizes", f"the grams printed on the {unit.name}"
        )
    if item.group in _NEVER_COUNTED and item.each_g is None and said.low >= _LEAST_BARE_G:
        assumed = (f"{said.middle:g} {short_name(item)} read as grams",)
        return Weighed(said.middle, said.low, said.high, "mass", "as weighed", assumed=assumed)
    raise Refused(
        f"how much one {short_name(item)} weighs is not known here", f"the weight of the {short_name(item)} in grams"
    )


def _weigh_packs(said: Said, item: Ingredient, book: MeasureBook) -> Weighed | None:
    """By the usual pack of the thing; None where it comes in none that is called so."""
    for pack in book.packs:
        if pack.unit == said.unit and item.id in pack.items and (pack.size is None or pack.size == said.size):
            basis = f"one {book.measures[said.unit].name} of {short_name(item)} = {pack.g:g} g"
            by: Literal["label", "count"] = "label" if pack.in_label else "count"
            g, low_g, high_g = said.middle * pack.g, said.low * pack.low_g, said.high * pack.high_g
            return Weighed(g, low_g, high_g, by, basis, pack.source)
    return None


def _weigh_pieces(said: Said, item: Ingredient, book: MeasureBook) -> Weighed | None:
    """By the weight of one piece as it grows or is laid; None where none is known."""
    if item.each_g is None or said.unit not in _PIECES or _PACKED.search(item.each_unit or ""):
        return None
    share = 1.0
    if said.size and item.group != "egg":
        share = _PIECE_SIZES[said.size]
    elif said.size and item.id in _PART_OF_EGG:
        whole_g = book.ingredients[EGG_SIZES[said.size]].each_g or 50.0
        share = whole_g * _PART_OF_EGG[item.id] / item.each_g
    spread = _EGG_SPREAD if item.group == "egg" else _PIECE_SPREAD
    g = item.each_g * share
    low_g, high_g = said.low * g * (1 - spread), said.high * g * (1 + spread)
    return Weighed(said.middle * g, low_g, high_g, "count", f"one {item.each_unit} = {g:.3g} g", item.source)
