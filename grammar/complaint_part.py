"""Which part a property is said of: the crust, the crumb, the dough; or what was complained of before.

A part stands right behind ("soggy bottoms"), or else before what is said of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.complaint_terms import Word
from grammar.lexicon import Lexicon

LONGEST = 5
NEAR, FAR = 12, 16
"""Words from a part to what is said of it, within one stretch and across a mark."""
_WHOLES = frozenset({"bread", "dough", "starter", "flatbread"})


@dataclass(frozen=True, slots=True)
class Part:
    """A part said: its first and last word (-1: said before), its name, and the whole it belongs to."""

    first: int
    last: int
    name: str
    whole: str


def of_bread(parts: list[Part]) -> list[Part]:
    """The skin of a bread is its crust, where no dough is spoken of."""
    wholes = {part.whole for part in parts if part.name != "skin"}
    if wholes != {"bread"}:
        return parts
    return [replace(part, name="crust", whole="bread") if part.name == "skin" else part for part in parts]


def phrases_at(texts: Sequence[str], first: int) -> list[tuple[int, str]]:
    """(last word, phrase) of every run of words that begins at a place, the longest first."""
    ends = range(min(LONGEST, len(texts) - first), 0, -1)
    return [(first + count - 1, " ".join(texts[first : first + count])) for count in ends]


def parts_in(texts: Sequence[str], lexicon: Lexicon, of_context: bool = False) -> list[Part]:
    """The parts said, or else the contexts: the longest name at each place."""
    out: list[Part] = []
    at = 0
    while at < len(texts):
        for last, said in phrases_at(texts, at):
            found = [one for one in lexicon.parts.get(said, ()) if (one[1] == "context") == of_context]
            if found:
                out += [Part(at, last, name, whole) for name, whole in found]
                at = last
                break
        at += 1
    return out


def part_of(first: int, last: int, parts: Sequence[Part], words: Sequence[Word], lexicon: Lexicon) -> Part | None:
    """The part a property is said of: right behind it ("soggy bottoms"), else the nearest before it."""
    for part in parts:
        gap = range(last + 1, part.first)
        if part.first > last and len(gap) <= 1 and not any(words[n].after_mark for n in (*gap, part.first)):
            sort = part.name in _WHOLES and first == last and words[first].text in lexicon.small("sort")
            stressed = first > 0 and words[first - 1].text in lexicon.small("stress")
            if not sort or stressed:
                return part
            if words[first].text in lexicon.small("sort_or_fault"):
                return None  # "how much white dough": which dough
    before = [part for part in parts if part.last < first]
    if before:
        part = max(before, key=lambda p: (p.last, p.whole == "bread"))
        crossed = any(words[n].after_mark for n in range(part.last + 1, first + 1))
        return part if first - part.last <= (FAR if crossed else NEAR) else None
    after = [part for part in parts if part.first > last]
    if after:
        part = min(after, key=lambda p: p.first)
        gap = range(last + 1, part.first + 1)
        sort = part.name in _WHOLES and first == last and words[first].text in lexicon.small("sort")
        if not sort and len(gap) <= 4 and not any(words[n].after_mark for n in gap):
            return part
    return None


_BACK = 6


def it(first: int, words: Sequence[Word], of: str | None, lexicon: Lexicon) -> Part | None:
    """What was complained of before, where a property is said of an "it" and of no part."""
    said = [n for n in range(max(0, first - _BACK), first) if words[n].text in lexicon.small("what_was_said")]
    if said or (words[0].text in lexicon.small("adding") and first <= _BACK):
        return Part(-1, -1, of, of) if of else None
    return None


def compared(last: int, words: Sequence[Word]) -> Part | None:
    """The bread, where a property is measured against another bake and no part is named: "heavier than last time"."""
    start = max((n for n in range(last + 1) if words[n].after_mark), default=0)
    end = next((n for n in range(last + 1, len(words)) if words[n].after_mark), len(words))
    stretch = words[start:end]
    measured = any(word.text == "than" for word in stretch) and all(word.amount < 0 for word in stretch)
    return Part(-1, -1, "bread", "bread") if measured else None
