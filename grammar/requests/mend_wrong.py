"""The wrong thing in the bowl: what was used, and what was meant."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.frames import Bound, fits
from grammar.mishap import Told
from grammar.mishap_words import MEANT, ids_of, never_meant
from grammar.stance import gap

_Pair = tuple[int, int]


def wrong_and_meant(bound: Bound, things: list[int]) -> _Pair | None:
    """(used, meant), the places of what went in and of what was to; twice the same for a starter otherwise fed."""
    flours = [i for i in things if _begins(bound, i, _GROUND)]
    tries = (
        _other_starter(bound, things), _used_for(bound, things), _mixed_up(bound, things, flours),
        _other_flour(bound, flours),
    )  # fmt: skip
    return next((found for found in tries if found is not None), None)


def _other_starter(bound: Bound, things: list[int]) -> _Pair | None:
    starters = [i for i in things if is_starter(bound, i)]
    stiff = bound.said("cue:stiff", "cue:liquid_starter", "ingredient:starter_stiff_50")
    told = stiff and bound.said("mistake:by_mistake") and not bound.said("mistake:forgot")
    return (starters[0], starters[0]) if starters and told else None


def _other_than(places: Sequence[int], place: int) -> int:
    """The first of these places that is another; the same where there is none."""
    return next((i for i in places if i != place), place)


def _mixed_up(bound: Bound, things: list[int], flours: list[int]) -> _Pair | None:
    """Two things that are no flours, one for the other: by what is denied, by "instead of", by what is weighed."""
    phrases = bound.phrases
    first = {_name(bound, i): i for i in reversed(things)}
    others = [i for i in things if i not in flours and first[_name(bound, i)] == i]
    exchanged = never_meant(bound, others)
    told = bound.said("mistake:by_mistake") or exchanged
    if len(others) != 2 or (flours and not exchanged) or not told or len(bound.of("mass")) > 1 + len(flours):
        return None
    turned = any("instead_of" in p.ids("link") for p in phrases[others[0] : others[1]])
    meant = next((i for i in others if phrases[i].negated), others[1] if turned else None)
    if meant is not None:
        return _other_than(others, meant), meant
    weighed = {id(hit.label) for hit in bound.of("mass") if hit.label is not None}
    went_in = {_name(bound, i): i for i in reversed(things) if id(phrases[i]) in weighed and i not in flours}
    used, meant = next(iter(went_in.values()), 0), next((i for i in others if _name(bound, i) not in went_in), None)
    return None if len(went_in) != 1 or meant is None else (used, meant)


def _other_flour(bound: Bound, flours: list[int]) -> _Pair | None:
    """One flour for another: on the two sides of "instead of", else the one that is not denied."""
    named = [i for i in flours if not fits(bound.phrases[i], ("cue:flour",))]
    if not named or not bound.said("mistake:by_mistake", "mistake:poured", "mistake:rescue"):
        return None
    instead = next((i for i, p in enumerate(bound.phrases) if fits(p, ("link:instead_of",))), len(bound.phrases))
    before, after = [i for i in named if i < instead], [i for i in named if i > instead]
    if before and after:
        return before[-1], after[0]
    if not bound.said("mistake:by_mistake"):
        return None
    negated = [i for i in named if bound.phrases[i].negated]
    used = next((i for i in named if i not in negated), named[0])
    return used, next(iter(negated), _other_than(named, used))


def _used_for(bound: Bound, things: list[int]) -> _Pair | None:
    """One thing went in and another of its kind was called for.

    What takes the place of flour, and what nobody exchanges, is told by other words.
    """
    phrases = bound.phrases
    went = [i for i, p in enumerate(phrases) if fits(p, ("mistake:poured",)) and not p.negated]
    poured = next((i for i in went if not _TO_COME.search(gap(bound, i))), len(phrases))
    words = (*MEANT, "link:instead_of", "stance:serves")
    called = next((i for i, p in enumerate(phrases) if fits(p, words) and i != poured), len(phrases))
    used = next((i for i in things if i > poured and not phrases[i].negated), None)
    meant = next((i for i in things if i > called), None)
    if used is None or meant is None or used == meant or bound.said("ask:can_i", "ask:what_if"):
        return None
    first, second = _name(bound, used), _name(bound, meant)
    kinds = {first.split("_")[0], second.split("_")[0]}
    alike = (len(kinds) == 1 or kinds <= _RISES) and first != second
    return (used, meant) if alike and not first.startswith("flour") else None


_TO_COME = re.compile(r"\b(will|i'?ll|we'?ll|would|could|can|may|might|shall|should|going to|want to|to)\s*$")
"""Small words before a verb that make it a plan rather than a deed."""
_RISES = {"yeast", "baking", "starter"}


_GROUND = ("flour", "semolina", "cornmeal")


def _name(bound: Bound, place: int) -> str:
    """The likeliest ingredient a thing is."""
    return ids_of(bound.phrases[place])[0]


def _begins(bound: Bound, place: int, ways: tuple[str, ...]) -> bool:
    return any(item.startswith(ways) for item in ids_of(bound.phrases[place]))


def is_flour(bound: Bound, wrong: _Pair) -> bool:
    return _name(bound, wrong[0]).startswith(_GROUND)


def not_an_amount(bound: Bound, told: Told, wrong: _Pair) -> bool:
    """Whether the wrong thing went in, rather than so much too much of the right flour."""
    return told.off is None or not is_flour(bound, wrong) or not bound.said("mistake:over", "mistake:under")


def is_starter(bound: Bound, place: int) -> bool:
    return _name(bound, place).startswith("starter")
