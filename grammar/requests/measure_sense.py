"""Whether what was heard is a measure to be turned into another, or one of the dough in hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.frames import Bound
from grammar.requests.measure_said import SAME, WEIGHED_OR_POURED

if TYPE_CHECKING:
    from grammar.requests.conversion import ConversionRequest


_OVEN_F = 120.0
COUNTED = (
    "egg", "banana", "apple", "onion_raw", "garlic", "lemon", "orange", "potato", "carrot", "zucchini", "dates", "figs",
    "scallions", "jalapeno", "bell_pepper", "tomatoes", "avocado", "peaches", "strawberries", "lime",
)  # fmt: skip
"""What recipes count instead of weighing, by the beginning of its id."""


def of_dough(request: ConversionRequest, bound: Bound) -> bool:
    """ "what's that in cups", "the flour in cups": no amount, and a dough in hand that has one."""
    measured = request.amounts or request.heat or request.length or request.sizes_cm or request.tin
    if bound.said("mistake:poured") or measured or request.to not in WEIGHED_OR_POURED or not bound.context.has_bake:
        return False
    return bool(request.item) or bound.context.focus in ("formula", "recipe")


def makes_sense(request: ConversionRequest, bound: Bound, gas: bool) -> bool:
    follows = bound.context.focus == "conversion"
    if bound.said("ask:convert") and not any(phrase.kind == "amount" for phrase in bound.phrases):
        return True  # what to convert is asked back
    asked = bool(request.to) or bound.said("ask:convert")
    if request.heat is not None:
        value, unit = request.heat.value, request.heat.unit
        if unit == "gas":
            return not request.amounts
        if request.amounts or request.item:
            return False
        if unit == "deg" and 150 <= value <= 600:
            return True
        oven = bound.said("cue:oven", "cue:fan", "cue:no_fan", "cue:gas", "cue:recipe_given")
        return (
            asked
            or (oven and value >= 90)
            or (unit == "degF" and value >= 2 * _OVEN_F)
            or (follows and value >= 90 and unit != "deg")
        )
    if request.length is not None or request.sizes_cm:
        return asked and not request.amounts
    if any(one.unit == SAME for one in request.amounts):
        return follows and len(request.amounts) == 1
    if any(one.unit not in ("g", "kg") and one.unit != "each" for one in request.amounts):
        return asked or not _other_at_hand(bound)
    if request.amounts:
        counted = all(one.unit == "each" for one in request.amounts)
        weighed = bound.said("ask:how_much", "cue:piece_mass") or not bound.context.has_bake
        if counted and is_counted(request) and weighed:
            return True
        return (asked and (not counted or bool(request.item))) or (follows and bool(request.amounts))
    return follows and bool(
        request.item or request.to or request.system or request.fills or request.fan or request.to_fan
    )


def _other_at_hand(bound: Bound) -> bool:
    """Whether something else than the thing that is called for is at hand: that one is to stand in for it."""
    called = {p.ids("ingredient")[0] for p in bound.phrases if p.ids("ingredient") and not p.ids("pack")}
    return len(called) > 1 and bound.said("cue:only_this") and bound.said("cue:recipe_given", "stance:called_for")


def is_counted(request: ConversionRequest) -> bool:
    return bool(request.item) and request.item[0].startswith(COUNTED)
