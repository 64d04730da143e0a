"""Readings that were offered where a line can be taken in several ways, and which of them the next line chooses."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from assistant.talk.bench import Bench
from grammar.frames import Bound, amount_base, fits
from grammar.lexicon import Lexicon, fold
from grammar.reader import Read, Reading
from grammar.slots import Slot

OFFERED = "offered"
"""The bench's note that holds what was offered last."""
MOST = 3
_GIVEN_AS = (" pieces", " g", " %", " °C")
"""What a number that stood alone may have been meant as."""
_MISSING_WORDS = 3
"""A line of so many words may be what was missing in the line before."""


@dataclass(frozen=True, slots=True)
class Offer:
    """One reading: in words, the line it is read from, and the topic that reads it so (None: the best of that line)."""

    said: str
    line: str
    topic: str | None = None


@dataclass(frozen=True, slots=True)
class Offered:
    """What was offered for a line; at: the place in it where a word is missing, its end where none is known. wrong:
    where the figure stands for which the line was refused."""

    line: str
    at: int
    offers: tuple[Offer, ...]
    wrong: tuple[int, int] | None = None


def offered(bench: Bench) -> Offered | None:
    """What was offered last; None where nothing waits for a choice."""
    kept: Mapping[str, Any] | None = bench.notes.get(OFFERED)
    if kept is None:
        return None
    wrong = tuple(kept["wrong"]) if kept.get("wrong") else None
    return Offered(kept["line"], kept["at"], tuple(Offer(*one) for one in kept["offers"]), wrong)


def offering(bench: Bench, line: str, offers: Sequence[Offer], at: int | None = None) -> Bench:
    """The bench with these offers waiting for a choice."""
    rows = [[one.said, one.line, one.topic] for one in offers]
    return bench.with_notes(OFFERED, {"line": line, "at": len(line) if at is None else at, "offers": rows})


def refusing(bench: Bench, line: str, best: Reading) -> Bench | None:
    """The bench with a dough that was refused waiting for its one impossible figure; None where it has not just one."""
    wrong = [
        hit.amount for hit in best.bound.hits
        if hit.amount is not None and not _plausible(amount_base(hit.amount), best.frame.slots[hit.slot])
    ]
    if len(wrong) != 1 or not getattr(best.request, "whole", False):
        return None
    tokens = wrong[0].tokens
    place = [tokens[0].start, tokens[-1].end]
    return bench.with_notes(OFFERED, {"line": line, "at": len(line), "offers": [], "wrong": place})


def _plausible(value: float | None, slot: Slot) -> bool:
    if value is None:
        return True
    return (slot.low is None or value >= slot.low) and (slot.high is None or value <= slot.high)


def put_right(said: Read, waiting: Offered) -> str | None:
    """The line that was refused with the figure of this one for its impossible one; None where this says more."""
    amounts = [phrase for phrase in said.phrases if phrase.kind == "amount"]
    words = [phrase for phrase in said.phrases if phrase.kind in ("label", "junk")]
    if waiting.wrong is None or len(amounts) != 1 or not all(fits(word, _TAKES_BACK) for word in words):
        return None
    begin, end = waiting.wrong
    there = waiting.line[begin:end]
    bare = amounts[0].dim == "num"
    new = _FIGURE.sub(amounts[0].text, there, count=1) if bare else amounts[0].text
    return f"{waiting.line[:begin]}{new}{waiting.line[end:]}"


_TAKES_BACK = ("act:correct", "act:change", "mistake:meant", "mistake:by_mistake", "filler:*", "tail:*")
_FIGURE = re.compile(r"\d+(?:[.,]\d+)?")


def chosen(text: str, waiting: Offered, choices: Mapping[str, int], lexicon: Lexicon) -> Offer | None:
    """The offer a line chooses ("2", "the second one please"); None where it is no choice."""
    words = fold("".join(c if c.isalnum() else " " for c in text)).split()
    if not words or len(words) > 6:
        return None
    plain = [word for word in words if not _falls_away(word, lexicon)]
    for said in (words, plain):
        place = choices.get(" ".join(said))
        if place is not None and place <= len(waiting.offers):
            return waiting.offers[place - 1]
    return None


def _falls_away(word: str, lexicon: Lexicon) -> bool:
    terms = lexicon.phrases.get(word, ())
    return bool(terms) and all(kind in ("filler", "act") for kind, _ in terms)


def completed(text: str, waiting: Offered) -> str | None:
    """The line before with this line as the word that was missing in it; None where this is more than a word or two."""
    if waiting.wrong or len(text.split()) > _MISSING_WORDS or any(c.isdigit() for c in text):
        return None
    return f"{waiting.line[: waiting.at]} {text.strip()}{waiting.line[waiting.at :]}"


def number_left(bound: Bound, unread: Sequence[str]) -> tuple[int, Iterator[str]] | None:
    """Where a bare number that nothing took ends, and the line with the number given as each thing it may have been."""
    for phrase in bound.phrases:
        if phrase.kind == "amount" and phrase.dim == "num" and phrase.text in unread:
            end = phrase.tokens[-1].end
            return end, (f"{bound.text[:end]}{as_}{bound.text[end:]}" for as_ in _GIVEN_AS)
    return None
