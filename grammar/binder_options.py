"""What an amount may be to a frame: each slot that may take it, with each word near it or none, and how gladly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grammar.frames import Frame, amount_base
from grammar.levels import AGAINST, FOR_ITS_ROLE, LESS_AS_SHARE, OWNED_ELSEWHERE, UNCLAIMED_AMOUNT
from grammar.neighbours import COUNTED, Laid, is_rated
from grammar.phrases import Phrase
from grammar.plausible import named_before, range_score

_MOST = 14
"""Ways to take an amount that are weighed."""
_MEASURES = frozenset({"pct", "mass", "temperature", "time", "share", "length", "volume", "moment"})
_ASKED_OF = frozenset({"ask:what", "ask:how_much", "into:g", "ask:what_if"})
"""Words before a "one" that stands for a piece and counts nothing."""


@dataclass(frozen=True, slots=True)
class Option:
    """One way to take an amount. slot: None where it is left over; label: the place of the word it takes along; side:
    -1 where that stands before it, 1 behind it."""

    slot: str | None
    label: int | None
    side: int
    score: float


def options_for(frame: Frame, laid: Laid, n: int, groups: Mapping[str, str], follows_up: bool) -> list[Option]:
    """The likeliest ways to take the n-th amount, best first, one of them to leave it over."""
    phrases, place, around = laid.phrases, laid.amounts[n], laid.at(n)
    words, linked, counted, means = around.words, around.links, around.counted, laid.means
    amount = phrases[place]
    dim = amount.dim
    options = [Option(None, None, 0, UNCLAIMED_AMOUNT)]
    for_many = dim == "num" and "for" in linked
    broken = amount.quantity is not None and not amount.quantity.fraction and amount.quantity.value % 1 > 0
    # "one oven", "that one": no warmth and no share; "one part rye" is a quarter by then
    pronoun = amount.text.lower() == "one" and dim == "num"
    alone = len(laid.amounts) == 1  # the dough in hand says what it is of
    last = place + 1 == len(phrases) or phrases[place + 1].kind == "sep"
    rival = last and any(phrases[at].dim == "num" for at in laid.amounts if at != place)
    asked = place > 0 and bool(laid.means[place - 1] & _ASKED_OF)
    if pronoun and not alone and not counted and (rival or asked):
        return [Option(None, None, 0, 0.0)]  # "that makes 5, what does one weigh", "40, the leaders fancy one too"
    loose = dim == "num" and not counted and follows_up
    near_noun = named_before(frame, phrases, place, groups) if loose else frozenset()
    for name, slot in frame.slots.items():
        likes = slot.dims.get(dim)
        if likes is None and dim == "share" and "temperature" not in slot.dims:
            likes = slot.dims.get("num")
            likes = None if likes is None else likes - LESS_AS_SHARE
        if likes is None or (slot.where and laid.known.isdisjoint(slot.where)):
            continue
        if pronoun and {"temperature", "pct"} & slot.dims.keys():
            continue
        if slot.whole and broken and not alone and not is_rated(phrases, place):
            continue
        base = likes + slot.weight + sum(slot.links.get(link, 0.0) for link in linked)
        base += sum(level for aspect, level in slot.meant.items() if aspect in amount.meant)
        if slot.role and amount.role:
            base += FOR_ITS_ROLE if slot.role == amount.role else -FOR_ITS_ROLE
        elif amount.role:
            base += AGAINST
        part = dim == "share" and "share" not in slot.dims  # "a quarter" counts nothing without a noun beside it
        least = slot.bare_low is not None and (amount_base(amount) or 0.0) < slot.bare_low
        if slot.bare is not None and not part and not least and not (counted and slot.role != "count"):
            fit = range_score(slot, amount, None, groups, slot.bare_high)
            if slot.strict and fit < 0:
                continue
            owned = OWNED_ELSEWHERE if near_noun and name not in near_noun else 0.0
            options.append(Option(name, None, 0, base + slot.bare + owned + (fit if fit >= 0 else fit * 2)))
        for i, side, reach in (*words, *around.beyond) if slot.across else words:
            if means[i].isdisjoint(slot.cues) or (side > 0 and _owns_ahead(phrases[i])):
                continue
            if slot.role == "each" and dim == "num" and side > 0 and not means[i].isdisjoint(COUNTED):
                continue  # "24 rolls" are so many of them, never of so much each
            if counted and _MEASURES & slot.dims.keys() and means[place + 1].isdisjoint(slot.cues):
                continue  # "enough starter for 24 rolls" is no share of starter, "scale it to 24 rolls" no multiple
            if for_many and i != place + 1 and {"pct", "mass"} & slot.dims.keys():
                continue  # "24 rolls for 10, starter by 6": heads or an hour, neither grams nor per cent
            if means[i].isdisjoint(slot.never):
                fit = range_score(slot, amount, phrases[i], groups)
                if not (slot.strict and fit < 0):
                    options.append(Option(name, i, side, base + reach + fit))
    options.sort(key=lambda o: -o.score)
    kept = options[:_MOST]
    if options[-1] not in kept and all(o.slot is not None for o in kept):
        kept.append(Option(None, None, 0, UNCLAIMED_AMOUNT))
    return kept


_TAKE = frozenset({"takes", "take", "took", "holds", "hold", "fits", "fit", "does", "manages"})
"""Verbs of what holds so many: the number comes behind them."""


def _owns_ahead(label: Phrase) -> bool:
    """Whether a word can only own what follows it: "make it 40, the oven only takes 15"."""
    return bool(label.ids("holds")) and label.text.lower().split()[-1] in _TAKE
