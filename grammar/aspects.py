"""How each part of a line is meant: asked, wished, so, done, meant instead, at hand, lacking, forbidden, usual, aimed.

The words that say it ("want", "ran out of", "is what I have", "should have been") are mostly small, and stand beside
what they speak of. They are looked up in the words of the line themselves, whatever else those words mean, and each
phrase keeps, nearest first, the aspects of the clause it stands in.

One scope rule for all: an aspect reaches from its word over what follows, to the end of the clause or to the next word
that says how something is meant; a word that speaks of what stands before it reaches back in the same way. A word that
may do either looks back only where nothing follows in its clause.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from grammar.lexicon import Lexicon, fold
from grammar.phrases import Phrase

AHEAD, BACK, EITHER = "ahead", "back", "either"
"""Where an aspect's word looks for what it speaks of."""

Aspects = Mapping[str, tuple[tuple[str, str], ...]]
"""Folded words -> (aspect, where it looks) pairs."""

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*|[,;:.!?()\n]|-(?=\s)|[–—]")
_ENDS = frozenset(",;:.!?()\n-–—")
LONGEST_WORDS = 5


@dataclass(frozen=True, slots=True)
class Said:
    """A word that says how something is meant. aspect: which; looks: where; start, end: its place in the line."""

    aspect: str
    looks: str
    start: int
    end: int
    clause: int


def aspects_said(text: str, lexicon: Lexicon) -> tuple[Said, ...]:
    """The words of a line that say how something is meant, in order, longest first where they overlap."""
    return tuple(_said(_words(text, lexicon), lexicon.aspects))


def marked(phrases: Sequence[Phrase], text: str, lexicon: Lexicon) -> tuple[Phrase, ...]:
    """The phrases of a line, each with how it is meant."""
    words = _words(text, lexicon)
    said = list(_said(words, lexicon.aspects))
    if not said:
        return tuple(phrases)
    ends = [word.start for word, following in pairwise(words) if word.clause != following.clause]
    ahead = [one for one in said if one.looks in (AHEAD, EITHER)]
    back = [one for one in said if _looks_back(one, phrases, said)]
    out = []
    for phrase in phrases:
        if phrase.kind not in ("amount", "label", "junk"):
            out.append(phrase)
            continue
        start = phrase.tokens[0].start
        meant = _meant(start, bisect_left(ends, start), ahead, back)
        out.append(replace(phrase, meant=meant) if meant else phrase)
    return tuple(out)


@dataclass(frozen=True, slots=True)
class _Word:
    text: str
    start: int
    end: int
    clause: int


@lru_cache(maxsize=16)
def _words(text: str, lexicon: Lexicon) -> tuple[_Word, ...]:
    """The words of a line, folded, each with the number of its clause; a decimal point or comma ends none."""
    out: list[_Word] = []
    clause = 0
    breaks, of_its = lexicon.small("breaks"), lexicon.small("of_its")
    for found in _WORD.finditer(text):
        sign = found.group()
        if sign in _ENDS:
            inside = text[found.start() - 1 : found.start()].isdigit() and text[found.end() : found.end() + 1].isdigit()
            clause += 0 if inside else 1
            continue
        word = fold(sign)
        if word in breaks and out and out[-1].clause == clause:
            clause += 1
        if word == "its" and sign.lower() == "its" and out and out[-1].clause == clause and out[-1].text in of_its:
            word = "its own"  # whose it is, no report
        out.append(_Word(word, found.start(), found.end(), clause))
    return tuple(out)


def _said(words: Sequence[_Word], known: Aspects) -> Iterator[Said]:
    firsts = _first_words(known)
    i = 0
    while i < len(words):
        if words[i].text not in firsts:
            i += 1
            continue
        for count in range(min(LONGEST_WORDS, len(words) - i), 0, -1):
            stretch = words[i : i + count]
            if stretch[0].clause != stretch[-1].clause:
                continue
            found = known.get(" ".join(word.text for word in stretch))
            if found:
                for aspect, looks in found:
                    yield Said(aspect, looks, stretch[0].start, stretch[-1].end, stretch[0].clause)
                i += count
                break
        else:
            i += 1


_FIRSTS: dict[int, tuple[Aspects, frozenset[str]]] = {}


def _first_words(known: Aspects) -> frozenset[str]:
    """The words with which something known begins: most words of a line are none of them."""
    kept = _FIRSTS.get(id(known))
    if kept is None or kept[0] is not known:
        _FIRSTS.clear()
        kept = _FIRSTS[id(known)] = (known, frozenset(said.split(" ", 1)[0] for said in known))
    return kept[1]


def _meant(start: int, clause: int, ahead: Sequence[Said], back: Sequence[Said]) -> tuple[str, ...]:
    """The aspects that reach what begins at a place, nearest first. ahead, back: the words that look so, in order."""
    before = (one for one in reversed(ahead[: bisect_right(ahead, start, key=_start)]) if one.clause <= clause)
    last = next(before, None)
    reaches = last is not None and last.clause == clause
    nearest = [one for one in ahead if last is not None and one.start == last.start] if reaches else []
    behind = (one for one in back[bisect_left(back, start, key=_start) :] if one.clause >= clause)
    first = next(behind, None)
    returns = first is not None and first.clause == clause
    following = [one for one in back if first is not None and one.start == first.start] if returns else []
    out = [one.aspect for one in (*following, *nearest)] if following and not nearest else []
    if nearest:
        out = [one.aspect for one in nearest] + [one.aspect for one in following]
    return tuple(dict.fromkeys(out))


def _start(one: Said) -> int:
    return one.start


def _looks_back(one: Said, phrases: Sequence[Phrase], said: Sequence[Said]) -> bool:
    if one.looks != EITHER:
        return one.looks == BACK
    starts = (p.tokens[0].start for p in phrases if p.kind in ("amount", "label"))
    later = min((start for start in starts if start >= one.end), default=None)
    other = next((other.start for other in said if other.start > one.end and other.clause != one.clause), None)
    return later is None or (other is not None and other < later)
