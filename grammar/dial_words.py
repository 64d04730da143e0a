"""An hour and its minutes in words: "seven ten", "nine oh five", "one forty five"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar import number_words
from grammar.day_words import DAY_STARTS
from grammar.dial_places import LED, closes_at, led, measures, word_at
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.tokens import Token

_NEAR = 3
"""So many words may stand between what was done and its hour: "fed her again seven ten"."""
_DIALS = frozenset({"oven", "dial", "knob", "thermostat", "thermometer", "preheat", "bake", "baked"})
"""Words beside which "two thirty" is how hot it is."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """Minutes since midnight or noon as they were said, and the lexemes they take."""

    minute: int
    used: int


def minutes_in_words(lx: Sequence[Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon) -> Spoken | None:
    """The hour with minutes that begins at lexeme i; None where the words are a number, or nothing asks for an hour."""
    hour = number_words.ONES.get(word_at(lx, i), 0)
    if not 1 <= hour <= 12:
        return None
    minutes, used = _minutes(lx, i + 1)
    if not used or measures(lx, i + 1 + used, lexicon):
        return None
    dated = word_at(lx, i + 1 + used) in DAY_STARTS or word_at(lx, i + 1 + used) in ("am", "pm", "this")
    done = any(token.ids("mark") or token.ids("step") for token in before[-_NEAR:])
    if not done and any(part in _DIALS for token in before[-_NEAR:] for part in token.text.lower().split()):
        return None
    asked = led(before, LED | {"since"}) or (bool(before) and "begun" in before[-1].ids("look"))
    if not (asked or dated or (done and not _counts(before) and closes_at(lx, i + 1 + used))):
        return None
    return Spoken(hour * 60 + minutes, 1 + used)


def _minutes(lx: Sequence[Lexeme], i: int) -> tuple[int, int]:
    """Minutes from five to fifty nine and the lexemes they take; none where other words stand there."""
    at = i + 1 if word_at(lx, i) == "-" else i
    first = word_at(lx, at)
    if first in ("oh", "o") and 1 <= number_words.ONES.get(word_at(lx, at + 1), 0) <= 9:
        return number_words.ONES[word_at(lx, at + 1)], at + 2 - i
    if 10 <= number_words.ONES.get(first, 0) <= 19:
        return number_words.ONES[first], at + 1 - i
    tens = number_words.TENS.get(first, 60)
    if tens >= 60:
        return 0, 0
    more = at + 2 if word_at(lx, at + 1) == "-" else at + 1
    ones = number_words.ONES.get(word_at(lx, more), 0)
    return (tens + ones, more + 1 - i) if 1 <= ones <= 9 else (tens, at + 1 - i)


def _counts(before: Sequence[Token]) -> bool:
    """Whether a small word stands before that a number of things may follow."""
    return bool(before) and before[-1].kind == "LINK"
