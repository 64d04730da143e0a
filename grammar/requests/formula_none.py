"""What looks like a dough and is none: an exchange of one thing for another, a figure that weighs no piece."""

from __future__ import annotations

from collections.abc import Mapping

from grammar.batch_part import batch_part, put_in_part
from grammar.frames import Bound, Hit, amount_base
from grammar.mishap_words import factor_told
from grammar.requests.formula_figures import is_its_day
from grammar.requests.formula_parts import Part
from grammar.requests.prices import pays
from grammar.roles import possible

_LIGHTEST_G = 15.0
"""No piece weighs less; a smaller bare number is an hour, a headcount or degrees."""
_LIGHTEST_UNNAMED_G = 40.0
"""Where neither pieces nor a dough are talked of, a bare number below this is degrees or a share."""
_LEAST_FLOUR_G = 8.0
"""Less flour than this is a count or a share that was taken for grams."""


def tells_prices(bound: Bound) -> bool:
    """Whether a line speaks of money: its weights are what a price is for, and no dough's."""
    paid = any(phrase.kind == "amount" and phrase.dim == "money" for phrase in bound.phrases)
    paid = paid and bound.context.has_bake and bound.said("money:*") and bound.first("hydration_pct") is None
    return paid or pays(bound)


def is_exchange(bound: Bound) -> bool:
    """Whether the line asks for one thing in place of another, and wishes for no dough."""
    return _one_for_other(bound) or _exchanged(bound)


def _one_for_other(bound: Bound) -> bool:
    """Whether the line only asks for one thing in place of so many grams of another: that is a swap, not a dough."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    plain = bound.links() & {"instead_of", "in_place_of"} and not bound.said("act:*", "cue:rest", "blend:*")
    if not amounts and plain and len({phrase.ids("ingredient")[:1] for phrase in bound.phrases} - {()}) == 2:
        return True  # "beer instead of the water in my pretzels"
    if len(amounts) != 1 or amounts[0].dim != "mass" or amounts[0].old is not None:
        return False
    at = bound.phrases.index(amounts[0])
    before = bound.phrases[at - 1] if at else None
    given = {name for phrase in bound.phrases for name in phrase.ids("ingredient")[:1]}
    instead = before is not None and set(before.ids("link")) & {"instead_of", "in_place_of"}
    return bool(instead) and len(given) == 2 and not bound.said("act:change", "act:use", "act:add")


def _exchanged(bound: Bound) -> bool:
    """ "honey in place of 60 g sugar": one weighed thing for another is an exchange, not a dough."""
    instead = bound.links() & {"instead_of", "in_place_of", "rather_than"}
    weighed = bound.first("part_g") is not None or bound.first("part_volume") is not None
    sized = bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_g")
    return bool(instead) and weighed and not sized


def weighs_nothing(bound: Bound) -> bool:
    """Whether a bare number was taken for a piece's weight where no pieces are talked of, or weighs too little.

    "1 g yeast in 500 g flour overnight at 18": degrees. "24 rolls for 9": an hour, or heads.
    """
    hit = bound.first("piece_g")
    if hit is None or hit.amount is None or hit.amount.dim != "num" or hit.amount.role is not None:
        return False
    grams_said = amount_base(hit.amount) or 0.0
    if hit.label is None and _two_loose(bound, hit):
        return True
    talked_of = bound.context.has_bake or bound.said("piece:*", "bread:*", "cue:piece_mass", "cue:split")
    led = {"each", "per", "x"} & bound.links() or bound.first("pieces") is not None
    if hit.label is None and grams_said < _LIGHTEST_UNNAMED_G and not (talked_of or led):
        return True
    weighed = bound.first("part_g") is not None and bound.first("pieces") is None and hit.label is None
    return grams_said < _LIGHTEST_G or (weighed and not bound.links() & {"each", "per"})


def _two_loose(bound: Bound, weight: Hit) -> bool:
    """Whether a line has two bare numbers, neither with a word of its own: "so 16, not all 12" counts the pieces and
    weighs none."""
    many = bound.first("pieces")
    at = next(n for n, phrase in enumerate(bound.phrases) if phrase is weight.amount)
    led = bound.phrases[at - 1].ids("link") if at else ()
    named = many is not None and many.label is not None and many.label.ids("piece") != ("piece",)
    counted = many is None or named or many.amount is None or many.amount.role is not None
    return not counted and not {"at", "of", "each", "to"} & set(led) and bound.first("hydration_pct") is None


def is_too_little(bound: Bound, own: Mapping[str, float], parts: list[Part]) -> bool:
    """Whether what was weighed makes no dough: "1 bag of flour", of how much was not said; a starter to be built."""
    if own.get("flour_g", _LEAST_FLOUR_G) < _LEAST_FLOUR_G:
        return True
    sized = bound.first("piece_g") or bound.first("pieces") or bound.first("hydration_pct")
    built = bound.said("feeding:stiff") and not bound.context.has_bake and not sized
    return built and set(own) == {"starter_g"} and not parts


def is_warmth(count: Hit | None, bound: Bound) -> bool:
    """Whether a bare count behind a room's warmth is as warm as rooms get."""
    if count is None or count.label is not None:
        return False
    warm, (low, high) = bound.first("kitchen_c"), possible("kitchen_c") or (0.0, 0.0)
    places = [n for n, one in enumerate(bound.phrases) if one is count.amount or (warm and one is warm.amount)]
    behind = len(places) == 2 and bound.phrases[places[1]] is count.amount
    return behind and low <= (amount_base(count.amount) or 0.0) <= high


def is_of_something_else(bound: Bound) -> bool:
    """Whether a line tells prices, a plan's day, a room's warmth or an undoing, or is of a part of the batch or of what
    something stands in for."""
    day, in_hand = bound.first("day"), bound.context.has_bake
    bare_item = all(hit.amount is None for hit in bound.hits) and bool(bound.of("item"))
    return (
        tells_prices(bound)
        or (day is not None and not is_its_day(day, bound))
        or batch_part(bound) is not None
        or put_in_part(bound)
        or (in_hand and factor_told(bound) is not None)
        or is_warmth(bound.first("pieces"), bound)
        or (in_hand and bare_item and bound.said("link:instead"))
        or (bound.said("act:undo") and not bound.said("act:as_it_was"))
    )
