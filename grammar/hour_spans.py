"""Stretches of bare hours: "11 to 7", "22:30 to 6", "9 to 5 at work", "out 9-10 and 2-3", and lists of them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.tokens import Token

TIMES = frozenset({"CLOCK", "DAY", "PART"})
_RANGE = frozenset({"to", "until", "and"})
DOTTED = re.compile(r"\d{1,2}\.[0-5]\d")
_ASIDE = 4
"""Words that may stand between two stretches of a list and say what each is for."""


def may_be_hour(token: Token) -> bool:
    """Whether a bare number can be an hour at all."""
    quantity = token.quantity
    if token.kind != "NUM" or quantity is None or quantity.fraction or quantity.dim != "num":
        return False
    whole = quantity.value == int(quantity.value) or DOTTED.fullmatch(token.text)
    return 0 <= quantity.value <= 24 and bool(whole)


def on_dial(token: Token) -> bool:
    """Whether the number is one that stands on the face of a clock."""
    return token.quantity is not None and 1 <= token.quantity.value <= 12.6


def is_hour(token: Token) -> bool:
    """Whether it is a clock time or a number on the dial."""
    return token.kind == "CLOCK" or (may_be_hour(token) and on_dial(token))


def skip(tokens: Sequence[Token], i: int, step: int, *links: str) -> int:
    """The next place from i that is not filler or one of these small words."""
    i += step
    while 0 <= i < len(tokens) and (tokens[i].kind == "FILL" or set(tokens[i].ids("link")) & set(links)):
        i += step
    return i


def joins(tokens: Sequence[Token], i: int) -> bool:
    """Whether the token at i stands between the two ends of a stretch."""
    if not 0 < i < len(tokens) - 1:
        return False
    return bool(set(tokens[i].ids("link")) & _RANGE) or (tokens[i].kind == "MARK" and tokens[i].value == "-")


def links(tokens: Sequence[Token], i: int) -> frozenset[str]:
    """The small words at i by id."""
    return frozenset(tokens[i].ids("link")) if 0 <= i < len(tokens) else frozenset()


def ends(tokens: Sequence[Token], i: int) -> bool:
    """Whether nothing follows that the number could belong to."""
    if i + 1 >= len(tokens):
        return True
    after = tokens[i + 1]
    word = after.kind == "TERM" and not (after.ids("span") or after.ids("unit"))
    return word or after.kind in ("MARK", "LINK", "FILL", *TIMES)


def counts(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word of what is counted follows: "for 8 rolls", "by 12 people"."""
    after = skip(tokens, i, 1, "of")
    if after >= len(tokens):
        return False
    token = tokens[after]
    return bool(token.ids("piece") or token.ids("bread") or token.ids("ingredient") or "portions" in token.ids("cue"))


def in_range_with_clock(tokens: Sequence[Token], i: int) -> bool:
    """ "9 to 12:30", "22:30 to 6"."""
    if joins(tokens, i + 1) and tokens[i + 2].kind == "CLOCK":
        return "and" not in links(tokens, i + 1) or _after_away(tokens, i)
    if joins(tokens, i - 1) and tokens[i - 2].kind == "CLOCK":
        return "and" not in links(tokens, i - 1) or _after_away(tokens, i - 2)
    return False


def _begins_range(tokens: Sequence[Token], i: int) -> bool:
    return joins(tokens, i + 1) and is_hour(tokens[i + 2]) and _on_dial_or_clock(tokens[i])


def _on_dial_or_clock(token: Token) -> bool:
    return token.kind == "CLOCK" or on_dial(token)


def range_of_the_taken(tokens: Sequence[Token], i: int) -> bool:
    """ "asleep 11 to 7", "9 to 5 at work", and the next stretch of a list: "out 9-10 and 2-3"."""
    if joins(tokens, i - 1) and tokens[i - 2].kind in ("CLOCK", "NUM") and _after_away(tokens, i - 2):
        return True
    if not (joins(tokens, i + 1) and tokens[i + 2].kind in ("NUM", "CLOCK")):
        return False
    if _after_away(tokens, i):
        return True
    ranged = _begins_range(tokens, i) and not counts(tokens, i + 2)
    return ranged and (_away_behind(tokens, i + 2) or _goes_on(tokens, i))


def between_hours(tokens: Sequence[Token], i: int) -> bool:
    """ "between 11 and 1" in a line about the clock."""
    first = i if "between" in links(tokens, i - 1) else i - 2 if "between" in links(tokens, i - 3) else -1
    if first < 0 or not joins(tokens, first + 1) or first + 2 >= len(tokens):
        return False
    both = is_hour(tokens[first]) and is_hour(tokens[first + 2]) and ends(tokens, first + 2)
    return both and any(one.kind in TIMES or one.ids("away") or one.ids("clocked") for one in tokens)


def _away_behind(tokens: Sequence[Token], i: int) -> bool:
    after = skip(tokens, i, 1, "at", "in", "on")
    return after < len(tokens) and bool(tokens[after].ids("away"))


def _goes_on(tokens: Sequence[Token], i: int) -> bool:
    """Whether a stretch of hours ends just before: "9-10, 2-3", "9 to 5 then football 6 till 8"."""
    if not ends(tokens, i + 2):
        return False
    at, words = i - 1, 0
    while at > 0 and tokens[at].kind != "CLOCK":
        token = tokens[at]
        small = token.kind in ("FILL", "MARK", "LINK") or token.ids("filler") or token.ids("away")
        words += 0 if small else 1
        if words > _ASIDE or token.quantity is not None:
            return False
        at -= 1
    return at > 1 and joins(tokens, at - 1) and tokens[at - 2].kind == "CLOCK"


def _after_away(tokens: Sequence[Token], i: int) -> bool:
    before = skip(tokens, i, -1, "from", "between", "at", "about", "on")
    if before >= 0 and tokens[before].kind in ("DAY", "PART"):
        before = skip(tokens, before, -1, "on", "next")
    return before >= 0 and bool(tokens[before].ids("away"))
