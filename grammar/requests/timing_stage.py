"""The stages a line about time names, and those that are asked about by what ends them."""

from __future__ import annotations

from grammar.frames import Bound, fits
from grammar.phrases import Phrase

_ENDS = frozenset({"before", "until"})
_SAID_ENDS = frozenset({"before", "until", "till", "til"})
_HOT = frozenset({"bake", "boil"})
_IS_SO = frozenset({"done", "so"})
BY_HAND = ("look:shaped", "step:shape", "step:divide", "step:preshape")
"""What is done by hand with a dough that has risen in one piece: until it is done, the bulk goes on."""


def named(bound: Bound, kind: str) -> list[str]:
    """Every word of a kind in the line, whether it stands alone or beside a figure."""
    return [name for phrase in bound.phrases if not phrase.negated for name in phrase.ids(kind)]


def stages_of(bound: Bound) -> list[str]:
    """The stages named, in order; what stands before a bake or boil that only ends it ("how long do they sit before
    baking") is the proof, where no other is named."""
    found: list[str] = []
    ended = False
    for place, phrase in enumerate(bound.phrases):
        names = () if phrase.negated or _of_a_place(bound, place) else phrase.ids("stage")
        ends = bool(_HOT & set(names)) and place > 0 and _leads_to_an_end(bound.phrases[place - 1])
        ended = ended or ends
        found += () if ends else names
    return found or (["proof"] if ended else ["bulk"] if until_by_hand(bound) else [])


def until_by_hand(bound: Bound) -> bool:
    """Whether the dough is yet to be divided or shaped, and it is asked how long till then."""
    to_come = any(fits(one, BY_HAND) and one.meant and not _IS_SO & set(one.meant) for one in bound.phrases)
    return to_come and bound.said("ask:how_long", "ask:when", "stand:left") and not bound.said("so_far:shaped")


def keeps_cold(bound: Bound) -> bool:
    """Whether a fridge is spoken of, or a dough that lies in the cold."""
    return bound.said("cue:fridge") or "retard" in stages_of(bound)


def _of_a_place(bound: Bound, place: int) -> bool:
    """Whether "in the cold" only says what a place is like: "in the cold cellar"."""
    behind = bound.phrases[place + 1] if place + 1 < len(bound.phrases) else None
    cold = bound.phrases[place].text.lower().endswith("cold")
    return cold and behind is not None and bool({"place", "kitchen"} & set(behind.ids("cue")))


def _leads_to_an_end(phrase: Phrase) -> bool:
    asked = bool(phrase.ids("ask")) and phrase.text.lower().split()[-1] in _SAID_ENDS
    return asked or bool(_ENDS & set(phrase.ids("link")))
