"""Bare numbers that are hours of the clock: "asleep 11 to 7", "22:30 to 6", "ready at 9 on sunday", "out till 5".

A number without a unit is taken for an hour only where the words around it leave little else: a clock time on the other
side of "to", a day beside it, or a word before it that wants a time (kinds "away" and "clocked" of the vocabulary).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.moments import Moment
from grammar.tokens import Token

_TIMES = frozenset({"CLOCK", "DAY", "PART"})
_RANGE = frozenset({"to", "until", "and"})
_BEFORE_HOUR = frozenset({"at", "by", "until", "before", "from", "for", "after", "about", "between"})
_ENDS_IN = ("at", "by", "from", "before", "until", "till")
_OF_HOURS = frozenset({"plan", "plan_up", "when_ready"})
_DAY_LINKS = frozenset({"on", "at", "in", "for"})


def as_hours(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with bare numbers that are hours turned into clock times."""
    out = [_named_day(token) for token in _halves(tokens)]
    for i, token in enumerate(out):
        if not _may_be_hour(token) or _counts(out, i):
            continue
        if _in_range_with_clock(out, i) or _beside_day(out, i) or _wanted(out, i):
            out[i] = _clock(token)
    return out


def _halves(tokens: Sequence[Token]) -> list[Token]:
    """ "ten pm", "six o'clock": an hour in words with its half of the day."""
    out: list[Token] = []
    for token in tokens:
        word = token.text.lower().replace(".", "").replace("'", "")
        if word in ("am", "pm", "oclock") and out and _may_be_hour(out[-1]) and token.kind in ("JUNK", "TERM"):
            hour = out[-1].quantity
            assert hour is not None
            half = None if word == "oclock" else word
            value = Moment(minute=int(hour.value) % 24 * 60, half=half)
            text = f"{out[-1].text} {token.text}"
            out[-1] = replace(out[-1], kind="CLOCK", quantity=None, value=value, end=token.end, text=text)
        else:
            out.append(token)
    return out


def _may_be_hour(token: Token) -> bool:
    quantity = token.quantity
    if token.kind != "NUM" or quantity is None or quantity.fraction:
        return False
    return 0 <= quantity.value <= 24 and quantity.value == int(quantity.value)


def _on_dial(token: Token) -> bool:
    """Whether the number is one that stands on the face of a clock."""
    return token.quantity is not None and 1 <= token.quantity.value <= 12


def _is_hour(token: Token) -> bool:
    return token.kind == "CLOCK" or (_may_be_hour(token) and _on_dial(token))


def _named_day(token: Token) -> Token:
    """A day with a name ("christmas day") as the day it is; its word's id is "MM_DD"."""
    named = token.ids("date")
    return replace(token, kind="DAY", value=Moment(day="--" + named[0].replace("_", "-")), terms=()) if named else token


def _clock(token: Token) -> Token:
    assert token.quantity is not None
    hours = int(token.quantity.value) % 24
    return replace(token, kind="CLOCK", quantity=None, value=Moment(minute=hours * 60))


def _skip(tokens: Sequence[Token], i: int, step: int, *links: str) -> int:
    """The next place from i that is not filler or one of these small words."""
    i += step
    while 0 <= i < len(tokens) and (tokens[i].kind == "FILL" or set(tokens[i].ids("link")) & set(links)):
        i += step
    return i


def _joins(token: Token) -> bool:
    return bool(set(token.ids("link")) & _RANGE) or (token.kind == "MARK" and token.text == "-")


def _in_range_with_clock(tokens: Sequence[Token], i: int) -> bool:
    """ "9 to 12:30", "22:30 to 6"."""
    if i + 2 < len(tokens) and _joins(tokens[i + 1]) and tokens[i + 2].kind == "CLOCK":
        return "and" not in tokens[i + 1].ids("link") or _after_away(tokens, i)
    if i >= 2 and _joins(tokens[i - 1]) and tokens[i - 2].kind == "CLOCK":
        return "and" not in tokens[i - 1].ids("link") or _after_away(tokens, i - 2)
    return False


