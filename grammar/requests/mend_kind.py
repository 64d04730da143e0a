"""Which kind of mishap a line tells."""

from __future__ import annotations

from grammar.frames import Bound, fits
from grammar.mishap import Told
from grammar.mishap_words import factor_told, ids_of, left_out
from grammar.requests.mend_double import put_in_twice


def kind_of_mistake(bound: Bound, told: Told, step: str | None) -> str | None:
    """Which kind of mishap the line tells; None where it tells none."""
    if bound.first("water_c") is not None and (
        bound.said("mistake:hot_water", "mistake:water_was", "mistake:by_mistake", "mistake:rescue") or _water(bound)
    ):
        return "hot_water"
    weighed = told.off is not None and bound.said("mistake:over", "mistake:under", "mistake:meant")
    if bound.said("mistake:hot_water") and not (bound.said("mistake:forgot") or weighed):
        return "hot_water"
    if bound.said("kettle:*") and bound.said(
        "mistake:dissolved", "mistake:by_mistake", "mistake:rescue", "mistake:poured"
    ):
        return "hot_water"
    if bound.said("mistake:ounces") or _in_ounces(bound):
        return "ounces"
    if told.meant is not None and told.poured is not None and told.item is not None:
        return "over" if told.poured >= told.meant else "under"
    if told.item is not None and (
        (told.meant_pct is not None and told.poured is not None) or told.poured_pct is not None
    ):
        return "over"
    if bound.said("mistake:too_few") and told.item is None and (bound.first("pieces") or told.off is not None):
        return "short"
    if bound.said("mistake:short_pieces") and (bound.first("made") or bound.said("piece:*", "cue:pieces", "cue:dough")):
        return "short"
    if put_in_twice(bound):
        return "twice"
    if left_out(bound):
        return "step" if step is not None and told.item is None else "forgot"
    if factor_told(bound) is not None:
        return "twice"
    if bound.said("mistake:twice", "mistake:thrice"):
        named = told.item is not None or any(p.ids("implies") or p.ids("put_in") for p in bound.phrases)
        return "twice" if named else None
    if told.meant is not None and told.poured is not None:
        return "over" if told.poured >= told.meant else "under"
    if bound.said("mistake:over"):
        return "over"
    part = told.share is not None and (bound.said("mistake:poured") or (told.item is not None and _only(bound)))
    if bound.said("mistake:under", "mistake:only_in") or part:
        return "under"
    if bound.said("feel:wet"):
        return "wet"
    if bound.said("feel:dry"):
        return "dry"
    slip = bound.said("mistake:by_mistake", "mistake:rescue", "mistake:misread")
    if told.off is not None and slip and told.item is not None:
        return "over"
    whole = told.item is not None and ids_of(bound.phrases[told.item])[:1] == ("hydration",)
    asked = slip or (whole and bound.context.has_bake)
    if told.poured is not None and asked and told.item is not None:
        return "over"
    if told.poured is not None and told.item is not None and "instead_of" in bound.links() and bound.context.has_bake:
        return "over"  # "1000 g water went in instead": of what the dough in hand has
    if told.more and bound.said("mistake:poured") and not bound.text.rstrip().endswith("?"):
        return "over"  # "i put about 100 g extra water in"
    return None


def bids(bound: Bound) -> bool:
    """Whether a line bids something into the dough in hand, and tells no mishap: "put in 10 % rye"."""
    first = next((p for p in bound.phrases if p.kind != "sep" and not fits(p, ("act:correct", "link:*"))), None)
    if first is None or not bound.context.has_bake or bound.asks() or not fits(first, ("act:add", "act:use")):
        return False
    told = {i for p in bound.phrases for i in p.ids("mistake")} - {"poured"}
    return not told and not bound.said("link:instead_of", "feel:*", "stance:called_for", "stance:should")


_LISTED = 3
"""So many things, each with its one weight, are a dough that is told."""


def lists_a_dough(bound: Bound) -> bool:
    """Whether a line only lists what is in the bowl, with nothing wrong in it: "I used 900 g flour, 600 water, ..."."""
    weighed = [hit.label.ids("ingredient")[:1] for hit in bound.of("mass") if hit.label is not None and hit.amount]
    told = {i for p in bound.phrases for i in p.ids("mistake")} - {"poured"}
    apart = len(set(weighed)) == len(weighed) >= _LISTED and not bound.said("link:instead_of", "feel:*", "cue:limit")
    return apart and not told and bound.said("ask:what", "ask:how_much") and not bound.said("ask:can_i", "ask:how_to")


def _in_ounces(bound: Bound) -> bool:
    """Whether a thing is said to have been weighed in ounces, and no amount of it."""
    oz = any(unit.id == "oz" for p in bound.phrases for token in p.tokens for unit in token.units)
    weighed = bound.said("mistake:poured") and (oz or bound.said("into:oz"))
    return weighed and not any(p.kind == "amount" for p in bound.phrases)


def _only(bound: Bound) -> bool:
    """Whether "only" is said: "only half of the salt is in"."""
    return any(fits(p, ("cue:limit",)) and p.text.lower() in ("only", "just") for p in bound.phrases)


def _water(bound: Bound) -> bool:
    return bound.said("ingredient:water", "cue:water") and bound.said(
        "mistake:poured", "mistake:rescue", "ingredient:yeast*"
    )
