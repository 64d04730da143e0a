"""Words and turns of speech of a complaint, and the small words between them."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.lexicon import Term


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the line: folded (a slip repaired), its place, and whether a mark stands before it."""

    text: str
    start: int
    end: int
    after_mark: bool = False
    typed: str = ""
    amount: int = -1  # which amount of the line it is part of
    key: str = ""  # the word it is alike to in a turn of speech ("stinks": "smells")


@dataclass(frozen=True, slots=True)
class Mention:
    """A turn of speech found: its meanings, the words it covers (from, to), whether it is denied."""

    terms: tuple[Term, ...]
    first: int
    last: int
    denied: bool = False

    def ids(self, kind: str) -> tuple[str, ...]:
        return tuple(i for k, i in self.terms if k == kind)


CueAt = tuple[int, int, str, str]
"""(first, last word, kind, name) of a steering word."""
