"""Columns that words take on a screen: a CJK sign or an emoji takes two, a mark over a letter none."""

from __future__ import annotations

import unicodedata

_BEHIND = "\ue000"
"""Stands behind a sign of two columns while a page is laid out, so that counting signs counts columns."""
_NONE = frozenset({"Mn", "Me", "Cf"})


def width_of(text: str) -> int:
    """Columns the text takes in one row."""
    if text.isascii():
        return len(text)
    return sum(_columns(sign) for sign in text)


def spread(text: str) -> str:
    """The text with as many signs as columns; `gathered` makes it whole again."""
    if text.isascii():
        return text
    return "".join(sign + _BEHIND * (_columns(sign) - 1) for sign in text)


def gathered(text: str) -> str:
    """What was spread as it was."""
    return text if text.isascii() else text.replace(_BEHIND, "")


def cut(text: str, columns: int) -> str:
    """The text in no more than so many columns, with "..." where it was cut."""
    if width_of(text) <= columns:
        return text
    return gathered(spread(text)[: max(1, columns - 3)]).rstrip() + "..."


def _columns(sign: str) -> int:
    if unicodedata.category(sign) in _NONE:
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1
