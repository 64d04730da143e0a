"""Turns of speech over the words of a line: "<hand:keep> [it] as NAME". Words come from the lexicon's asides.

A template is a regular expression in which `<kind:id>` stands for every way of saying that word; it is matched on the
folded line, and a group gives back the words as typed.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from grammar.lexicon import Lexicon

_SLOT = re.compile(r"<(?P<kind>\w+):(?P<id>\w+)>")
_SIGNS = " .,;:!?\"'()-"


@dataclass(frozen=True, slots=True)
class Spoken:
    """A line as it is matched: folded, with the place in the line as typed of each folded character."""

    text: str
    folded: str
    places: tuple[int, ...]

    def typed(self, start: int, end: int) -> str:
        """The line as typed behind a stretch of the folded one, without signs around it."""
        if start >= end:
            return ""
        begin = self.places[start]
        stop = self.places[end] if end < len(self.places) else len(self.text)
        return self.text[begin:stop].strip(_SIGNS)

    def group(self, found: re.Match[str], name: str) -> str:
        """The words of a group as typed; "" where it stands for nothing."""
        return self.typed(*found.span(name)) if found[name] is not None else ""


def spoken(text: str, lexicon: Lexicon | None = None) -> Spoken:
    """The line in lower case, without accents, apostrophes and closing signs; gaps and hyphens are one space.

    With a lexicon, slips that are known by heart are the words they stand for.
    """
    said = _folded(text)
    return said if lexicon is None else _respelt(said, lexicon)


_WORD = re.compile(r"[^\W\d_]+")


def _respelt(said: Spoken, lexicon: Lexicon) -> Spoken:
    """The words that are known slips replaced; a word's new letters all stand where it began."""
    folded: list[str] = []
    places: list[int] = []
    at = 0
    for word in _WORD.finditer(said.folded):
        meant = lexicon.slips.get(word.group())
        if meant is None:
            continue
        folded.append(said.folded[at : word.start()] + meant)
        places.extend(said.places[at : word.start()])
        places.extend([said.places[word.start()]] * len(meant))
        at = word.end()
    if not at:
        return said
    return Spoken(said.text, "".join(folded) + said.folded[at:], (*places, *said.places[at:]))


@lru_cache(maxsize=4)
def _folded(text: str) -> Spoken:
    out: list[str] = []
    places: list[int] = []
    for place, sign in enumerate(text):
        if sign in "'’‘`´":
            continue
        plain = [c for c in unicodedata.normalize("NFKD", sign).lower() if not unicodedata.combining(c)]
        for one in plain:
            gap = one.isspace() or one in "-_–—"
            if gap and (not out or out[-1] == " "):
                continue
            out.append(" " if gap else one)
            places.append(place)
    while out and out[-1] in " .!?,;:":
        out.pop()
        places.pop()
    return Spoken(text, "".join(out), tuple(places))


def matched(template: str, said: Spoken, lexicon: Lexicon) -> re.Match[str] | None:
    """The template on the whole line; None where it does not fit."""
    return _compiled(template, _Words(lexicon)).fullmatch(said.folded)


def found(template: str, said: Spoken, lexicon: Lexicon) -> re.Match[str] | None:
    """The template anywhere in the line, at the edges of words."""
    return _compiled(template, _Words(lexicon)).search(said.folded)


class _Words:
    """A lexicon as a key: one is as good as another of the same identity."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon = lexicon

    def __hash__(self) -> int:
        return id(self.lexicon)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Words) and other.lexicon is self.lexicon


@lru_cache(maxsize=512)
def _compiled(template: str, words: _Words) -> re.Pattern[str]:
    filled = _SLOT.sub(lambda slot: _ways(slot["kind"], slot["id"], words), template)
    return re.compile(filled)


def _ways(kind: str, name: str, words: _Words) -> str:
    """Every way of saying a word as one alternation, the longest first."""
    ways = sorted((p for p, terms in words.lexicon.asides.items() if (kind, name) in terms), key=lambda p: -len(p))
    if not ways:
        raise KeyError(f"no words of {kind}:{name}")
    return rf"\b(?:{'|'.join(re.escape(way) for way in ways)})\b"
