"""What a half-typed line may go on with: lines that can be said, names in the bake in hand, words of the trade."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from knowledge import Knowledge

Term = tuple[str, str]
MOST = 12
KINDS = ("ingredient", "bread", "preferment", "flour_type", "topping", "bath", "diet", "symptom", "topic")
"""The kinds of words worth completing, the likeliest first; small words are quicker typed."""
WORDS = 3
"""A name is looked for from up to this many words back: "dark rye fl" → "dark rye flour"."""


def continued(
    typed: str, lines: Sequence[str], likely: Sequence[str], vocabulary: Mapping[str, Sequence[Term]]
) -> tuple[tuple[int, str], ...]:
    """(characters replaced, replacement) for what stands before the cursor, at most `MOST`, without repeats.

    lines: whole lines, offered where they begin as typed; likely: names of the bake in hand, offered first;
    vocabulary: words and names in the form they are looked up by, with what they mean; one form of each is offered.
    """
    found: dict[str, tuple[int, str]] = {}
    for length, text in islice(_all(typed, lines, likely, vocabulary), 10 * MOST):
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
    typed: str, lines: Sequence[str], likely: Sequence[str], vocabulary: Mapping[str, Sequence[Term]]
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
        fitting = (name for name in likely if name.casefold().startswith(wanted) and name.casefold() != wanted)
        yield from ((len(piece), name) for name in fitting)
        yield from ((len(piece), phrase) for phrase in _fitting(wanted, vocabulary))


def _fitting(wanted: str, vocabulary: Mapping[str, Sequence[Term]]) -> Iterator[str]:
    """The shortest form of each thing known that begins so, by kind."""
    ranked = sorted(
        (KINDS.index(kind), len(phrase), phrase, (kind, name))
        for phrase, terms in vocabulary.items()
        if phrase.startswith(wanted)
        for kind, name in terms[:1]
        if kind in KINDS
    )
    seen = set()
    for _, _, phrase, term in ranked:
        if term not in seen and phrase != wanted:
            yield phrase
        seen.add(term)


def _words_of(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from _words_of(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _words_of(one)
