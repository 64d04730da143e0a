"""Bare numbers that are hours of the clock: "asleep 11 to 7", "22:30 to 6", "ready at 9 on sunday", "out till 5".

A number without a unit is taken for an hour only where the words around it leave little else: another hour on the
other side of "to", a day beside it, a word before it that wants a time (kinds "away" and "clocked" of the vocabulary),
or a small word that only an hour follows ("by 9", "until 2", "since 8"). A list of spans goes on as it began.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from grammar.moments import Moment
from grammar.tokens import Token

_TIMES = frozenset({"CLOCK", "DAY", "PART"})
_RANGE = frozenset({"to", "until", "and"})
_BEFORE_HOUR = frozenset({"at", "by", "until", "before", "from", "for", "after", "about", "between"})
_ENDS_IN = ("at", "by", "from", "before", "until", "till", "than")
_OF_HOURS = frozenset({"plan", "plan_up", "when_ready", "last_out"})
_DAY_LINKS = frozenset({"on", "at", "in", "for"})
_ON_THE_DOT = frozenset({"mix", "shape", "divide", "boil", "bake", "fold", "feed_starter", "knead", "preheat", "score"})
"""Stages of which "at 8" is an hour; of the others it may be how warm they are kept."""
_DOTTED = re.compile(r"\d{1,2}\.[0-5]\d")


def as_hours(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with bare numbers that are hours turned into clock times."""
    out = [_named_day(token) for token in tokens]
    for i, token in enumerate(out):
        if not _may_be_hour(token) or _counts(out, i):
            continue
        if any(rule(out, i) for rule in _RULES):
            out[i] = _clock(token)
    return out


def _may_be_hour(token: Token) -> bool:
    quantity = token.quantity
    if token.kind != "NUM" or quantity is None or quantity.fraction or quantity.dim != "num":
        return False
    whole = quantity.value == int(quantity.value) or _DOTTED.fullmatch(token.text)
    return 0 <= quantity.value <= 24 and bool(whole)


def _on_dial(token: Token) -> bool:
    """Whether the number is one that stands on the face of a clock."""
    return token.quantity is not None and 1 <= token.quantity.value <= 12.6


def _is_hour(token: Token) -> bool:
    return token.kind == "CLOCK" or (_may_be_hour(token) and _on_dial(token))


def _named_day(token: Token) -> Token:
    """A day with a name ("christmas day") as the day it is; its word's id is "MM_DD"."""
    named = token.ids("date")
    if not named:
        return token
    return replace(token, kind="DAY", value=Moment(day="--" + named[0].replace("_", "-")), terms=(), phrase="")


def _clock(token: Token) -> Token:
    assert token.quantity is not None
    hours = int(token.quantity.value) % 24
    minutes = int(token.text.split(".")[1]) if _DOTTED.fullmatch(token.text) else 0
    return replace(token, kind="CLOCK", quantity=None, value=Moment(minute=hours * 60 + minutes))


def _skip(tokens: Sequence[Token], i: int, step: int, *links: str) -> int:
    """The next place from i that is not filler or one of these small words."""
    i += step
    while 0 <= i < len(tokens) and (tokens[i].kind == "FILL" or set(tokens[i].ids("link")) & set(links)):
        i += step
    return i


def _joins(tokens: Sequence[Token], i: int) -> bool:
    """Whether the token at i stands between the two ends of a stretch."""
    if not 0 < i < len(tokens) - 1:
        return False
    return bool(set(tokens[i].ids("link")) & _RANGE) or (tokens[i].kind == "MARK" and tokens[i].value == "-")


def _links(tokens: Sequence[Token], i: int) -> frozenset[str]:
    return frozenset(tokens[i].ids("link")) if 0 <= i < len(tokens) else frozenset()


# The stretches.