def _beside_day(tokens: Sequence[Token], i: int) -> bool:
    """ "at 9 on sunday", "8 tomorrow morning", "sunday at 9", "sat 9"."""
    after = _skip(tokens, i, 1, "on", "in")
    if after < len(tokens) and tokens[after].kind in ("DAY", "PART"):
        hour = _skip(tokens, after, 1, "at", "by")
        if hour > after + 1 and hour < len(tokens) and _is_hour(tokens[hour]):
            return False  # "rolls for 8 on sunday at 9": the hour comes yet
        return _led(tokens, i) or i == 0
    before = _skip(tokens, i, -1, *_DAY_LINKS)
    if before >= 0 and tokens[before].kind in ("DAY", "PART"):
        gap = i - before > 1
        return gap or i + 1 >= len(tokens) or tokens[i + 1].kind in ("MARK", "CLOCK")
    return False


def _led(tokens: Sequence[Token], i: int) -> bool:
    return i > 0 and (bool(set(tokens[i - 1].ids("link")) & _BEFORE_HOUR) or _wants_time(tokens[i - 1]))


def _wants_time(token: Token) -> bool:
    return bool(token.ids("away") or token.ids("clocked") or "begun" in token.ids("look"))


def _after_away(tokens: Sequence[Token], i: int) -> bool:
    before = _skip(tokens, i, -1, "from", "between", "at", "about", "on")
    if before >= 0 and tokens[before].kind == "DAY":
        before = _skip(tokens, before, -1, "on", "next")
    return before >= 0 and bool(tokens[before].ids("away"))


def _wanted(tokens: Sequence[Token], i: int) -> bool:
    """ "asleep 11 to 7", "out till 5", "ready by 9", "start at 7"."""
    if i > 0 and "until" in tokens[i - 1].ids("link") and (i + 1 >= len(tokens) or tokens[i + 1].quantity is None):
        return True
    if i > 0 and _on_dial(tokens[i]) and "begun" in tokens[i - 1].ids("look"):
        return True  # "since 9", "if I start at 8"
    before = _skip(tokens, i, -1, *_BEFORE_HOUR)
    if _on_dial(tokens[i]) and _fed_before(tokens, before):
        return True
    ranged = i + 2 < len(tokens) and _joins(tokens[i + 1]) and tokens[i + 2].kind in ("NUM", "CLOCK")
    if ranged and _after_away(tokens, i):
        return True
    if before >= 0 and tokens[before].ids("away"):
        return i + 1 >= len(tokens) or tokens[i + 1].kind != "TERM" or _joins(tokens[i + 1])
    if before >= 0 and (tokens[before].ids("clocked") or "start_boil" in tokens[before].ids("starts")):
        return i - before > 1 or tokens[before].text.lower().split()[-1] in _ENDS_IN
    if _bread_at(tokens, i):
        return True
    if i >= 2 and _joins(tokens[i - 1]) and tokens[i - 2].kind in ("CLOCK", "NUM"):
        return _after_away(tokens, i - 2)
    return False


def _fed_before(tokens: Sequence[Token], at: int) -> bool:
    """ "fed 1:2:2 at 8", "when do i feed for 6", "use it at 5", "200 g starter by 7"."""
    if at < 0 or at + 1 >= len(tokens):
        return False
    links = set(tokens[at + 1].ids("link"))
    told = tokens[at - 1] if at > 0 and isinstance(tokens[at].value, tuple) else tokens[at]
    fed = "feed" in told.ids("feeding") or "feed_starter" in (*told.ids("mark"), *told.ids("step"))
    starter = "starter" in told.ids("cue") or any(one.startswith("starter") for one in told.ids("ingredient"))
    used = "use_it" in told.ids("look")
    return bool(((fed or used) and links & {"at", "for", "by"}) or (starter and "by" in links))


def _bread_at(tokens: Sequence[Token], i: int) -> bool:
    """ "up at 5:30, bread at 7", "when do i start for rings at 8": of a line about the clock, the hour of the bread."""
    at = i >= 2 and "at" in tokens[i - 1].ids("link") and bool(tokens[i - 2].ids("piece") or tokens[i - 2].ids("bread"))
    by_clock = any(one.kind in _TIMES or set(one.ids("ask")) & _OF_HOURS for one in tokens)
    return at and _on_dial(tokens[i]) and by_clock


def _counts(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word of what is counted follows: "for 8 rolls", "by 12 people"."""
    after = _skip(tokens, i, 1, "of")
    if after >= len(tokens):
        return False
    ids = tokens[after]
    return bool(ids.ids("piece") or ids.ids("bread") or ids.ids("ingredient") or "portions" in ids.ids("cue"))
