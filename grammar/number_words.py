"""Numbers as people say them: number words, dozens, parts of a whole, decimals word by word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

ONES = {
    "zero": 0,
    "nought": 0,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "seventeen": 17,
    "eighteen": 18,
    "nineteen": 19,
}
TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fourty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
DOZEN = {"dozen", "dozens", "doz", "dz", "dzn"}
PARTS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "thirds": 3,
    "quarter": 4,
    "quarters": 4,
    "fifth": 5,
    "fifths": 5,
    "sixth": 6,
    "sixths": 6,
    "eighth": 8,
    "eighths": 8,
    "tenth": 10,
    "tenths": 10,
}
_POINT = frozenset({"point"})
_DIGITS = {word: str(value) for word, value in ONES.items() if value < 10} | {"oh": "0", "o": "0"}
"""Words behind a spoken decimal point, said one by one."""


@dataclass(frozen=True, slots=True)
class Said:
    """A number said in words: its value, how many words it took, and whether it is a part of something ("a third")."""

    value: float
    words: int
    fraction: bool = False


def spelled(words: Sequence[str]) -> Said | None:
    """The number at the front of `words` (folded), if there is one.

    "eighteen", "twenty five", "a hundred and twenty", "two and a half", "half a dozen", "a dozen and a half",
    "two thirds", "a couple", "two point two five", "point five". A lone "a" is no number.
    """
    count = (0.0, 0) if words and words[0] in _POINT else _whole(words)
    if count is None:
        return _fraction(words)
    value, used = count
    decimals = decimals_said(words[used:])
    if decimals is not None:
        return Said(value + decimals.value, used + decimals.words)
    if not used and words and words[0] in _POINT:
        return None
    if used < len(words) and words[used] in DOZEN:
        return _dozens(value, words, used)
    tail = and_part(words[used:])
    if tail:
        part, more = tail
        used += more
        if used < len(words) and words[used] in DOZEN:
            return Said((value + part) * 12, used + 1)
        return Said(value + part, used)
    share = parts_said(value, words[used : used + 1])
    return Said(share.value, used + 1, fraction=True) if share is not None else Said(value, used)


def hundreds_said(words: Sequence[str]) -> Said | None:
    """A number of three figures said without its "hundred": "two thirty", "four twenty five", "one eighty"."""
    first = ONES.get(words[0], 0) if words else 0
    if not 1 <= first <= 9 or len(words) < 2 or words[1] not in TENS:
        return None
    rest = _whole(words[1:3])
    return Said(100 * first + rest[0], 1 + rest[1]) if rest is not None else None


def parts_said(value: float, words: Sequence[str]) -> Said | None:
    """So many parts of a whole, behind their number: "three quarters", "2 thirds"."""
    bottom = PARTS.get(words[0], 0) if words and words[0] != "half" else 0
    return Said(value / bottom, 1, fraction=True) if 0 < value < bottom and value == int(value) else None


def decimals_said(words: Sequence[str]) -> Said | None:
    """What stands behind the point of a decimal that is spoken: "point two five", "point twenty five", "point 5"."""
    if len(words) < 2 or words[0] not in _POINT:
        return None
    if words[1].isdigit():
        return Said(float("0." + words[1]), 2)
    if words[1] not in _DIGITS:
        tens = _whole(words[1:3])
        return Said(tens[0] / 100, 1 + tens[1]) if tens and 10 <= tens[0] < 100 else None
    said = ""
    for word in words[1:7]:
        if word not in _DIGITS:
            break
        said += _DIGITS[word]
    return Said(float("0." + said), 1 + len(said))


_EACH_OF = {"other": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5}


def one_of_many(words: Sequence[str]) -> Said | None:
    """ "1 in 3 with", "one part in four", "two parts out of ten", "every other one", "every third": the share of the
    whole that is.

    "1 in 3 tins" is none: what is counted may not follow.
    """
    if len(words) > 1 and words[0] == "every" and words[1] in _EACH_OF:
        return Said(1 / _EACH_OF[words[1]], 3 if words[2:3] == ["one"] else 2, fraction=True)
    parts = words[1:2] in (["part"], ["parts"])
    joined = list(words[1 + parts : 3 + parts])
    at = 3 + parts if joined == ["out", "of"] else 2 + parts if joined[:1] == ["in"] else len(words)
    if at >= len(words):
        return None
    top, many = (float(word) if word.isdigit() else float(ONES.get(word, 0)) for word in (words[0], words[at]))
    behind = tuple(words[at + 1 : at + 2])
    ends = parts or not behind or behind[0] in ("with", "of", "gets", "get", "has", "plain", "is")
    if not 2 <= many <= 12 or not 0 < top < many or (top > 1 and not parts) or not ends:
        return None
    return Said(top / many, at + 1, fraction=True)


def _dozens(value: float, words: Sequence[str], used: int) -> Said:
    used += 1
    tail = and_part(words[used:])
    if tail:
        return Said((value + tail[0]) * 12, used + tail[1])
    return Said(value * 12, used)


def dozens(value: float, words: Sequence[str]) -> Said | None:
    """The same for a number in digits before the words ("2 dozen", "2 1/2 doz")."""
    return _dozens(value, words, 0) if words and words[0] in DOZEN else None


def and_part(words: Sequence[str]) -> tuple[float, int] | None:
    """ "and a half", "and three quarters": the part and its length."""
    if len(words) >= 3 and words[0] == "and" and words[1] in ("a", "one") and words[2] in PARTS:
        return 1 / PARTS[words[2]], 3
    if len(words) >= 2 and words[0] == "and" and words[1] == "half":
        return 0.5, 2
    if len(words) >= 3 and words[0] == "and" and words[1] in ("two", "three") and words[2] in PARTS:
        return ONES[words[1]] / PARTS[words[2]], 3
    return None


def _fraction(words: Sequence[str]) -> Said | None:
    at = 1 if words and words[0] in ("a", "an", "one") and len(words) > 1 else 0
    if len(words) <= at or words[at] not in PARTS:
        return None
    value = 1 / PARTS[words[at]]
    rest = words[at + 1 :]
    if rest and rest[0] in DOZEN:
        return Said(value * 12, at + 2)
    if len(rest) > 1 and rest[0] in ("a", "of") and rest[1] in DOZEN:
        return Said(value * 12, at + 3)
    return Said(value, at + 1, fraction=True)


def _whole(words: Sequence[str]) -> tuple[float, int] | None:
    """A whole number in words and its length."""
    if not words:
        return None
    first = words[0]
    if first in ("a", "an") and len(words) > 1:
        if words[1] in DOZEN:
            return 1, 1
        if words[1] == "hundred":
            return _hundreds(1, words, 1)
        if words[1] == "thousand":
            return 1000, 2
        if words[1] == "couple":
            return 2, 3 if words[2:3] == ["of"] else 2
        return None
    if first in DOZEN:
        return 1, 0
    if first == "couple":
        return 2, 2 if list(words[1:2]) == ["of"] else 1
    if first == "hundred":
        return _hundreds(1, words, 0)
    if first in ONES:
        value, used = float(ONES[first]), 1
    elif first in TENS:
        value, used = float(TENS[first]), 1
        if len(words) > 1 and 0 < ONES.get(words[1], 0) < 10:
            value, used = value + ONES[words[1]], 2
    else:
        return None
    if used < len(words) and words[used] == "hundred":
        return _hundreds(value, words, used)
    if used < len(words) and words[used] == "thousand":
        return value * 1000, used + 1
    return value, used


def _hundreds(value: float, words: Sequence[str], at: int) -> tuple[float, int]:
    value, used = value * 100, at + 1
    tail = words[used + 1 :] if words[used : used + 1] == ["and"] else words[used:]
    more = _whole(tail) if tail and (tail[0] in ONES or tail[0] in TENS) else None
    if more and more[0] < 100:
        value, used = value + more[0], used + more[1] + (len(words[used:]) - len(tail))
    return value, used
