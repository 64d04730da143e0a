"""Words that say a day, a date or a part of the day, wherever they stand in a line."""

from __future__ import annotations

from collections.abc import Sequence

from grammar import days, number_words
from grammar.lexemes import ORDINAL, Lexeme
from grammar.moments import EXACT, PART_WORDS, PARTS, Moment
from grammar.tokens import Token

DAY_STARTS = frozenset({*days.WEEKDAYS, *days.RELATIVE, *PART_WORDS, "this", "next", "christmas"})
"""Words a day or a part of it begins with."""
_AMBIGUOUS = frozenset({"sat", "sun", "wed", "mon", "may", "mar"})
_TIMED = ("breakfast", "brekkie", "lunch", "dinner", "supper", "tea", "brunch")
"""Meals that may have a "time" behind them."""
_AT = frozenset({"at", "by", "until", "about", "before", "after", "from", "for", "to"})
_PART_LINKS = frozenset({"for", "by", "in", "before", "until", "at", "this", "from", "next", "on", "every", "to"})


def day_at(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """The day, date or part of the day that begins at lexeme i, with the lexemes it takes; None where none does."""
    if lx[i].kind == "number":
        return _numbered(lx, i, before) or _in_figures(lx, i, before)
    if lx[i].kind != "word":
        return None
    return _relative(lx, i, before) or _month_first(lx, i) or _weekday(lx, i, before) or _part(lx, i, before)


def _word(lx: Sequence[Lexeme], i: int) -> str:
    return (lx[i].word or lx[i].text) if i < len(lx) else ""


def _day(day: str, used: int, weeks: int = 0, part: str | None = None) -> tuple[Token, int]:
    return Token("DAY", "", 0, 0, value=Moment(day=day, weeks=weeks, part=part)), used


# Dates in figures.


def _ordinal(lx: Sequence[Lexeme], i: int) -> tuple[int, int] | None:
    """A day of the month in figures and the lexemes it takes: "21", "21st"; "32nd" is told to be none later."""
    text = _word(lx, i)
    suffix = i + 1 < len(lx) and lx[i + 1].word in ORDINAL and lx[i + 1].glued
    if not text.isdigit() or len(text) > 2 or not 1 <= int(text) <= (99 if suffix else 31):
        return None
    return int(text), 2 if suffix else 1


def _year(lx: Sequence[Lexeme], i: int) -> tuple[int, int] | None:
    """A year behind a date, a comma between or not, and the lexemes it takes."""
    skip = 1 if _word(lx, i) == "," else 0
    text = _word(lx, i + skip)
    return (int(text), skip + 1) if len(text) == 4 and text.isdigit() and 1900 <= int(text) < 2200 else None


def _dated(lx: Sequence[Lexeme], month: int, number: int, i: int, used: int) -> tuple[Token, int]:
    year = _year(lx, i + used)
    if year is not None:
        return _day(f"{year[0]:04d}-{month:02d}-{number:02d}", used + year[1])
    return _day(f"--{month:02d}-{number:02d}", used)


def _in_figures(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "29/3": a day and a month where a small word leads to it and only one way round makes a date."""
    first, _, second = lx[i].text.replace(" ", "").partition("/")
    led = bool(before) and (before[-1].kind == "DAY" or bool(set(before[-1].ids("link")) & (_AT | {"on"})))
    if not (led and first.isdigit() and second.isdigit() and _ends(lx, i + 1)):
        return None
    day, month = sorted((int(first), int(second)), reverse=True)
    return _day(f"--{month:02d}-{day:02d}", 1) if 12 < day <= 31 and 1 <= month <= 12 else None


def _numbered(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "21 March", "21st of March 2026", "the 21st"."""
    said = _ordinal(lx, i)
    if said is None:
        return None
    number, used = said
    at = i + used + (1 if _word(lx, i + used) == "of" else 0)
    month = days.MONTHS.get(_word(lx, at))
    glued = used == 1 and at < len(lx) and lx[at].glued
    if month is not None and not glued and (used == 2 or _word(lx, at) != "may" or _ends(lx, at + 1)):
        return _dated(lx, month, number, i, at + 1 - i)
    return _of_the_month(lx, i, number, before) if used == 2 else None


def _ends(lx: Sequence[Lexeme], i: int) -> bool:
    after = _word(lx, i)
    return i >= len(lx) or lx[i].kind in ("clock", "hour", "number", "mark") or after in {*_AT, "in", *PART_WORDS}


def _of_the_month(lx: Sequence[Lexeme], i: int, number: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "sat 21st 11am", "by the 3rd", and no "2nd proof": a day leads to it, and no word that it counts follows."""
    earlier = [token for token in before[-2:] if token.kind != "FILL"]
    led = bool(earlier) and (earlier[-1].kind == "DAY" or bool(set(earlier[-1].ids("link")) & (_AT | {"on"})))
    return _day(f"---{number:02d}", 2) if led and _ends(lx, i + 2) else None


def _month_first(lx: Sequence[Lexeme], i: int) -> tuple[Token, int] | None:
    """ "March 21st", "march 21"; "may 20 rolls" is no date."""
    month = days.MONTHS.get(lx[i].word)
    the = 1 if _word(lx, i + 1) == "the" else 0
    said = _ordinal(lx, i + 1 + the)
    if month is None or said is None or (lx[i].word in _AMBIGUOUS and said[1] == 1):
        return None
    used = 1 + the + said[1]
    return _dated(lx, month, said[0], i, used) if said[1] == 2 or _ends(lx, i + used) else None


# Days by name.


def _relative(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "tomorrow", "the day after tomorrow", "last night"."""
    head = lx[i].word
    if head in days.RELATIVE:
        return _day(days.NAMES[days.RELATIVE[head]], 1)
    start = i + 1 if head == "the" else i
    if _word(lx, start) == "day" and _word(lx, start + 1) in ("after", "before"):
        base = _word(lx, start + 2)
        if (_word(lx, start + 1), base) in (("after", "tomorrow"), ("before", "yesterday")):
            return _day("+2" if base == "tomorrow" else "+-2", start + 3 - i)
    if head == "last" and _word(lx, i + 1) == "night" and before and _after_hour(before):
        return _day("yesterday", 2, part="night")
    return None


def _after_hour(before: Sequence[Token]) -> bool:
    """Whether an hour stands right before, as in "at 9 last night", "9 pm last night"."""
    last = before[-1]
    led = len(before) > 1 and bool(set(before[-2].ids("link")) & _AT)
    on_dial = last.kind == "NUM" and last.quantity is not None and last.quantity.value <= 12
    return last.kind == "CLOCK" or (on_dial and led)


def _weekday(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "sunday", "next sunday", "sunday week", "a week on sunday"; "sat" and "sun" only in fitting company."""
    head = lx[i].word
    plural = head[:-1] if head.endswith("s") and len(head) > 4 else head
    if plural not in days.WEEKDAYS or not (plural != head or _is_day(lx, i, before)):
        return None
    number = str(days.WEEKDAYS[plural])
    weeks = 1 if plural == head and before and "next" in before[-1].ids("link") else 0
    behind = [token.text.lower() for token in before[-3:]]
    if behind[-2:] == ["week", "on"]:
        weeks = 1
    if _word(lx, i + 1) in ("week", "next") and _ends(lx, i + 2):
        return _day(number, 2, weeks=1)
    return _day(number, 1, weeks)


def _is_day(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> bool:
    """ "sat" and "sun" are days only beside a preposition, a clock time or a part of the day."""
    if lx[i].word not in _AMBIGUOUS:
        return True
    if before and (before[-1].kind in ("CLOCK", "PART", "DAY") or before[-1].ids("link")):
        return True
    after = _word(lx, i + 1)
    if after == "at" and _word(lx, i + 2).isdigit() and int(_word(lx, i + 2)) > 12:
        return False  # no hour of the dial, so what it stood at
    return i + 1 >= len(lx) or lx[i + 1].kind in ("clock", "hour", "number") or after in PART_WORDS or after in _AT


# Parts of the day.


def _part(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "morning", "tea time", "this evening" behind an hour, "noon"; "breakfast rolls" are rolls."""
    head, start = lx[i].word, i
    after_hour = bool(before) and _after_hour(before)
    if head in ("this", "at") and _word(lx, i + 1) in PART_WORDS and (after_hour or _hour_follows(lx, i + 2)):
        start = i + 1
        if head == "at" and PART_WORDS[_word(lx, start)] != "night":
            return None
    word = _word(lx, start)
    if word not in PART_WORDS:
        return None
    part, used = PART_WORDS[word], start + 1 - i
    meal = word in _TIMED and _word(lx, start + 1) == "time"
    if not (start > i or meal or _is_part(lx, start, before)):
        return None
    if part in EXACT:
        hour = PARTS[part][0]
        exact = Moment(minute=hour * 60, half="am" if part == "midnight" else "pm", part=part)
        return Token("CLOCK", "", 0, 0, value=exact), used
    today = part == "tonight" or (head == "this" and start > i)
    return Token("PART", "", 0, 0, value=Moment(part=part, day="today" if today else None)), used + meal


def _hour_follows(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether "at half seven", "by 8" comes next."""
    if _word(lx, i) not in ("at", "by", "for", "around", "about"):
        return False
    word = _word(lx, i + 1)
    on_dial = (word.isdigit() and int(word) <= 12) or word in number_words.ONES
    return on_dial or word in ("half", "quarter", "ten", "twenty", "a") or lx[min(i + 1, len(lx) - 1)].kind != "word"


def _is_part(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> bool:
    """ "breakfast rolls" are rolls; "for breakfast", "tomorrow breakfast" and "9 in the morning" are times."""
    word = lx[i].word
    if word in EXACT or PART_WORDS[word] == "tonight" or _hour_follows(lx, i + 1):
        return True
    links = set(before[-1].ids("link")) if before else set()
    earlier = before[-2] if len(before) > 1 else None
    if word == "tea":
        ends = i + 1 >= len(lx) or lx[i + 1].kind == "mark" or _word(lx, i + 1) in DAY_STARTS
        dated = bool(before) and before[-1].kind == "DAY"
        return ends and (dated or bool(links & {"for", "by", "before", "until", "at"}))
    if before and before[-1].kind in ("DAY", "CLOCK", "PART"):
        return True
    if before and before[-1].text.lower() in ("this", "every", "each"):
        return True
    if before and before[-1].kind == "FILL" and earlier is not None:
        if earlier.kind in ("DAY", "CLOCK"):
            return True  # "9:10 this morning"
        links = links or set(earlier.ids("link"))
    return bool(links & _PART_LINKS)
