"""A report cut into amounts and turns of speech, clause by clause, and what is made of them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from grammar.frames import Line
from grammar.lexicon import Lexicon, Term, fold
from grammar.moments import Moment
from grammar.telling.told import Cut, Item, Made

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|[,;.:!&+?()]", re.UNICODE)
_BREAKS = frozenset(",;.!?()")
_LONGEST = 6


def items_of(line: Line) -> list[Item]:
    amounts = [p for p in line.phrases if p.kind == "amount"]
    spans = [(p.tokens[0].start, p.tokens[-1].end, p) for p in amounts]
    items: list[Item] = []
    clause, at = 0, 0
    for start, end, phrase in [*spans, (len(line.text), len(line.text), None)]:
        clause = _words(line, line.text[at:start], clause, items)
        if phrase is not None:
            items.append(Item(clause, phrase.text, amount=phrase))
        at = end
    _of_the_bench(items, {name for names in line.context.known.doughs for name in names})
    return half_past(items)


def _of_the_bench(items: list[Item], names: set[str]) -> None:
    """ "the rye", "the rye loaves": a flour that names a dough on the bench is a thing told of, no ingredient."""
    for place, item in enumerate(items):
        behind = items[place + 1 : place + 2]
        named = fold(item.text) in names or bool(behind and behind[0].thing and f"{item.text} " in " ".join(names))
        if item.food and named:
            item.food, item.thing = False, True


def half_past(items: list[Item]) -> list[Item]:
    """ "half nine": half an hour after it, where a share and an hour of the dial stand side by side."""
    out: list[Item] = []
    for item in items:
        last = out[-1].amount if out else None
        here = item.amount
        if (
            last is not None and here is not None and last.dim == "share" and last.text.lower() == "half"
            and last.quantity is not None and here.dim == "num" and here.quantity is not None
            and here.quantity.value in range(1, 13)
        ):  # fmt: skip
            moment = Moment(minute=int(here.quantity.value) * 60 + 30)
            both = replace(here, quantity=None, moment=moment, tokens=(*last.tokens, *here.tokens))
            out[-1] = Item(item.clause, both.text, amount=both)
        else:
            out.append(item)
    return out


def _words(line: Line, text: str, clause: int, items: list[Item]) -> int:
    """The words of a stretch without amounts, turns of speech as one; the clause the stretch ends in."""
    found, breaks = _turns(text, bool(items), line.lexicon)
    items.extend(
        Item(clause + one.clause, one.text, one.terms, thing=one.thing, food=one.food, room=one.room)
        for one in found
    )
    return clause + breaks


@dataclass(frozen=True, slots=True)
class _Turn:
    """A word or turn of speech of a stretch, its clause counted from the stretch's first."""

    clause: int
    text: str
    terms: tuple[Term, ...]
    thing: bool
    food: bool
    room: bool


@lru_cache(maxsize=256)
def _turns(text: str, goes_on: bool, lexicon: Lexicon) -> tuple[tuple[_Turn, ...], int]:
    """The words of a stretch, and how many clauses end in it; several readers ask the same of one line.

    goes_on: whether something stands before the stretch.
    """
    words = [(m.group(), fold(m.group())) for m in _WORD.finditer(text)]
    at = clause = 0
    out: list[_Turn] = []
    table = lexicon.tellings
    while at < len(words):
        typed, word = words[at]
        if typed in _BREAKS:
            clause += 1
            at += 1
            continue
        if not word:
            at += 1
            continue
        behind = {two for _, two in words[at + 1 : at + 2]}
        anew = word == "then" or (word == "and" and not lexicon.small("begins_anew").isdisjoint(behind))
        if (out or goes_on) and anew:
            clause += 1
        count = 1
        terms: tuple[Term, ...] = ()
        for length in range(min(_LONGEST, len(words) - at), 0, -1):
            stretch = words[at : at + length]
            if any(one in _BREAKS for one, _ in stretch):
                continue
            said = " ".join(two for _, two in stretch)
            found = table.get(_without_is(stretch)) or table.get(said)
            known = lexicon.phrases.get(said, ()) if found is None and length > 1 else ()
            if _KITCHEN in known:
                found = ()  # a place by a name of its own
            elif length >= _CHATTY and _harmless(known):
                found = _CHATTER
            if found is not None:
                count, terms = length, found
                break
        text = " ".join(one for one, _ in words[at : at + count])
        out.append(_Turn(clause, text, terms, *_named(fold(text), terms, lexicon)))
        at += count
    return tuple(out), clause


def _named(word: str, terms: tuple[Term, ...], lexicon: Lexicon) -> tuple[bool, bool, bool]:
    """Whether a word names what is baked, an ingredient, a place where dough may stand."""
    if terms:
        return False, False, any(one in (("gauge", "room_c"), ("spot", "spot")) for one in terms)
    known = lexicon.phrases.get(word, ())
    kinds = {kind for kind, _ in known}
    room = _KITCHEN in known or any(kind == "place" for kind, _ in lexicon.asides.get(word, ()))
    return bool(kinds & {"piece", "bread"}), "ingredient" in kinds, room


_KITCHEN: Term = ("cue", "kitchen")
"""What any place is said like in which dough stands."""
_CHATTY = 3
"""Words of a turn of speech that is chatter as a whole, whatever its words would tell by themselves."""
_CHATTER: tuple[Term, ...] = (("small", "chatter"),)


def _harmless(terms: tuple[Term, ...]) -> bool:
    return bool(terms) and all(kind == "filler" for kind, _ in terms)


def _without_is(stretch: Sequence[tuple[str, str]]) -> str:
    """ "dough's", "oven's on": the word without the verb that hangs on it."""
    return " ".join(two[:-1] if one.lower().endswith(("'s", "’s")) else two for one, two in stretch)


def step_near(cut: Cut, place: int) -> str | None:
    """The deed a figure stands with, of its clause, else the one said before it: its step, or "in" or "out" of where
    it was."""
    clause = cut.items[place].clause
    marks = [one for one in cut.made if one.told.what in ("mark", "in", "out")]
    here = [one for one in marks if one.clause == clause]
    if here:
        return _deed(min(here, key=lambda one: abs(one.place - place)))
    before = [one for one in marks if one.place < place]
    return _deed(before[-1]) if before else None


def _deed(made: Made) -> str | None:
    return made.told.step or (made.told.what if made.told.what != "mark" else None)


def word_before(cut: Cut, place: int) -> str:
    for item in reversed(cut.items[:place]):
        if item.amount is not None or item.clause != cut.items[place].clause:
            return ""
        word = fold(item.text)
        if word not in ("a", "the", "bang", "exactly", "just", "roughly"):
            return word
    return ""
