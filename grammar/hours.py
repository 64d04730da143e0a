"""Bare numbers that are hours of the clock: "asleep 11 to 7", "22:30 to 6", "ready at 9 on sunday", "out till 5".

A number without a unit is taken for an hour only where the words around it leave little else: another hour on the
other side of "to", a day beside it, a word before it that wants a time (kinds "away" and "clocked" of the vocabulary),
or a small word that only an hour follows ("by 9", "until 2", "since 8"). A list of spans goes on as it began.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.hour_spans import (
    DOTTED,
    TIMES,
    between_hours,
    counts,
    ends,
    in_range_with_clock,
    is_hour,
    joins,
    links,
    may_be_hour,
    on_dial,
    range_of_the_taken,
    skip,
)
from grammar.moments import Moment
from grammar.tokens import Token

_BEFORE_HOUR = frozenset({"at", "by", "until", "before", "from", "for", "after", "about", "between"})
_ENDS_IN = ("at", "by", "from", "before", "until", "till", "than")
_OF_HOURS = frozenset({"plan", "plan_up", "when_ready", "last_out"})
_DAY_LINKS = frozenset({"on", "at", "in", "for"})
_DOT_FOLLOWS = frozenset({"at", "from", "by", "until", "before"})
_SAY = frozenset({"say", "says", "said", "saying"})
_EATERS = frozenset({"people", "company", "portions"})
_BEGUN = frozenset({"begun", "so_far"})
_DONE = ("starts", "mark", "step", "feeding", "past")
_NO_SHARE = 5.0
"""No salt or malt is so many per cent to two places: with two figures behind a dot it is an hour."""
_ON_THE_DOT = frozenset({"mix", "shape", "divide", "boil", "bake", "fold", "feed_starter", "knead", "preheat", "score"})
"""Stages of which "at 8" is an hour; of the others it may be how warm they are kept."""


def as_hours(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with bare numbers that are hours turned into clock times."""
    out = [_named_day(token) for token in tokens]
    out = [_clock(token) if _hour_by_its_sign(out, i) else token for i, token in enumerate(out)]
    for i, token in enumerate(out):
        if not may_be_hour(token) or counts(out, i):
            continue
        if any(rule(out, i) for rule in _RULES):
            out[i] = _clock(token)
    return out


def _hour_by_its_sign(tokens: Sequence[Token], i: int) -> bool:
    """ "22h tonight", "by 22h": an hour of the day with its sign glued on, where a length of time makes no sense."""
    token = tokens[i]
    figure = token.text.lower().removesuffix("h")
    if token.kind != "TIME" or token.text.lower() == figure or not figure.isdigit() or not 5 <= int(figure) <= 24:
        return False
    behind = skip(tokens, i, 1)
    dated = behind < len(tokens) and tokens[behind].kind in ("DAY", "PART")
    return (dated and int(figure) > 12) or bool(links(tokens, i - 1) & {"at", "by", "before", "until"})


def _named_day(token: Token) -> Token:
    """A day with a name ("christmas day") as the day it is; its word's id is "MM_DD"."""
    named = token.ids("date")
    if not named:
        return token
    return replace(token, kind="DAY", value=Moment(day="--" + named[0].replace("_", "-")), terms=(), phrase="")


def _clock(token: Token) -> Token:
    assert token.quantity is not None
    hours = int(token.quantity.value) % 24
    minutes = int(token.text.split(".")[1]) if DOTTED.fullmatch(token.text) else 0
    return replace(token, kind="CLOCK", quantity=None, value=Moment(minute=hours * 60 + minutes))


# An hour beside a day.


def _beside_day(tokens: Sequence[Token], i: int) -> bool:
    """ "at 9 on sunday", "8 tomorrow morning", "sunday at 9", "sat 9"."""
    after = skip(tokens, i, 1, "on", "in")
    if after < len(tokens) and tokens[after].kind in ("DAY", "PART"):
        hour = skip(tokens, after, 1, "at", "by")
        if hour > after + 1 and hour < len(tokens) and is_hour(tokens[hour]):
            return False  # "rolls for 8 on sunday at 9": the hour comes yet
        return _led(tokens, i) or i == 0 or (tokens[i - 1].kind == "MARK" and on_dial(tokens[i]))
    before = skip(tokens, i, -1, *_DAY_LINKS)
    if before >= 0 and tokens[before].kind in ("DAY", "PART"):
        gap = i - before > 1
        return gap or i + 1 >= len(tokens) or tokens[i + 1].kind in ("MARK", "CLOCK")
    return False


def _led(tokens: Sequence[Token], i: int) -> bool:
    return i > 0 and (bool(links(tokens, i - 1) & _BEFORE_HOUR) or _wants_time(tokens[i - 1]))


def _wants_time(token: Token) -> bool:
    return bool(token.ids("away") or token.ids("clocked") or "begun" in token.ids("look"))


# An hour after a word that wants one.


def _wanted(tokens: Sequence[Token], i: int) -> bool:
    """ "out till 5", "ready by 9", "start at 7", "since 9", "no earlier than 7"."""
    if "until" in links(tokens, i - 1) and (i + 1 >= len(tokens) or tokens[i + 1].quantity is None):
        return True
    if i > 0 and on_dial(tokens[i]) and "begun" in tokens[i - 1].ids("look"):
        return True  # "since 9", "if I start at 8"
    before = skip(tokens, i, -1, *_BEFORE_HOUR)
    if before < 0:
        return False
    if on_dial(tokens[i]) and _fed_before(tokens, before):
        return True
    if tokens[before].ids("away"):
        return i + 1 >= len(tokens) or tokens[i + 1].kind != "TERM" or joins(tokens, i + 1)
    if tokens[before].ids("clocked") or "start_boil" in tokens[before].ids("starts"):
        return i - before > 1 or tokens[before].text.lower().split()[-1] in _ENDS_IN
    return False


