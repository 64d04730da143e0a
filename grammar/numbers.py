"""Numbers as people write them: digits, fractions, thousands."""

from __future__ import annotations

import re

VULGAR = {
    "½": 1 / 2,
    "⅓": 1 / 3,
    "⅔": 2 / 3,
    "¼": 1 / 4,
    "¾": 3 / 4,
    "⅕": 1 / 5,
    "⅖": 2 / 5,
    "⅗": 3 / 5,
    "⅘": 4 / 5,
    "⅙": 1 / 6,
    "⅚": 5 / 6,
    "⅛": 1 / 8,
    "⅜": 3 / 8,
    "⅝": 5 / 8,
    "⅞": 7 / 8,
}
_V = "".join(VULGAR)
NUMBER = re.compile(
    rf"(?P<mixed>\d+(?:\s+|-|\s*\+\s*|\s+and\s+)(?P<top>\d+)\s?/\s?(?P<bottom>\d+)(?![\d/]))"
    rf"|(?P<vulgar>(?:\d+\s*(?:\+\s*|and\s+)?)?[{_V}])"
    rf"|(?P<slash>(?<!\d/)\d+\s?/\s?[1-9]\d*(?![\d/]|\.\d))"
    rf"|(?P<thousands>[1-9]\d{{0,2}}(?:,\d{{3}})+(?:\.\d+)?(?![\d,]))"
    rf"|(?P<decimal>(?:\d+[.,]|(?<![^\W\d_])(?<!\.)\.)\d+(?![.,]?\d))"  # no comma, dot or letter before a bare ".5"
    rf"|(?P<plain>\d+)"
)


def digits(text: str) -> float:
    """The value of a match of NUMBER. A comma before exactly three digits is a thousands mark, any other a decimal
    one."""
    match = NUMBER.fullmatch(text)
    if match is None:
        raise ValueError(f"{text!r} is no number")
    if match["mixed"]:
        whole = re.match(r"\d+", text)
        assert whole is not None
        bottom = int(match["bottom"]) or 1
        return int(whole.group()) + int(match["top"]) / bottom
    if match["vulgar"]:
        head = re.match(r"\d+", text)
        return (int(head.group()) if head else 0) + VULGAR[text[-1]]
    if match["slash"]:
        top, bottom_text = text.split("/")
        return int(top) / int(bottom_text)
    if match["thousands"]:
        return float(text.replace(",", ""))
    return float(text.replace(",", "."))