def _in_range_with_clock(tokens: Sequence[Token], i: int) -> bool:
    """ "9 to 12:30", "22:30 to 6"."""
    if _joins(tokens, i + 1) and tokens[i + 2].kind == "CLOCK":
        return "and" not in _links(tokens, i + 1) or _after_away(tokens, i)
    if _joins(tokens, i - 1) and tokens[i - 2].kind == "CLOCK":
        return "and" not in _links(tokens, i - 1) or _after_away(tokens, i - 2)
    return False


def _begins_range(tokens: Sequence[Token], i: int) -> bool:
    return _joins(tokens, i + 1) and _is_hour(tokens[i + 2]) and _on_dial_or_clock(tokens[i])


def _on_dial_or_clock(token: Token) -> bool:
    return token.kind == "CLOCK" or _on_dial(token)


def _range_of_the_taken(tokens: Sequence[Token], i: int) -> bool:
    """ "asleep 11 to 7", "9 to 5 at work", and the next stretch of a list: "out 9-10 and 2-3"."""
    if _joins(tokens, i - 1) and tokens[i - 2].kind in ("CLOCK", "NUM") and _after_away(tokens, i - 2):
        return True
    if not (_joins(tokens, i + 1) and tokens[i + 2].kind in ("NUM", "CLOCK")):
        return False
    if _after_away(tokens, i):
        return True
    ranged = _begins_range(tokens, i) and not _counts(tokens, i + 2)
    return ranged and (_away_behind(tokens, i + 2) or _goes_on(tokens, i))


def _between_hours(tokens: Sequence[Token], i: int) -> bool:
    """ "between 11 and 1" in a line about the clock."""
    first = i if "between" in _links(tokens, i - 1) else i - 2 if "between" in _links(tokens, i - 3) else -1
    if first < 0 or not _joins(tokens, first + 1) or first + 2 >= len(tokens):
        return False
    both = _is_hour(tokens[first]) and _is_hour(tokens[first + 2]) and _ends(tokens, first + 2)
    return both and any(one.kind in _TIMES or one.ids("away") or one.ids("clocked") for one in tokens)


def _away_behind(tokens: Sequence[Token], i: int) -> bool:
    after = _skip(tokens, i, 1, "at", "in", "on")
    return after < len(tokens) and bool(tokens[after].ids("away"))


_ASIDE = 4
"""Words that may stand between two stretches of a list and say what each is for."""


def _goes_on(tokens: Sequence[Token], i: int) -> bool:
    """Whether a stretch of hours ends just before: "9-10, 2-3", "9 to 5 then football 6 till 8"."""
    if not _ends(tokens, i + 2):
        return False
    at, words = i - 1, 0
    while at > 0 and tokens[at].kind != "CLOCK":
        token = tokens[at]
        small = token.kind in ("FILL", "MARK", "LINK") or token.ids("filler") or token.ids("away")
        words += 0 if small else 1
        if words > _ASIDE or token.quantity is not None:
            return False
        at -= 1
    return at > 1 and _joins(tokens, at - 1) and tokens[at - 2].kind == "CLOCK"


def _after_away(tokens: Sequence[Token], i: int) -> bool:
    before = _skip(tokens, i, -1, "from", "between", "at", "about", "on")
    if before >= 0 and tokens[before].kind in ("DAY", "PART"):
        before = _skip(tokens, before, -1, "on", "next")
    return before >= 0 and bool(tokens[before].ids("away"))


# An hour beside a day.


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
    return i > 0 and (bool(_links(tokens, i - 1) & _BEFORE_HOUR) or _wants_time(tokens[i - 1]))


def _wants_time(token: Token) -> bool:
    return bool(token.ids("away") or token.ids("clocked") or "begun" in token.ids("look"))


# An hour after a word that wants one.


