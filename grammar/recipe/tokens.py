"""A recipe line cut into numbers, words and marks, and the numbers people write read from them."""

from __future__ import annotations

import re
from dataclasses import dataclass

_TOKEN = re.compile(r"(?P<number>\d+(?:[.,]\d+)*|\.\d+)|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)|(?P<mark>\S)")
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?$|\d{1,3}(?:\.000)+$")

SPELLED = {
    "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "five": 5.0, "six": 6.0, "seven": 7.0, "eight": 8.0,
    "nine": 9.0, "ten": 10.0, "eleven": 11.0, "twelve": 12.0, "dozen": 12.0, "couple": 2.0,
}  # fmt: skip
SPELLED_FRACTIONS = {
    "half": 1 / 2, "third": 1 / 3, "thirds": 1 / 3, "quarter": 1 / 4, "quarters": 1 / 4, "fourth": 1 / 4,
    "fourths": 1 / 4, "eighth": 1 / 8, "eighths": 1 / 8,
}  # fmt: skip
_DENOMINATORS = {2, 3, 4, 5, 6, 8, 10, 12, 16, 32}


@dataclass(frozen=True, slots=True)
class Piece:
    """A number, word or mark and its place in the line; `glued` when no space stands before it."""

    kind: str
    text: str
    start: int
    end: int
    glued: bool

    def says(self, *words: str) -> bool:
        return self.text.lower() in words


@dataclass(frozen=True, slots=True)
class Number:
    """A number and the piece after it. article: only "a" or "an" stood there; plain: digits and nothing else."""

    value: float
    next: int
    article: bool = False
    fraction: bool = False


def pieces(text: str) -> tuple[Piece, ...]:
    """The pieces of a line, in order."""
    found: list[Piece] = []
    end = -1
    for match in _TOKEN.finditer(text):
        found.append(Piece(match.lastgroup or "", match.group(), match.start(), match.end(), match.start() == end))
        end = match.end()
    return tuple(found)


def number_at(line: tuple[Piece, ...], at: int) -> Number | None:
    """The number that begins at a piece: 2, 2.5, 1,000, 1/2, 1 1/2, 1-1/2, 1 & 1/4, 3 + 1/3, half, one and a half."""
    if at >= len(line):
        return None
    if line[at].kind == "word":
        return _spelled(line, at)
    if line[at].kind != "number":
        return None
    fraction = _fraction(line, at)
    if fraction is not None:
        return fraction
    whole = _plain(line[at].text)
    if whole is None:
        return None
    if at + 1 < len(line) and line[at + 1].says("dozen"):
        return Number(whole * 12, at + 2)
    rest = _fraction_after(line, at + 1) if float(whole).is_integer() and whole < 1000 else None
    return Number(whole + rest.value, rest.next) if rest else Number(whole, at + 1)


def _plain(text: str) -> float | None:
    """A number in digits; None for "00" and other codes, and for more points than a number has."""
    if len(text) > 25 or len(text.partition(".")[0]) > 12 or (len(text) > 1 and text[0] == "0" and text[1].isdigit()):
        return None
    if _THOUSANDS.match(text) and not text.startswith("0,"):  # "0,125" has a decimal comma
        return float(text.replace(",", "").replace(".000", "000") if text.count(".") != 1 or text.endswith(".000")
                     else text.replace(",", ""))  # fmt: skip
    if text.count(",") == 1 and "." not in text:
        text = text.replace(",", ".")
    try:
        return float(text)
    except ValueError:
        return None


def _fraction(line: tuple[Piece, ...], at: int) -> Number | None:
    """`3/4` at a piece; "11/2", which a lost space made of "1 1/2", is read as that."""
    if at + 2 >= len(line) or line[at].kind != "number" or line[at + 1].text != "/" or line[at + 2].kind != "number":
        return None
    above, below = line[at].text, line[at + 2].text
    if not (above.isdigit() and below.isdigit()) or len(above) > 3 or int(below) not in _DENOMINATORS:
        return None
    if int(above) < int(below):
        return Number(int(above) / int(below), at + 3, fraction=True)
    if len(above) > 1 and 0 < int(above[-1]) < int(below) <= 8:
        return Number(int(above[:-1]) + int(above[-1]) / int(below), at + 3)
    return Number(int(above) / int(below), at + 3, fraction=True) if len(above) == 1 else None


def _fraction_after(line: tuple[Piece, ...], at: int) -> Number | None:
    """The fraction that completes a whole number: right after it, or after "and", "&", "+" or a close hyphen."""
    if at >= len(line):
        return None
    proper = _fraction(line, at)
    if proper is not None and proper.value < 1:
        return proper
    joined = line[at].says("and", "&", "+", "plus") or (
        line[at].text == "-" and line[at].glued and at + 1 < len(line) and line[at + 1].glued
    )
    if not joined:
        return None
    proper = _fraction(line, at + 1)
    if proper is not None and proper.value < 1:
        return proper
    return _half_words(line, at + 1)


def part_joined(line: tuple[Piece, ...], at: int) -> Number | None:
    """The part of one more that is joined on behind a measure: "cup and a quarter", "2 tsp & 1/2"."""
    return _fraction_after(line, at) if at < len(line) and line[at].says("and", "&", "+", "plus") else None


def _half_words(line: tuple[Piece, ...], at: int) -> Number | None:
    """ "a half", "three quarters", "half" after a whole number."""
    many = {"a": 1.0, "one": 1.0, "two": 2.0, "three": 3.0}.get(line[at].text.lower()) if at < len(line) else None
    at += many is not None
    part = SPELLED_FRACTIONS.get(line[at].text.lower(), 1.0) * (many or 1.0) if at < len(line) else 1.0
    return Number(part, at + 1, fraction=True) if part < 1 else None


def _spelled(line: tuple[Piece, ...], at: int) -> Number | None:
    """A number in words: two, a dozen, half a, three quarters of a, one and a half."""
    word = line[at].text.lower()
    if word in SPELLED_FRACTIONS and word not in ("thirds", "quarters", "fourths", "eighths"):
        after = at + 1
        if after < len(line) and line[after].says("of"):
            after += 1
        if after < len(line) and line[after].says("a", "an"):
            after += 1
            if after < len(line) and line[after].says("dozen"):
                return Number(12 * SPELLED_FRACTIONS[word], after + 1)
        return Number(SPELLED_FRACTIONS[word], after, fraction=True)
    if word in ("a", "an"):
        inner = _spelled(line, at + 1) if at + 1 < len(line) and line[at + 1].kind == "word" else None
        if inner is not None and not inner.article:
            after = inner.next
            if after < len(line) and line[at + 1].says("couple") and line[after].says("of"):
                after += 1
            return Number(inner.value, after)
        return Number(1.0, at + 1, article=True)
    if word not in SPELLED:
        return None
    value, after = SPELLED[word], at + 1
    if after < len(line) and line[after].text == "-":
        after += 1
    if after < len(line) and line[after].text.lower() in SPELLED_FRACTIONS:
        value, after = value * SPELLED_FRACTIONS[line[after].text.lower()], after + 1
        if after < len(line) and line[after].says("of"):
            after += 1
        if after < len(line) and line[after].says("a", "an"):
            after += 1
        return Number(value, after, fraction=True)
    after = at + 1
    if after < len(line) and line[after].says("and", "&"):
        rest = _half_words(line, after + 1)
        if rest is not None:
            return Number(value + rest.value, rest.next)
    return Number(value, after)
