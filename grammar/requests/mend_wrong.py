"""The wrong thing in the bowl: what was used, and what was meant."""

from __future__ import annotations

import re

from grammar.frames import Bound, fits
from grammar.mishap import Told
from grammar.mishap_words import MEANT, ids_of, never_meant
from grammar.stance import gap


def wrong_and_meant(bound: Bound, things: list[int]) -> tuple[int, int] | None:
    """(used, meant): "used plain flour instead of strong", "picked up the wrong flour, plain not bread"."""
    starters = [i for i in things if ids_of(bound.phrases[i])[0].startswith("starter")]
    stiff = bound.said("cue:stiff", "cue:liquid_starter", "ingredient:starter_stiff_50")
    if starters and stiff and bound.said("mistake:by_mistake") and not bound.said("mistake:forgot"):
        return starters[0], starters[0]
    other = _used_for(bound, things)
    if other is not None:
        return other
    ground = ("flour", "semolina", "cornmeal")
    flours = [i for i in things if any(item.startswith(ground) for item in ids_of(bound.phrases[i]))]
    named_once = {ids_of(bound.phrases[i])[0]: i for i in reversed(things)}
    others = [i for i in things if i not in flours and named_once[ids_of(bound.phrases[i])[0]] == i]
    mixed_up = never_meant(bound, others)
    mishap = bound.said("mistake:by_mistake") or mixed_up
    if (not flours or mixed_up) and len(others) == 2 and mishap and len(bound.of("mass")) <= 1 + len(flours):
        negated = [i for i in others if bound.phrases[i].negated]
        turned = any("instead_of" in p.ids("link") for p in bound.phrases[others[0] : others[1]])
        if negated or turned:
            meant = negated[0] if negated else others[1]
            return next(i for i in others if i != meant), meant
        weighed = {id(hit.label) for hit in bound.of("mass") if hit.label is not None}
        went_in = [i for i in things if id(bound.phrases[i]) in weighed and i not in flours]
        if len({ids_of(bound.phrases[i])[0] for i in went_in}) == 1:  # "mixed up salt with sugar: 60 g salt"
            name = ids_of(bound.phrases[went_in[0]])[0]
            return went_in[0], next(i for i in others if ids_of(bound.phrases[i])[0] != name)
    if not flours or not bound.said("mistake:by_mistake", "mistake:poured", "mistake:rescue"):
        return None
    instead = next((i for i, p in enumerate(bound.phrases) if fits(p, ("link:instead_of",))), None)
    named = [i for i in flours if not fits(bound.phrases[i], ("cue:flour",))]
    if instead is not None and len(named) >= 2:
        after = next((i for i in named if i > instead), None)
        before = next((i for i in reversed(named) if i < instead), None)
        if before is not None and after is not None:
            return before, after
    if bound.said("mistake:by_mistake") and named:
        negated = [i for i in named if bound.phrases[i].negated]
        used = next(i for i in named if i not in negated) if len(named) > len(negated) else named[0]
        meant = negated[0] if negated else next((i for i in named if i != used), used)
        return used, meant
    return None


def _used_for(bound: Bound, things: list[int]) -> tuple[int, int] | None:
    """(used, meant) where one thing went in and another was called for: "I used 20 g fresh yeast, recipe says instant".

    Only for things of one kind; what takes the place of flour, and what nobody exchanges, is told by other words.
    """
    phrases = bound.phrases
    went = [i for i, p in enumerate(phrases) if fits(p, ("mistake:poured",)) and not p.negated]
    poured = next((i for i in went if not _TO_COME.search(gap(bound, i))), None)
    if poured is None or len(things) < 2 or bound.said("ask:can_i", "ask:what_if"):
        return None
    used = next((i for i in things if i > poured and not phrases[i].negated), None)
    words = (*MEANT, "link:instead_of", "stance:serves")
    called = next((i for i, p in enumerate(phrases) if fits(p, words) and i != poured), None)
    meant = None if called is None else next((i for i in things if i > called), None)
    if used is None or meant is None or used == meant:
        return None
    first, second = ids_of(phrases[used])[0], ids_of(phrases[meant])[0]
    alike = first.split("_")[0] == second.split("_")[0] or {first.split("_")[0], second.split("_")[0]} <= _RISES
    return (used, meant) if alike and first != second and not first.startswith("flour") else None


_TO_COME = re.compile(r"\b(will|i'?ll|we'?ll|would|could|can|may|might|shall|should|going to|want to|to)\s*$")
"""Small words before a verb that make it a plan rather than a deed."""
_RISES = {"yeast", "baking", "starter"}


def is_flour(bound: Bound, wrong: tuple[int, int]) -> bool:
    return ids_of(bound.phrases[wrong[0]])[0].startswith(("flour", "semolina", "cornmeal"))


def not_an_amount(bound: Bound, told: Told, wrong: tuple[int, int]) -> bool:
    """Whether the wrong thing went in, rather than so much too much of the right flour."""
    return told.off is None or not is_flour(bound, wrong) or not bound.said("mistake:over", "mistake:under")


def is_starter(bound: Bound, place: int) -> bool:
    return ids_of(bound.phrases[place])[0].startswith("starter")