def _wanted(tokens: Sequence[Token], i: int) -> bool:
    """ "out till 5", "ready by 9", "start at 7", "since 9", "no earlier than 7"."""
    if "until" in _links(tokens, i - 1) and (i + 1 >= len(tokens) or tokens[i + 1].quantity is None):
        return True
    if i > 0 and _on_dial(tokens[i]) and "begun" in tokens[i - 1].ids("look"):
        return True  # "since 9", "if I start at 8"
    before = _skip(tokens, i, -1, *_BEFORE_HOUR)
    if before < 0:
        return False
    if _on_dial(tokens[i]) and _fed_before(tokens, before):
        return True
    if tokens[before].ids("away"):
        return i + 1 >= len(tokens) or tokens[i + 1].kind != "TERM" or _joins(tokens, i + 1)
    if tokens[before].ids("clocked") or "start_boil" in tokens[before].ids("starts"):
        return i - before > 1 or tokens[before].text.lower().split()[-1] in _ENDS_IN
    return False


def _fed_before(tokens: Sequence[Token], at: int) -> bool:
    """ "fed 1:2:2 at 8", "when do i feed for 6", "use it at 5", "200 g starter by 7"."""
    links = _links(tokens, at + 1)
    told = tokens[at - 1] if at > 0 and isinstance(tokens[at].value, tuple) else tokens[at]
    fed = "feed" in told.ids("feeding") or "feed_starter" in (*told.ids("mark"), *told.ids("step"))
    starter = "starter" in told.ids("cue") or any(one.startswith("starter") for one in told.ids("ingredient"))
    used = "use_it" in told.ids("look")
    return bool(((fed or used) and links & {"at", "for", "by"}) or (starter and "by" in links))


def _event_at(tokens: Sequence[Token], i: int) -> bool:
    """ "in the pot at 8", "mixed it at 9", and of a line about the clock the hour of the bread: "rings at 8"."""
    if "at" not in _links(tokens, i - 1) or not _on_dial(tokens[i]) or not _ends(tokens, i):
        return False
    token = tokens[_skip(tokens, i, -1, "at")]
    if {*token.ids("mark"), *token.ids("step")} & _ON_THE_DOT:
        return True
    bread = bool(token.ids("piece") or token.ids("bread"))
    return bread and any(one.kind in _TIMES or set(one.ids("ask")) & _OF_HOURS for one in tokens)


def _by_then(tokens: Sequence[Token], i: int) -> bool:
    """ "24 rolls by 9", "before 8, 2 loaves"; "drops by 5" and "cut by 4" are no hours."""
    if not _links(tokens, i - 1) & {"by", "before"} or not _on_dial(tokens[i]) or not _ends(tokens, i):
        return False
    before = _skip(tokens, i - 1, -1, "about")
    if before < 0 or tokens[before].kind in ("MARK", *_TIMES):
        return True
    token = tokens[before]
    thing = token.ids("piece") or token.ids("bread") or token.ids("ingredient") or token.ids("clocked")
    return bool(thing) or (token.quantity is not None and token.kind != "NUM")


def _again_from(tokens: Sequence[Token], i: int) -> bool:
    """ "home until 2 and then again from 6": an hour went before, or a word of being there."""
    if not _links(tokens, i - 1) & {"from", "after"} or not _on_dial(tokens[i]) or not _ends(tokens, i):
        return False
    return any(token.kind == "CLOCK" or token.ids("away") or token.ids("clocked") for token in tokens[:i])


def _ends(tokens: Sequence[Token], i: int) -> bool:
    """Whether nothing follows that the number could belong to."""
    if i + 1 >= len(tokens):
        return True
    after = tokens[i + 1]
    word = after.kind == "TERM" and not (after.ids("span") or after.ids("unit"))
    return word or after.kind in ("MARK", "LINK", "FILL", *_TIMES)


def _counts(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word of what is counted follows: "for 8 rolls", "by 12 people"."""
    after = _skip(tokens, i, 1, "of")
    if after >= len(tokens):
        return False
    token = tokens[after]
    return bool(token.ids("piece") or token.ids("bread") or token.ids("ingredient") or "portions" in token.ids("cue"))


_RULES = (
    _in_range_with_clock, _beside_day, _wanted, _range_of_the_taken, _between_hours, _event_at, _by_then, _again_from,
)  # fmt: skip
