"""The danger words of a line: those listed, those made of two, and bare numbers, each with whether it is denied."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grammar.lexicon import Lexicon, fold

_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*|[;.!?,:()]", re.UNICODE)
_MARKS = frozenset(";.!?,:()")
LONGEST = 5
"""Words of the longest danger word."""
_BETWEEN = 2
"""Words between the two a danger word is made of."""
_BACK = 8
"""Words a denial may stand before what it denies."""
_ANSWERED = frozenset({"the", "there", "it", "its", "my", "i"})
"""Words behind a "no" that answers and denies nothing."""


@dataclass(frozen=True, slots=True)
class At:
    """A danger word found: its first and last word, whether it is denied, and whether it is made of two others."""

    first: int
    last: int
    denied: bool
    made: bool = False


def words_of(text: str) -> tuple[list[str], frozenset[int]]:
    """Folded words, and the places of those before which a mark stands."""
    words: list[str] = []
    marks: set[int] = set()
    for match in _WORD.finditer(text):
        if match.group() in _MARKS:
            marks.add(len(words))
            continue
        words.extend(fold(match.group()).split())
    return words, frozenset(marks)


def is_a(word: str, name: str, lexicon: Lexicon) -> bool:
    """Whether a word is the danger word of a name."""
    return name in lexicon.perilous.get(word, ())


def found(words: Sequence[str], marks: frozenset[int], lexicon: Lexicon) -> dict[str, list[At]]:
    """Danger words by id; the longest phrase at a place is meant, and harmless ones take their words away."""
    out: dict[str, list[At]] = {}
    held: set[int] = set()
    for first, last, names in _listed(words, lexicon):
        span = set(range(first, last + 1))
        if "harmless" in names:
            held |= span
        elif not held & span:
            at = At(first, last, _denied(words, marks, first, last, lexicon))
            for name in names:
                out.setdefault(name, []).append(at)
    for name, least, most in lexicon.perilous_numbers:
        places = [n for n, word in enumerate(words) if word.isdecimal() and least <= int(word) <= most]
        out.setdefault(name, []).extend(At(n, n, _denied(words, marks, n, n, lexicon)) for n in places)
    for name, one, other, close in lexicon.perilous_made:
        pairs = [(a, b) for a in out.get(one, ()) for b in out.get(other, ()) if a.last < b.first]
        for a, b in pairs:
            between = range(a.last + 1, b.first)
            parted = any(n in marks for n in (*between, b.first))
            small = all(is_a(words[n], "small_word", lexicon) for n in between)
            if len(between) <= _BETWEEN and not parted and (small or not close):
                out.setdefault(name, []).append(At(a.first, b.last, a.denied or b.denied, made=True))
    return {name: hits for name, hits in out.items() if hits}


def names_in(words: Sequence[str], lexicon: Lexicon) -> frozenset[str]:
    """Every listed danger word of a line."""
    return frozenset(name for _, _, names in _listed(words, lexicon) for name in names)


def _listed(words: Sequence[str], lexicon: Lexicon) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """(first, last, ids) of the danger words at each place, what is harmless first; shorter ones inside a longer one
    still count, but not those inside what is harmless."""
    spans: list[tuple[int, int, tuple[str, ...]]] = []
    for place in range(len(words)):
        for count in range(1, min(LONGEST, len(words) - place) + 1):
            names = lexicon.perilous.get(" ".join(words[place : place + count]))
            if names:
                spans.append((place, place + count - 1, names))
    yield from sorted(spans, key=lambda span: ("harmless" not in span[2], span[0], -span[1]))


def _denied(words: Sequence[str], marks: frozenset[int], first: int, last: int, lexicon: Lexicon) -> bool:
    """Whether a denial stands before, with nothing between but words it reaches across; "no mould or pink" too."""
    if words[last + 1 : last + 2] == ["free"]:
        return True
    for n in range(first - 1, max(-1, first - 1 - _BACK), -1):
        if n + 1 in marks:
            return False
        if is_a(words[n], "denial", lexicon):
            return not (words[n] == "no" and words[n + 1] in _ANSWERED)
        if not (is_a(words[n], "reached_across", lexicon) or _joined(words, n)):
            return False
    return False


def _joined(words: Sequence[str], n: int) -> bool:
    """Whether a word is one of a list: "no mould or pink streaks"."""
    return any(words[k] in ("or", "nor") for k in (n - 1, n + 1) if 0 <= k < len(words))