def _fed_before(tokens: Sequence[Token], at: int) -> bool:
    """ "fed 1:2:2 at 8", "when do i feed for 6", "use it at 5", "200 g starter by 7"."""
    small = links(tokens, at + 1)
    told = tokens[at - 1] if at > 0 and isinstance(tokens[at].value, tuple) else tokens[at]
    fed = "feed" in told.ids("feeding") or "feed_starter" in (*told.ids("mark"), *told.ids("step"))
    starter = "starter" in told.ids("cue") or any(one.startswith("starter") for one in told.ids("ingredient"))
    used = "use_it" in told.ids("look")
    fed = fed or (starter and at > 0 and "feed" in tokens[skip(tokens, at, -1)].ids("feeding"))
    return bool(((fed or used) and small & {"at", "for", "by"}) or (starter and "by" in small))


def _event_at(tokens: Sequence[Token], i: int) -> bool:
    """ "in the pot at 8", "mixed it at 9", and of a line about the clock the hour of the bread: "rings at 8"."""
    if "at" not in links(tokens, i - 1) or not on_dial(tokens[i]) or not ends(tokens, i):
        return False
    token = tokens[skip(tokens, i, -1, "at")]
    if {*token.ids("mark"), *token.ids("step")} & _ON_THE_DOT or {"pot", "oven"} & set(token.ids("holds")):
        return True  # no pot and no oven is so cold
    bread = bool(token.ids("piece") or token.ids("bread"))
    return bread and any(one.kind in TIMES or set(one.ids("ask")) & _OF_HOURS for one in tokens)


def _by_then(tokens: Sequence[Token], i: int) -> bool:
    """ "24 rolls by 9", "before 8, 2 loaves"; "drops by 5" and "cut by 4" are no hours."""
    if not links(tokens, i - 1) & {"by", "before"} or not on_dial(tokens[i]) or not ends(tokens, i):
        return False
    before = skip(tokens, i - 1, -1, "about")
    if before < 0 or tokens[before].kind in ("MARK", *TIMES):
        return True
    token = tokens[before]
    thing = token.ids("piece") or token.ids("bread") or token.ids("ingredient") or token.ids("clocked")
    reached = bool({"doubled", "tripled", "ripe", "peaked"} & set(token.ids("look")))
    return bool(thing) or reached or (token.quantity is not None and token.kind != "NUM")


def _again_from(tokens: Sequence[Token], i: int) -> bool:
    """ "home until 2 and then again from 6": an hour went before, or a word of being there."""
    if not links(tokens, i - 1) & {"from", "after"} or not on_dial(tokens[i]) or not ends(tokens, i):
        return False
    return any(token.kind == "CLOCK" or token.ids("away") or token.ids("clocked") for token in tokens[:i])


def _dotted(tokens: Sequence[Token], i: int) -> bool:
    """ "mixed 9.25", "9.45 i mixed it", "loads from 8.00", "no, 20.15": two figures behind the dot, beside what was
    done or behind a word an hour follows, or alone and too much for a share."""
    token = tokens[i]
    if not DOTTED.fullmatch(token.text) or not ends(tokens, i):
        return False
    before = tokens[i - 1] if i else None
    small = {*links(tokens, i - 1), *before.text.lower().split()[-1:]} if before is not None else set()
    led = before is not None and (bool(small & _DOT_FOLLOWS) or "to_bed" in before.ids("clocked"))
    if led:
        return not any(tokens[k].ids("heat") for k in (i - 1, i - 2) if k >= 0)  # "dough temp at 23.40"
    begin, end = i, i
    while begin > 0 and tokens[begin - 1].kind != "MARK":
        begin -= 1
    while end + 1 < len(tokens) and tokens[end + 1].kind != "MARK":
        end += 1
    clause = tokens[begin : end + 1]
    if any(one.ids(kind) for one in clause for kind in _DONE) or any(_BEGUN & {*one.ids("look")} for one in clause):
        return True
    alone = all(one is token or one.kind in ("NEG", "FILL", "LINK") or one.ids("filler") for one in clause)
    return alone and token.quantity is not None and token.quantity.value >= _NO_SHARE


def _named_by_eaters(tokens: Sequence[Token], i: int) -> bool:
    """ "the cousins say 12 now", "guests want it 12 rather", "lunch is 12 now": those who eat, or what they eat at,
    name an hour, and nothing is counted."""
    if i < 2 or not on_dial(tokens[i]) or not _closes(tokens, i):
        return False
    verb, who = tokens[i - 1], tokens[i - 2]
    if "meal" in who.ids("filler") and verb.text.lower() in ("is", "at", "now"):
        return True
    named = verb.text.lower().split()[-1] in _SAY or "ready" in verb.ids("clocked")
    eats = _EATERS & {*who.ids("filler"), *who.ids("cue")} or who.text.lower() == "they" or bool(who.ids("person"))
    return named and bool(eats)


def _closes(tokens: Sequence[Token], i: int) -> bool:
    """Whether the clause ends here, but for a word that it is so now, or instead."""
    behind = tokens[i + 1 :]
    if len(behind) >= 2 and behind[-2].kind == "NEG" and behind[-1].kind == "NUM":
        behind = behind[:-2]  # "not 11"
    return all("instead" in t.ids("link") or "now" in t.ids("span") or t.kind in ("FILL", "MARK") for t in behind)


_RULES = (
    _named_by_eaters,
    _dotted, in_range_with_clock, _beside_day, _wanted, range_of_the_taken, between_hours, _event_at, _by_then,
    _again_from,
)  # fmt: skip
