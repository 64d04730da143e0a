"""Words and signs that say an hour of the clock, whatever the line is about.

"7:30", "7pm", "0630", "1930h", "a quarter past six", "five and twenty past", "half five", "six o'clock", "ten pm",
"12 noon", "8ish", "twenty past" (of whichever hour comes next). A bare "9" is left to `grammar/hours.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar import number_words
from grammar.day_words import DAY_STARTS
from grammar.dial_places import ENDS, SHARP, closes_at, counted, led, measures, word_at
from grammar.dial_words import minutes_in_words
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.moments import Moment
from grammar.tokens import Token

_PAST = frozenset({"past", "after", "gone"})
_SPANS = frozenset({"hour", "hours", "hr", "hrs", "h", "minutes", "min", "mins", "days", "weeks"})
_TO = frozenset({"to", "before", "of", "til", "till"})
_SAID_MINUTES = {"half": 30, "quarter": 15, "five": 5, "ten": 10, "twenty": 20}
_NOON = {"noon": 12, "midday": 12, "midnight": 0}
_OCLOCK = frozenset({"oclock", "o'clock"})

@dataclass(frozen=True, slots=True)
class _Hour:
    """An hour on the face: 0 to 24, its half of the day where that was said, the lexemes it takes."""

    hours: int
    half: str | None
    used: int


def clock_of(lexeme: Lexeme) -> Token:
    """The token of a lexeme that is a clock time or a date as written in figures."""
    match = lexeme.match
    assert match is not None
    if match["date"]:
        minute = int(match["dh"]) * 60 + int(match["dm"]) if match["dh"] else None
        half = None if minute is None or minute >= 780 or minute < 60 else "pm" if minute >= 720 else "am"
        return Token("DAY", "", 0, 0, value=Moment(minute=minute, half=half, day=match["date"][:10]))
    half = match["half"] or match["half2"]
    hours, minutes = (int(match["h"]), int(match["m"])) if match["clock"] else (int(match["hh"]), 0)
    half = half.replace(".", "").lower() if half else None
    if half is None and len(match["h"]) == 2 and match["h"].startswith("0") and hours:
        half = "am"  # 07:30 is written on a 24-hour clock
    return _clock(hours * 60 + minutes, half, 1)[0]


def hour_at(lx: Sequence[Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon) -> tuple[Token, int] | None:
    """The hour of the clock that begins at lexeme i, with the lexemes it takes; None where none does."""
    article = 1 if lx[i].word in ("a", "an", "the") and i + 1 < len(lx) else 0
    past = _minutes_and_hour(lx, i + article, before)
    if past is not None:
        return past[0], past[1] + article
    if article:
        return _of_the_hour(lx, i, before)
    found = _half(lx, i, before)
    if found is not None:
        return None if measures(lx, i + found[1], lexicon) else found
    spoken = minutes_in_words(lx, i, before, lexicon)
    if spoken is not None:
        half, more = _half_behind(lx, i + spoken.used)
        return _clock(spoken.minute, half, spoken.used + more)
    return _face(lx, i, before) or _military(lx, i, before) or _of_the_hour(lx, i, before)


def _clock(minute: int, half: str | None, used: int) -> tuple[Token, int]:
    return Token("CLOCK", "", 0, 0, value=Moment(minute=minute % 1440, half=half)), used


def _minutes(lx: Sequence[Lexeme], i: int) -> tuple[int, int] | None:
    """Minutes before or after an hour and the lexemes they take: "quarter", "twenty five", "five and twenty", "17"."""
    word = word_at(lx, i)
    used = 1
    if word.isdigit() and 1 <= int(word) <= 59:
        minutes = int(word)
    elif word == "five" and word_at(lx, i + 1) == "and" and word_at(lx, i + 2) == "twenty":
        minutes, used = 25, 3
    elif word in _SAID_MINUTES or word in number_words.ONES:
        minutes = _SAID_MINUTES.get(word, number_words.ONES.get(word, 0))
        more = i + (2 if word_at(lx, i + 1) == "-" else 1)
        if word == "twenty" and 1 <= number_words.ONES.get(word_at(lx, more), 0) <= 9:
            minutes, used = 20 + number_words.ONES[word_at(lx, more)], more - i + 1
    else:
        return None
    if word_at(lx, i + used) in ("minutes", "minute", "mins", "min", "m"):
        used += 1
    return (minutes, used) if minutes else None


def _minutes_and_hour(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "a quarter past six", "20 past 7", "twenty five to nine", "ten to" (of the next hour)."""
    said = _minutes(lx, i)
    if said is None:
        return None
    minutes, used = said
    word = word_at(lx, i + used)
    if word not in _PAST | _TO or (word in _TO and word_at(lx, i) == "half"):
        return None
    if word == "to" and lx[i].kind == "number" and before and "from" in before[-1].ids("link"):
        return None  # "from 25 to 8" has two ends, whatever they measure
    sign = 1 if word in _PAST else -1
    hour = _hour(lx, i + used + 1)
    if hour is None:
        ends = i + used + 1 >= len(lx) or lx[i + used + 1].kind == "mark" or word_at(lx, i + used + 1) in ENDS
        if not (ends and led(before, SHARP | {"for"}) and word in ("past", "to")):
            return None
        return Token("CLOCK", "", 0, 0, value=Moment(past_min=sign * minutes % 60)), used + 1
    if hour.half is None and word_at(lx, i + used + 1 + hour.used) in _SPANS:
        return None  # "by half after 5 hours"
    told = hour.half is not None or word_at(lx, i) == "quarter" or lx[i + used - 1].word.startswith("min")
    if word != "past" and not told and not led(before, SHARP):
        # "ten to six" alone is from ten until six; twenty to nine can only be twenty minutes
        told = word == "to" and minutes > 12 and not minutes % 5 and not counted(lx, i + used + 1 + hour.used)
        if not told:
            return None
    minute = hour.hours * 60 + sign * minutes
    if hour.half is None and 1 <= hour.hours <= 12 and minute < 60:
        minute += 720  # "ten to one" is of the face, not of the small hours
    half = "am" if word_at(lx, i + used + 1) in ("noon", "midday") and sign < 0 else hour.half
    return _clock(minute, half, used + 1 + hour.used)


