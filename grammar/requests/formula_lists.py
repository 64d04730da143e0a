"""Lists of weights: whether bare figures beside ingredients are grams, and whose share is said beside them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from grammar.frames import Bound, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_parts import is_flour
from grammar.requests.formula_rows import row_of
from grammar.requests.formula_slots import FLOUR, SALT

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest


def masses_told(bound: Bound) -> bool:
    """A list of weights whose percentages are wanted: flour and another thing by mass, and no size or share that
    rules."""
    weighed = [hit for hit in (*bound.of("part_g"), *bound.of("part_volume")) if hit.label is not None]
    flour = any(hit.label is not None and is_flour(hit.label) for hit in weighed)
    water = any(hit.label is not None and fits(hit.label, ("ingredient:water", "cue:water")) for hit in weighed)
    starter = any(hit.label is not None and fits(hit.label, STARTER) for hit in weighed)
    if flour and water and starter and not bound.first("pieces") and not bound.first("piece_g"):
        return True  # a hydration said beside these is the starter's
    if bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_pct"):
        return bool(bound.said("cue:percentages") and flour and len(weighed) > 1 and not bound.first("piece_g"))
    return flour and (water or bound.said("cue:percentages"))


def bare_rows(bound: Bound) -> tuple[str, ...]:
    """The rows whose figure was said without a unit, by ingredient, salt or starter."""
    bare = [hit.label for hit in bound.hits if hit.amount is not None and hit.amount.dim == "num" and hit.label]
    flours = (id for label in bare for id in label.ids("ingredient")[:1])
    return tuple(dict.fromkeys(name for name in (*map(row_of, bare), *flours) if name))


def in_row_units(line: FormulaRequest, earlier: FormulaRequest) -> FormulaRequest:
    """Bare figures of a change in the unit their row was said in: "rye down to 150" of 200 g rye is 150 g."""
    if not line.bare_rows:
        return line
    weighed = {_kind(part.item[0]) for part in earlier.parts if part.g is not None}
    by_weight = earlier.from_masses or earlier.by_weight
    parts = tuple(
        replace(part, g=part.pct, pct=None)
        if part.pct is not None and part.item[0] in line.bare_rows and (_kind(part.item[0]) in weighed or by_weight)
        else part
        for part in line.parts
    )
    line = replace(line, parts=parts)
    if "salt" in line.bare_rows and earlier.salt_g is not None and line.salt_pct is not None:
        line = replace(line, salt_g=line.salt_pct, salt_pct=None)
    if "starter" in line.bare_rows and earlier.starter_g is not None and line.starter_pct is not None:
        line = replace(line, starter_g=line.starter_pct, starter_pct=None)
    return line


def _kind(item: str) -> str:
    """What a row is one of: any yeast stands in for another."""
    return "yeast" if item.startswith("yeast") else item


_LEAST_WET, _MOST_WET = 0.25, 1.4
"""Water and milk by weight of the flour between which a list of bare figures reads as grams."""
_LIQUIDS = ("ingredient:water", "cue:water", "ingredient:milk*", "ingredient:buttermilk*", "ingredient:kefir*")
_ALL_PCT = 105.0
"""Flours add up to a hundred per cent; more than this are grams."""


def lists_grams(bound: Bound) -> bool:
    """Whether the bare figures beside ingredients are grams: flours past a hundred, or a weight of flour with so much
    liquid as makes a dough of it ("400 g flour, 150 milk, 40 butter, 6 salt")."""
    pairs = [hit for hit in bound.hits if hit.amount is not None and hit.label is not None]
    bare = [hit for hit in pairs if hit.amount is not None and hit.amount.dim == "num" and _listed(hit.label)]
    if len(bare) < 2 or any(hit.amount.dim == "pct" and _listed(hit.label) for hit in pairs if hit.amount is not None):
        return False
    flours = sum(amount_base(hit.amount) or 0.0 for hit in bare if hit.label is not None and fits(hit.label, FLOUR))
    if flours > _ALL_PCT:
        return True
    weighed_g = sum(
        amount_base(hit.amount) or 0.0
        for hit in pairs
        if hit.amount is not None and hit.amount.dim == "mass" and hit.label is not None and fits(hit.label, FLOUR)
    )
    wet = sum(amount_base(hit.amount) or 0.0 for hit in bare if hit.label is not None and fits(hit.label, _LIQUIDS))
    return weighed_g > 0 and _LEAST_WET <= wet / weighed_g <= _MOST_WET


def _listed(label: Phrase | None) -> bool:
    return label is not None and (bool(label.ids("ingredient")) or fits(label, (*SALT, *STARTER, "cue:flour")))


def wet_by_share(bound: Bound, grams_listed: bool) -> bool:
    """Whether the figure beside the water is its share although the rest are grams: "... in water at 71"."""
    hit = bound.first("hydration_pct")
    if not grams_listed or hit is None or hit.amount is None:
        return False
    value = amount_base(hit.amount) or 0.0
    flour_g = sum(
        amount_base(one.amount) or 0.0 for one in bound.hits
        if one.amount is not None and one.label is not None and fits(one.label, FLOUR)
    )  # fmt: skip
    return flour_g > 0 and value / flour_g < _LEAST_WET and 40 <= value <= 115
