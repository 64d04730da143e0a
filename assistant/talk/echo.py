"""What was understood, completed: every amount a line said and a reading took stands in `read_as`.

One that was taken for the wrong thing is then seen at once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from grammar.frames import Bound
from grammar.phrases import Phrase

_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_NEAR = 24
"""Signs that may lie between an amount and the word it was taken with, for both to be told as typed."""


def echoed(read_as: str, bound: Bound | None, unread: Sequence[str]) -> str:
    """`read_as` with the amounts that it leaves out added as typed, each with the word it was taken for."""
    if bound is None:
        return read_as
    told = _figures(read_as)
    missing = [
        _as_typed(phrase, bound)
        for phrase in bound.phrases
        if phrase.kind == "amount" and phrase.text not in unread and not _told(phrase, told)
    ]
    if not missing:
        return read_as
    return "; ".join(part for part in (read_as, "said: " + ", ".join(dict.fromkeys(missing))) if part)


def _told(phrase: Phrase, told: frozenset[float]) -> bool:
    figures = _figures(phrase.text)
    return all(one in told for one in figures)


def _figures(text: str) -> frozenset[float]:
    return frozenset(float(found.replace(",", ".")) for found in _numbers(text))


def _numbers(text: str) -> Iterator[str]:
    return (found.group() for found in _NUMBER.finditer(text))


def _as_typed(phrase: Phrase, bound: Bound) -> str:
    """The amount as typed, with its word where that stands near it."""
    start, end = phrase.tokens[0].start, phrase.tokens[-1].end
    label = next((hit.label for hit in bound.hits if hit.amount is phrase and hit.label is not None), None)
    if label is not None:
        first, last = label.tokens[0].start, label.tokens[-1].end
        if max(first - end, start - last) <= _NEAR:
            start, end = min(start, first), max(end, last)
    return " ".join(bound.text[start:end].split())
