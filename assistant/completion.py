"""What a half-typed line may go on with: lines that can be said, names in the bake in hand, words of the trade."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from knowledge import Knowledge

MOST = 30
WORDS = 3
"""A name is looked for from up to this many words back: "dark rye fl" → "dark rye flour"."""


def continued(
    typed: str, lines: Sequence[str], likely: Sequence[str], vocabulary: Iterable[str]
) -> tuple[tuple[int, str], ...]:
    """(characters replaced, replacement) for what stands before the cursor, at most `MOST`, without repeats.

    lines: whole lines, offered where they begin as typed; likely: names of the bake in hand, offered first;
    vocabulary: words and names in the form they are looked up by.
    """
    found: dict[str, tuple[int, str]] = {}
    for length, text in islice(_all(typed, lines, likely, tuple(vocabulary)), 10 * MOST):
        found.setdefault(typed[: len(typed) - length] + text, (length, text))
    return tuple(found.values())[:MOST]


def names_in(said: Any, kb: Knowledge) -> tuple[str, ...]:
    """The names of the ingredients and the bread in a request kept as plain JSON, in its order."""
    names: dict[str, None] = {}
    for word in _words_of(said):
        for known in (kb.ingredients, kb.breads):
            if word in known:
                names[known[word].name.lower()] = None
    return tuple(names)


def _all(
    typed: str, lines: Sequence[str], likely: Sequence[str], vocabulary: tuple[str, ...]
) -> Iterator[tuple[int, str]]:
    start = typed.casefold()
    for line in lines:
        if line.casefold().startswith(start) and line.casefold() != start:
            yield len(typed), line
    tail = typed.split(" ")
    for count in range(min(WORDS, len(tail)), 0, -1):
        piece = " ".join(tail[-count:])
        if not piece.strip() or piece != piece.strip():
            continue
        wanted = piece.casefold()
        yield from ((len(piece), name) for name in likely if name.startswith(wanted) and name != wanted)
        fitting = (phrase for phrase in vocabulary if phrase.startswith(wanted) and phrase != wanted)
        yield from ((len(piece), phrase) for phrase in sorted(fitting, key=lambda phrase: (len(phrase), phrase)))


def _words_of(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from _words_of(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _words_of(one)