def _hour(lx: Sequence[Lexeme], i: int) -> _Hour | None:
    if i >= len(lx):
        return None
    if lx[i].kind == "hour":
        match = lx[i].match
        assert match is not None
        return _Hour(int(match["hh"]), match["half2"].replace(".", "").lower(), 1)
    word = word_at(lx, i)
    if word in _NOON:
        return _Hour(_NOON[word], "am" if word == "midnight" else "pm", 1)
    hours = int(word) if word.isdigit() else number_words.ONES.get(word, -1)
    if not 0 <= hours <= 24 or (not word.isdigit() and not 1 <= hours <= 12):
        return None
    half, used = _half_behind(lx, i + 1)
    return _Hour(hours, half, 1 + used)


def _half_behind(lx: Sequence[Lexeme], i: int) -> tuple[str | None, int]:
    """ "am", "p.m.", "o'clock" behind an hour: the half it tells and the lexemes it takes."""
    word = word_at(lx, i)
    if word in ("am", "pm"):
        return word, 1
    if word in ("a", "p") and word_at(lx, i + 1) == "." and word_at(lx, i + 2) == "m" and lx[i + 2].glued:
        return f"{word}m", 4 if word_at(lx, i + 3) == "." else 3
    if word in _OCLOCK:
        return None, 1
    return ("o", 3) if word == "o" and word_at(lx, i + 1) == "'" and word_at(lx, i + 2) == "clock" else (None, 0)


def _half(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "half five": half past it. Where nothing leads to it, an hour only at the front, or with the day behind it."""
    if lx[i].word != "half":
        return None
    hour = _hour(lx, i + 1)
    if hour is None or not 1 <= hour.hours <= 12:
        return None
    after = i + 1 + hour.used
    dated = word_at(lx, after) in DAY_STARTS or word_at(lx, after) in ("in", "this") or hour.half is not None
    plain = lx[i + 1].kind == "word"
    begun = "begun" in before[-1].ids("look") if before else False
    on = bool(before) and bool(before[-1].ids("link")) and "on" in before[-1].ids("link")
    first = all(token.kind in ("LINK", "FILL", "NEG", "MARK") for token in before)
    first = first or (before[-1].kind == "MARK" and word_at(lx, after) in ENDS)
    closes = closes_at(lx, after) and not (before and before[-1].quantity is not None)
    if led(before) or begun or (on and plain) or dated or first or closes:
        return _clock(hour.hours % 12 * 60 + 30 if hour.half else hour.hours * 60 + 30, hour.half, after - i)
    return None


def _face(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "six o'clock", "ten pm", "12 noon", "8ish"."""
    hour = _hour(lx, i)
    if hour is None or lx[i].kind == "hour" or word_at(lx, i) in _NOON:
        return None
    if hour.used > 1:
        return _clock(hour.hours * 60, hour.half, hour.used)
    after = word_at(lx, i + 1)
    if after in _NOON and hour.hours == 12:
        return Token("CLOCK", "", 0, 0, value=Moment(_NOON[after] * 60, "pm" if _NOON[after] else "am", part=after)), 2
    dash = 1 if after == "-" else 0
    if word_at(lx, i + 1 + dash) == "ish" and led(before) and not counted(lx, i + 2 + dash):
        return _clock(hour.hours * 60, None, 2 + dash)
    return None


def _military(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "0630", "1930h", "by 1930": four figures of a 24-hour clock."""
    text = lx[i].text
    if lx[i].kind != "number" or len(text) != 4 or not text.isdigit() or int(text[:2]) > 23 or int(text[2:]) > 59:
        return None
    sharp = led(before, frozenset({"at", "by", "until", "before"}))
    sign = word_at(lx, i + 1)
    hours_sign = sign in ("h", "hrs", "hours") and (text[0] == "0" or sharp or (sign != "hours" and lx[i + 1].glued))
    bare = i + 1 >= len(lx) or lx[i + 1].kind == "mark" or word_at(lx, i + 1) in ENDS
    ranged = word_at(lx, i + 1) in ("-", "to", "till", "until") and _four_figures(lx, i + 2)
    if not (hours_sign or ranged or (bare and (text[0] == "0" or sharp))):
        return None
    minute = int(text[:2]) * 60 + int(text[2:])
    return _clock(minute, "am" if 60 <= minute < 720 else "pm" if 720 <= minute < 780 else None, 1 + hours_sign)


def _four_figures(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether "0600" follows, the other end of a stretch."""
    text = lx[i].text if i < len(lx) else ""
    return len(text) == 4 and text.isdigit() and text[0] == "0" and int(text[2:]) < 60


def _of_the_hour(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "on the hour", "at the top of the hour", "on the half hour": of whichever hour comes next."""
    links = set(before[-1].ids("link")) if before else set()
    if not links & {"at", "on", "by"}:
        return None
    words = tuple(word_at(lx, n) for n in range(i, min(i + 5, len(lx))))
    for said, minute in ((("the", "hour"), 0), (("the", "top", "of", "the", "hour"), 0), (("the", "half", "hour"), 30)):
        if words[: len(said)] == said:
            return Token("CLOCK", "", 0, 0, value=Moment(past_min=minute)), len(said)
    return None

