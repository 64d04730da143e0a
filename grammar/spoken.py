"""Turns of speech over the words of a line: "<hand:keep> [it] as NAME". Words come from the lexicon's asides.

A template is a regular expression in which `<kind:id>` stands for every way of saying that word; it is matched on the
folded line, and a group gives back the words as typed.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeAlias

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


_IS = re.compile(r"['’]s\b")


def spelled_out(text: str) -> str:
    """The line with "rye's" as "rye is": whose it is, or what it is, does not matter to a turn of speech."""
    return _IS.sub(" is", text)


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


@lru_cache(maxsize=16)
def _folded(text: str) -> Spoken:
    out: list[str] = []
    places: list[int] = []
    for place, sign in enumerate(text):
        if sign in "'’‘`´":
            continue
        for one in sign.lower() if sign.isascii() else _without_accents(sign):
            gap = one.isspace() or one in "-_–—"
            if gap and (not out or out[-1] == " "):
                continue
            out.append(" " if gap else one)
            places.append(place)
    while out and out[-1] in " .!?,;:":
        out.pop()
        places.pop()
    return Spoken(text, "".join(out), tuple(places))


def _without_accents(sign: str) -> list[str]:
    return [one for one in unicodedata.normalize("NFKD", sign).lower() if not unicodedata.combining(one)]


_ENDS = re.compile(r"[.;!?\n]+(?=\s|$)|\s[–—]\s|\s-\s")
_REASON = re.compile(r"^(.*?\w)[, ]+(?:so (?:that )?(?:i|we) (?:can|could|may|know)|because|cos) .+$", re.I)


def sentences(text: str, commas: bool = False) -> tuple[str, ...]:
    """A line whole, then its sentences, the last first, each also without its reason; with `commas` its clauses too.

    Only where none of them gives a figure but the one looked at: what is told beside a command is no part of it.
    """
    parts = [part.strip() for part in _ENDS.split(text) if part and part.strip()]
    clauses = [one.strip() for part in parts for one in part.split(",") if one.strip()] if commas else []
    out = [text]
    for part in dict.fromkeys((*reversed(parts), *reversed(clauses))):
        if any(sign.isdigit() for sign in text.replace(part, "", 1)):
            continue
        reason = _REASON.match(part)
        out += [part, *((reason[1],) if reason is not None else ())]
    return tuple(dict.fromkeys(out))


def matched(template: str, said: Spoken, lexicon: Lexicon) -> re.Match[str] | None:
    """The template on the whole line; None where it does not fit."""
    return _compiled(template, lexicon).fullmatch(said.folded) if _may_fit(template, said, lexicon) else None


def fitting(templates: Iterable[str], said: Spoken, lexicon: Lexicon) -> Iterator[re.Match[str]]:
    """What each template that fits the whole line made of it, in their order."""
    for template in templates:
        hit = matched(template, said, lexicon)
        if hit is not None:
            yield hit


def found(template: str, said: Spoken, lexicon: Lexicon) -> re.Match[str] | None:
    """The template anywhere in the line, at the edges of words."""
    return _compiled(template, lexicon).search(said.folded) if _may_fit(template, said, lexicon) else None


def _may_fit(template: str, said: Spoken, lexicon: Lexicon) -> bool:
    """Whether the line has every word that a template cannot do without: most have none, and most templates are never
    made into a pattern."""
    return _has(_needed(template), said.folded, lexicon)


def _has(needs: Needs, line: str, lexicon: Lexicon) -> bool:
    for need in needs:
        if isinstance(need, tuple):
            if not any(_has(way, line, lexicon) for way in need):
                return False
        elif ":" in need:
            if not any(way in line for way in _ways(need, lexicon)):
                return False
        elif need not in line:
            return False
    return True


_PIECE = re.compile(
    r"(?P<slot><\w+:\w+>)|(?P<group>\((?:\?(?:P<\w+>|[:=!]|<[=!]))?)|(?P<end>\))|(?P<or>\|)"
    r"|(?P<word>[a-z0-9]{2,})|\\.|\[\^?(?:\\.|[^\]])+\]|."
)
"""The pieces of a template: slots, brackets, words, and signs that name no word."""
Needs: TypeAlias = "tuple[str | tuple[Needs, ...], ...]"
"""What a line has to have all of: words, slots ("hand:keep"), and choices, of which one has to be met."""


@lru_cache(maxsize=512)
def _needed(template: str) -> Needs:
    """What every line has that fits a template: what stands in no bracket that may be missing or is denied."""
    open_groups: list[tuple[bool, list[list[Any]]]] = [(False, [[]])]  # looks about; the ways so far
    for piece in _PIECE.finditer(template):
        maybe = template[piece.end() : piece.end() + 1] in ("?", "*", "{")
        here = open_groups[-1][1]
        if piece["group"]:
            open_groups.append((piece["group"][-1] in "=!", [[]]))
        elif piece["end"] and len(open_groups) > 1:
            about, ways = open_groups.pop()
            if not (maybe or about):
                open_groups[-1][1][-1] += _one_of(ways)
        elif piece["or"]:
            here.append([])
        elif piece["slot"] and not maybe:
            here[-1].append(piece["slot"][1:-1])
        elif piece["word"]:
            here[-1].append(piece["word"][:-1] if maybe else piece["word"])
    return tuple(_one_of(open_groups[0][1]))


def _one_of(ways: list[list[Any]]) -> list[Any]:
    """What a line has to have that goes one of these ways: nothing where one of them asks for nothing."""
    if len(ways) == 1:
        return ways[0]
    return [tuple(tuple(way) for way in ways)] if all(ways) else []


@lru_cache(maxsize=512)
def _compiled(template: str, lexicon: Lexicon) -> re.Pattern[str]:
    return re.compile(_SLOT.sub(lambda slot: _either(slot[0][1:-1], lexicon), template))


def _either(slot: str, lexicon: Lexicon) -> str:
    """Every way of saying a word as one alternation, the longest first."""
    return rf"\b(?:{'|'.join(re.escape(way) for way in _ways(slot, lexicon))})\b"


def _ways(slot: str, lexicon: Lexicon) -> tuple[str, ...]:
    """Every way of saying a word ("hand:keep"), the longest first."""
    ways = _by_word(lexicon).get(slot)
    if not ways:
        raise KeyError(f"no words of {slot}")
    return ways


@lru_cache(maxsize=4)
def _by_word(lexicon: Lexicon) -> dict[str, tuple[str, ...]]:
    """The asides the other way round: word -> all that stands for it."""
    out: dict[str, list[str]] = {}
    for phrase, terms in lexicon.asides.items():
        for kind, name in terms:
            out.setdefault(f"{kind}:{name}", []).append(phrase)
    return {word: tuple(sorted(ways, key=lambda way: -len(way))) for word, ways in out.items()}
