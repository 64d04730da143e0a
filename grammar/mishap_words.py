"""The words a mistake is told in: what was left out, put in so many times, or never meant to be exchanged."""

from __future__ import annotations

import re
from itertools import pairwise

from grammar.frames import Bound, Hit, fits
from grammar.phrases import Phrase
from grammar.stance import GENERAL, gap

THING = ("ingredient:*", *GENERAL)
STOPS = ",.;:!("
MEANT = ("mistake:meant", "stance:called_for", "stance:should", "cue:recipe_given")
"""Words that say of an amount that it is what should have been."""


def ids_of(phrase: Phrase) -> tuple[str, ...]:
    """The ingredients a word may mean."""
    named = phrase.ids("ingredient")
    return (*named, *(name for cue, name in GENERAL.items() if fits(phrase, (cue,)) and name not in named))


def of_flour(bound: Bound, hit: Hit) -> bool:
    """Whether an amount taken for that of the dough is of the flour behind it: "the dough was 500 g flour"."""
    place = next((i for i, p in enumerate(bound.phrases) if p is hit.amount), len(bound.phrases))
    after = bound.phrases[place + 1 : place + 2]
    return hit.slot == "dough_g" and bool(after) and fits(after[0], ("cue:flour", "ingredient:flour*"))


def left_out(bound: Bound) -> bool:
    """Whether something is said not to have gone in: "forgot the salt", "the yeast I did not put"."""
    pairs = pairwise(bound.phrases)
    none_in = any(one.negated and fits(one, THING) and fits(verb, ("mistake:poured",)) for one, verb in pairs)
    return none_in or bound.said("mistake:forgot") or any(
        p.negated and fits(p, ("mistake:poured",)) and not p.ids("ingredient") for p in bound.phrases
    )


def factor_told(bound: Bound) -> float | None:
    """ "i put twice the starter in": how many times a thing went in; None where that is wished, or told of no thing."""
    factors = {"double": 2.0, "triple": 3.0}
    for place, phrase in enumerate(bound.phrases[:-1]):
        named_so = (*phrase.ids("act"), *phrase.ids("cue"))
        factor = next((factors[one] for one in named_so if one in factors), None)
        behind = bound.phrases[place + 1]
        told = "done" in phrase.meant or bound.said("mistake:by_mistake") or _poured_it(bound)
        named = behind.kind == "label" and fits(behind, THING)
        if factor is not None and named and told and not bound.said("ask:what_if"):
            return factor
    return None


_SOMEBODY = re.compile(r"\b(i|we|he|she|they)\b")


def _poured_it(bound: Bound) -> bool:
    """Whether something is said to have gone in; "put double the salt" alone bids it."""
    first = next((i for i, p in enumerate(bound.phrases) if fits(p, ("mistake:poured",)) and not p.negated), None)
    if first is None or first > 0 or bound.phrases[0].text.lower() != "put":
        return first is not None
    return _SOMEBODY.search(gap(bound, 0)) is not None


def things_in(bound: Bound) -> list[int]:
    """Places of the words that name an ingredient."""
    return [i for i, p in enumerate(bound.phrases) if p.kind == "label" and fits(p, THING)]


_NEVER_EXCHANGED = frozenset({"salt", "sugar", "baking", "yeast"})
"""White powders, by the beginning of their ids; a baking powder for yeast is an exchange all the same."""


def never_meant(bound: Bound, things: list[int]) -> bool:
    """Salt, sugar, soda or yeast one for the other, told and not asked: nobody exchanges them on purpose."""
    kinds = {item.split("_")[0] for i in things for item in ids_of(bound.phrases[i])[:1]}
    mixed_up = len(kinds) == 2 and kinds <= _NEVER_EXCHANGED and kinds != {"yeast", "baking"}
    return mixed_up and not bound.asks() and not bound.said("ask:can_i", "ask:what_if", "act:swap")
