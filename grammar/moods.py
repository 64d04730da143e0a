"""Only a change changes a dough: what is told, asked after or half read leaves it as it is.

A line that is a dough of its own may say it in any mood. A line that would change the dough in hand by a number whose
noun was not said is a change only where it is wished or bidden: "dough was 23 after mixing" tells, "the fridge takes
20" speaks of something else; what should be done is asked before it is done.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from grammar.aspects import aspects_said
from grammar.clause_begins import turned, words_of
from grammar.frames import Bound, Hit, fits
from grammar.lexicon import Lexicon, fold
from grammar.phrases import Phrase
from grammar.telling_clause import ASKED, HEARSAY, PAST, telling_clauses

_TOLD = frozenset({"so", "done", "told_fault", "habit"})
_BIDDEN = ("act:change", "act:correct", "act:as_it_was", "act:same", "act:use", "act:add", "act:scale", "act:leave_out",
            "ask:what_if")
_HOW_IT_IS = ("feel:*", "cue:stiff", "cue:liquid_starter")
"""Words for how wet a dough is."""
_MISHAPS = ("mistake:by_mistake", "mistake:exchanged", "mistake:rescue", "mistake:forgot", "mistake:spilt",
            "mistake:still_to_add")
"""Words that tell a slip of the hand: with no figure beside, nothing is put in by them."""
_EATERS = frozenset({"portions", "heads"})
"""How many eat is told and wished at once: "now 12 people"."""
_WISHED = frozenset({"wished", "aimed", "meant"})


def leaves_it_be(request: Any, bound: Bound, unread: Sequence[str]) -> bool:
    """Whether a change to the dough in hand is none after all: it was told, only asked after, or half of it is unread.

    request: with `whole` where it may be a dough of its own; anything else changes no dough.
    """
    if not bound.context.has_bake or getattr(request, "whole", True):
        return False
    figures = [hit for hit in bound.hits if hit.amount is not None]
    only_asked = bool(getattr(request, "asked", ()) or getattr(request, "pieces_asked", False))
    as_it_is = only_asked and not figures  # "how much flour do I need": what is asked of the dough as it is
    weighed = {hit.slot for hit in figures} == {"piece_g"}
    in_a_unit = weighed and bound.said("ask:*") and bound.said("into:*", "unit:*")
    if in_a_unit or (bound.said("ask:should_i") and not as_it_is) or (not figures and bound.said(*_MISHAPS)):
        return True
    if not figures and _only_pointed_at(bound):
        return True
    if not figures and not only_asked and not bound.said(*_BIDDEN) and (
        _only_spoken_of(bound) or _nothing_bidden(bound)
    ):
        return True
    supposed = "if" in bound.links() and not bound.said("stance:was")
    if not figures or supposed:
        return bool(figures) and all(_bare(hit) and _of_how_it_is(hit, bound) for hit in figures)
    if any(_in_place_of_one(hit.amount, bound) for hit in figures):
        return False
    moods = {_mood_of(hit.amount, bound) for hit in figures}
    if moods <= {HEARSAY, ASKED}:
        return True
    if bound.said(*_BIDDEN) or any(_WISHED & set(hit.meant) for hit in figures):
        return False
    in_the_house = [hit for hit in figures if hit.slot in _WEIGHED and {"at_hand", "lacking"} & set(hit.meant)]
    if any(hit.label is None for hit in in_the_house) and "instead" not in bound.links():
        return True  # what is left in the house is the size of no piece and of no dough
    faulty = any("told_fault" in one.meant and fits(one, _HOW_IT_IS) for one in bound.phrases)
    if faulty and all(_bare(hit) and not hit.amount.ids("turn") for hit in figures if hit.amount):
        return True  # "70 is too wet" finds fault with what there is
    if None not in moods and all(_of_size(hit) for hit in figures):
        counts = all(hit.label is None and hit.amount is not None and hit.amount.dim == "num" for hit in figures)
        if unread or counts or PAST in moods or any(hit.slot.startswith("tin") for hit in figures):
            return True
    bare = [hit for hit in figures if _bare(hit) and not (bound.said("span:now") and hit.slot in _EATERS)]
    if unread and any(hit.label is None for hit in bare):
        return True
    if any(_something_done(hit, bound, unread) for hit in figures):
        return True
    told = figures if unread else bare
    return bool(told) and all(_TOLD & set(hit.meant[:1]) for hit in told)


def _of_how_it_is(hit: Hit, bound: Bound) -> bool:
    """Whether a bare figure says how "it" would be, and not how many: "what if I get the heater on and it's 21"."""
    if hit.amount is None or bound.next_to(hit.amount).kind in ("label", "junk"):
        return False  # "if it's 5 pieces"
    before = words_of(bound.text[: hit.amount.tokens[0].start])
    return before[-1:] == ["its"] or before[-2:] == ["it", "is"]


def _in_place_of_one(amount: Phrase | None, bound: Bound) -> bool:
    """Whether an amount is said to be meant and not one of those the dough in hand was told in: "it's 24, not 20"."""
    old = amount.old if amount is not None and not bound.asks() else None
    return old is not None and any(abs(old.base - now) <= _SAME * max(now, 1.0) for now in bound.context.known.figures)


_WEIGHED = ("piece_g", "dough_g")
_SAME = 0.006
"""Two figures this near to each other, as parts of one, are said to be the same."""


def _nothing_bidden(bound: Bound) -> bool:
    """Whether what would be changed without a figure is only asked after, or stands where a line only tells."""
    if any(_WISHED & set(hit.meant) or hit.amount is not None for hit in bound.hits):
        return False
    if (bound.asks() or turned(bound.text, bound.lexicon)) and not bound.said("ask:*"):
        return True
    return bool(bound.hits) and all(_mood_of(hit.label, bound) is not None for hit in bound.hits)


def _mood_of(phrase: Phrase | None, bound: Bound) -> str | None:
    """The mood of the clause a phrase stands in; None where that is no telling."""
    at = phrase.tokens[0].start if phrase is not None else 0
    return next((one.mood for one in telling_clauses(bound.text, bound.lexicon) if one.start <= at < one.end), None)


def bids_rows(request: Any, bound: Bound) -> bool:
    """Whether a line bids other figures for rows of the dough in hand, each by its name: "use 25 % starter instead"."""
    first = next((one for one in bound.phrases if one.kind != "sep" and not fits(one, _OPENS)), None)
    figures = [hit for hit in bound.hits if hit.amount is not None]
    bare = first is None or not figures or not bound.context.has_bake or getattr(request, "whole", True)
    if first is None or bare or bound.asks() or bound.said("ask:*"):
        return False
    if getattr(request, "stays", None) == "dough" and "done" not in first.meant:
        return fits(first, ("cue:split", "cue:same_dough"))  # "divide it over 4 tins"
    if bound.said("cue:limit", "cue:only_this") and bound.said("cue:fewer", "cue:greater"):
        return all(hit.slot == "pieces" for hit in figures)  # "only 20 wanted, so cut it back"
    return fits(first, _BIDS) and names_rows(request, bound)


def names_rows(request: Any, bound: Bound) -> bool:
    """Whether a line about the dough in hand says figures, each of a row by its name."""
    figures = [hit for hit in bound.hits if hit.amount is not None]
    named = all(hit.label is not None and fits(hit.label, _ROWS) for hit in figures)
    return bool(figures) and named and bound.context.has_bake and not getattr(request, "whole", True)


_OPENS = ("act:correct", "link:*", "filler:*")
_BIDS = (*_BIDDEN[:-1], "act:make", "cue:raised", "cue:lowered", "cue:fewer", "cue:greater")
_ROWS = ("ingredient:*", "preferment:*", "cue:salt", "cue:starter", "cue:water", "cue:hydration")


def without_asides(bound: Bound) -> Bound:
    """The line about a dough in hand without its clauses that hold no figure, nor what one is of, and only tell or ask
    how something is, where another clause says a figure: "wholemeal drinks more, doesn't it. water up to 70"."""
    asides = telling_clauses(bound.text, bound.lexicon) if bound.context.has_bake else ()
    amounts = [phrase.tokens[0].start for phrase in bound.phrases if phrase.kind == "amount"]
    named = [hit for hit in bound.hits if hit.amount is not None and hit.label is not None]
    needed = (*amounts, *(hit.label.tokens[0].start for hit in named if hit.label is not None))
    asides = tuple(one for one in asides if not any(one.start <= at < one.end for at in needed))
    if not asides or not named or len(named) < len(amounts) or bound.said(*_HOW_IT_IS):
        return bound  # a figure alone is of what was told: "the starter is stiff, 60 %"
    aside = {id(p) for p in bound.phrases if any(one.start <= p.tokens[0].start < one.end for one in asides)}
    hits = tuple(hit for hit in bound.hits if hit.amount is not None or id(hit.label) not in aside)
    return replace(bound, phrases=tuple(p for p in bound.phrases if id(p) not in aside), hits=hits)


def _only_spoken_of(bound: Bound) -> bool:
    """Whether a line only names bread or pieces and says how those are: "the rolls are in the fridge"."""
    names = [phrase for phrase in bound.phrases if fits(phrase, ("piece:*", "bread:*"))]
    rows = any(fits(phrase, ("ingredient:*", "preferment:*", "cue:*", "diet:*")) for phrase in bound.phrases)
    return bool(names) and not rows and all({"so", "done"} & set(phrase.meant) for phrase in names)


def _only_pointed_at(bound: Bound) -> bool:
    """Whether a line points at bread or pieces to see them again: "back to the rings", "what's in the buns"."""
    labels = [phrase for phrase in bound.phrases if phrase.kind == "label"]
    shown = bound.said("act:back", "act:show", "ask:what") or fold(bound.text).rstrip(" .!").endswith(" again")
    counted = bound.said("ask:how_many", "ask:how_much")
    bread = bound.said("piece:*", "bread:*")
    return bool(shown and bread) and not counted and all(fits(one, _POINTS) for one in labels)


_POINTS = ("piece:*", "bread:*", "act:*", "ask:*", "tail:*")


def supposed(text: str, lexicon: Lexicon) -> bool:
    """Whether a line only supposes something ("if I keep it at 26"): it goes on asking, and sets nothing."""
    return any(one.aspect == "supposed" for one in aspects_said(text, lexicon))


def only_wished(bound: Bound) -> bool:
    """Whether a line wishes for something and asks nothing: "i want to bake 3 loaves" is no question after an hour."""
    if bound.asks() or bound.said("ask:*"):
        return False
    meant = [set(phrase.meant) for phrase in bound.phrases if phrase.meant]
    wished = any({"wished", "habit"} & one for one in meant)
    return wished and not any({"asked", "aimed", "so", "done"} & one for one in meant)


def _something_done(hit: Hit, bound: Bound, unread: Sequence[str]) -> bool:
    """Whether a word that was not read says what was done with so many ("lost 12 of them"), or who gets them."""
    if hit.slot != "pieces" or hit.label is None or hit.label.ids("piece") != ("piece",):
        return False
    at = next((n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    behind = bound.text[hit.label.tokens[-1].end :].lower().split()[:1]
    shared = hit.label.text.lower().startswith("of ") and behind in (["for"], ["to"], ["go"])
    return shared or (at > 0 and bound.phrases[at - 1].text in unread)


def _of_size(hit: Hit) -> bool:
    """Whether an amount would make the dough larger or smaller, so that it may as well be of anything else told of."""
    return hit.slot.partition("_")[0] in ("pieces", "piece", "dough", "tin", "tins")


def _bare(hit: Hit) -> bool:
    """Whether an amount is a number with neither a unit nor pieces beside it."""
    if hit.amount is None or hit.amount.dim not in ("num", "share") or hit.amount.role is not None:
        return False
    return hit.label is None or not fits(hit.label, ("piece:*", "bread:*"))
