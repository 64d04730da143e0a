"""Words and signs that say a time: hours of the clock, days, dates, parts of the day."""

from __future__ import annotations

from collections.abc import Sequence

from grammar import moments, numbers
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.moments import Moment
from grammar.tokens import Token

_AT = {"at", "by", "until", "till", "til", "around", "before", "after", "from", "for", "about", "to"}


def clock_of(lexeme: Lexeme) -> Token:
    match = lexeme.match
    assert match is not None
    if match["date"]:
        minute = int(match["dh"]) * 60 + int(match["dm"]) if match["dh"] else None
        return Token("DAY", "", 0, 0, value=Moment(minute=minute, half=None, day=match["date"][:10]))
    half = match["half"] or match["half2"]
    hours, minutes = (int(match["h"]), int(match["m"])) if match["clock"] else (int(match["hh"]), 0)
    half = half.replace(".", "").lower() if half else None
    if half is None and len(match["h"]) == 2 and match["h"].startswith("0") and hours:
        half = "am"  # 07:30 is written on a 24-hour clock
    return Token("CLOCK", "", 0, 0, value=Moment(minute=hours % 24 * 60 + minutes, half=half))


def moment_at(lx: Sequence[Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon) -> tuple[Token, int] | None:
    head = lx[i]
    nxt = lx[i + 1] if i + 1 < len(lx) else None
    if head.kind == "number":
        if nxt and nxt.word == "past" and i + 2 < len(lx) and head.text.isdigit() and 0 < int(head.text) < 60:
            hour = _hour(lx[i + 2].word or lx[i + 2].text)
            if hour is not None:  # "20 past 7"
                return Token("CLOCK", "", 0, 0, value=Moment(minute=(hour % 24) * 60 + int(head.text))), 3
        if nxt and nxt.word in ("oclock", "o'clock"):
            return Token("CLOCK", "", 0, 0, value=Moment(minute=int(numbers.digits(head.text)) % 24 * 60)), 2
        if nxt and nxt.kind == "word" and nxt.word in ("st", "nd", "rd", "th") and nxt.glued:
            number = int(numbers.digits(head.text))
            return _date(lx, i, 2, number) or _day_of_month(lx, i, number, before)
        if nxt and nxt.word in moments.MONTHS and head.text.isdigit() and 1 <= int(head.text) <= 31 and not nxt.glued:
            return _date(lx, i, 1, int(head.text))
        return None
    if head.kind != "word":
        return None
    if head.word in ("half", "quarter"):
        past = _past(lx, i, before)
        if past:
            return past
    if head.word in ("five", "ten", "twenty") and nxt:
        led = bool(before) and bool(set(before[-1].ids("link")) & {"at", "by", "until", "before", "after"})
        led = led or (bool(before) and before[-1].kind in ("DAY", "PART"))
        if nxt.word == "past" or (nxt.word == "to" and led):
            return _past(lx, i, before)
    if head.word in ("today", "tomorrow", "yesterday", "tomoz", "tmrw", "tmr"):
        day = "tomorrow" if head.word in ("tomoz", "tmrw", "tmr") else head.word
        return Token("DAY", "", 0, 0, value=Moment(day=day)), 1
    if head.word == "last" and nxt and nxt.word == "night" and before and _after_clock(before):
        return Token("DAY", "", 0, 0, value=Moment(day="yesterday", part="night")), 2
    if head.word in moments.WEEKDAYS and _is_day(lx, i, before):
        weeks = 1 if before and before[-1].ids("link") and "next" in before[-1].ids("link") else 0
        return Token("DAY", "", 0, 0, value=Moment(day=str(moments.WEEKDAYS[head.word]), weeks=weeks)), 1
    plural = head.word[:-1] if head.word.endswith("s") else head.word
    if plural in moments.WEEKDAYS and len(plural) > 3:
        return Token("DAY", "", 0, 0, value=Moment(day=str(moments.WEEKDAYS[plural]))), 1
    if head.word in moments.PARTS and _is_part(lx, i, before, lexicon):
        part = head.word
        half_day = Moment(minute=moments.PARTS[part][0] * 60, half="am" if part == "midnight" else "pm", part=part)
        if part in moments.EXACT:
            return Token("CLOCK", "", 0, 0, value=half_day), 1
        return Token("PART", "", 0, 0, value=Moment(part=part, day="today" if part == "tonight" else None)), 1
    return None


def _after_clock(before: Sequence[Token]) -> bool:
    """Whether an hour stands right before, as in "at 9 last night", "9 pm last night"."""
    hour = before[-1].quantity
    led = len(before) > 1 and bool(set(before[-2].ids("link")) & _AT)
    return before[-1].kind == "CLOCK" or (before[-1].kind == "NUM" and hour is not None and hour.value <= 12 and led)


def _is_day(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> bool:
    """ "sat" and "sun" are days only in the company of a preposition, a clock time or a part of the day."""
    if lx[i].word not in ("sat", "sun", "wed", "mon"):
        return True
    if before and (before[-1].kind in ("CLOCK", "PART", "DAY") or before[-1].ids("link")):
        return True
    nxt = lx[i + 1] if i + 1 < len(lx) else None
    return nxt is None or nxt.kind in ("clock", "hour", "number") or nxt.word in moments.PARTS or nxt.word in _AT


def _is_part(lx: Sequence[Lexeme], i: int, before: Sequence[Token], lexicon: Lexicon) -> bool:
    """ "breakfast rolls" are rolls; "for breakfast", "tomorrow breakfast" and "9 in the morning" are times."""
    word = lx[i].word
    if word in moments.EXACT or word == "tonight":
        return True
    if before and before[-1].kind in ("DAY", "CLOCK", "PART"):
        return True
    if before and before[-1].text.lower() in ("this", "every", "each"):
        return True
    links = before[-1].ids("link") if before else ()
    earlier = before[-2] if len(before) > 1 else None
    if before and before[-1].kind == "FILL" and earlier is not None:
        if earlier.kind in ("DAY", "CLOCK"):
            return True  # "9:10 this morning"
        links = links or earlier.ids("link")
    return bool(set(links) & {"for", "by", "in", "before", "until", "at", "this", "from", "next", "on", "every", "to"})


def _date(lx: Sequence[Lexeme], i: int, used: int, day: int) -> tuple[Token, int] | None:
    rest = [x.word for x in lx[i + used : i + used + 2]]
    skip = 1 if rest[:1] == ["of"] else 0
    if len(rest) > skip and rest[skip] in moments.MONTHS and 1 <= day <= 31:
        month = moments.MONTHS[rest[skip]]
        return Token("DAY", "", 0, 0, value=Moment(day=f"--{month:02d}-{day:02d}")), used + skip + 1
    return None


def _day_of_month(lx: Sequence[Lexeme], i: int, day: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "sat 21st 11am", "by the 3rd", and no "2nd proof": a day leads to it, and no word that it counts follows."""
    earlier = [token for token in before[-2:] if token.kind != "FILL"]
    led = bool(earlier) and (earlier[-1].kind == "DAY" or bool(set(earlier[-1].ids("link")) & (_AT | {"on"})))
    nxt = lx[i + 2] if i + 2 < len(lx) else None
    ends = nxt is None or nxt.kind in ("clock", "hour", "number", "mark") or nxt.word in {*_AT, "in", *moments.PARTS}
    if not (led and ends and 1 <= day <= 31):
        return None
    return Token("DAY", "", 0, 0, value=Moment(day=f"---{day:02d}")), 2


def _past(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "half seven" (British: 7:30), "half past six", "quarter to nine", "ten past five"."""
    words = [x.word or x.text for x in lx[i : i + 3]]
    minutes = {"half": 30, "quarter": 15, "five": 5, "ten": 10, "twenty": 20}[words[0]]
    if len(words) > 2 and words[1] in ("past", "after", "to", "before"):
        hour = _hour(words[2])
        if hour is None or (words[1] in ("to", "before") and words[0] == "half"):
            return None
        total = hour * 60 + (minutes if words[1] in ("past", "after") else -minutes)
        return Token("CLOCK", "", 0, 0, value=Moment(minute=total % 1440)), 3
    if words[0] == "half" and len(words) > 1:
        hour = _hour(words[1])
        at = before and (bool(set(before[-1].ids("link")) & _AT) or before[-1].kind in ("DAY", "PART"))
        follows = lx[i + 2].word if i + 2 < len(lx) else ""
        ends = i + 2 >= len(lx) or follows in {*_AT, "on", *moments.WEEKDAYS, "tomorrow", "in"}
        if hour is not None and hour <= 12 and (at or i == 0) and (ends or lx[i + 2].kind == "mark"):
            return Token("CLOCK", "", 0, 0, value=Moment(minute=hour * 60 + 30)), 2
    return None


def _hour(word: str) -> int | None:
    if word.isdigit() and 0 <= int(word) <= 24:
        return int(word)
    value = numbers.ONES.get(word)
    return value if value is not None and 1 <= value <= 12 else None
