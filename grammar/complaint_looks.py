"""Faults put together from what is seen and on what: part times property, with its denial.

"Crumb" and "claggy" are gummy wherever in the line they stand; "won't" and "rise" are a dough that does not; a property
of many meanings is heard only with its part.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.complaint_terms import BETWEEN, FILL, NOT, STRESS, Mention, Word, word_set
from grammar.lexicon import Lexicon

LONGEST = 5
NEAR, FAR = 12, 16
"""Words from a part to what is said of it, within one stretch and across a mark."""
TOO_LITTLE = NOT | word_set(
    "hardly barely scarcely lacks lacking lack little refuses refuse refused fails failed poor few couldnt wouldnt "
    "stopped missing minus zero nothing less"
)
"""Words that deny what follows, wholly or in degree."""
_ACROSS = (
    BETWEEN
    | FILL
    | word_set(
        "a an any anything as at big decent enough even ever for from get getting go going good great have having "
        "hint i in it its like longer look lot made create develop form give gives produce make making managed me more "
        "most much nice of on one or out proper "
        "properly quite real really see seem seemed seems show showing sign single so sort still take taking the "
        "their them they thing to trace up want wants well what yet you"
    )
)
"""Words a denial reaches across."""
_GONE = word_set("gone vanished disappeared missing lost less nowhere")
"""Words that deny what stands before them: "the bubbles have all gone"."""
_GOES_ON = word_set("after and at but by from in now on overnight since than this today when with")
"""Words that may follow those; any other says what it has gone to ("gone grey")."""
_SORTS = word_set(
    "baked black brown crusty dark dense done dry flat gray grey hard heavy light open raised raw soft sour "
    "sticky stiff thick wet white"
)
"""Words that in front of a bread or dough may name its kind ("white rolls", "a stiff dough")."""
COLOURS = word_set("black brown dark gray grey greyish light white yellow")
_WHOLES = frozenset({"bread", "dough", "starter", "flatbread"})


@dataclass(frozen=True, slots=True)
class Composed:
    """A fault put together: first and last word of the property, the symptom, whether it is denied to be there, and
    whether its part was said."""

    first: int
    last: int
    symptom: str
    absent: bool
    with_part: bool


@dataclass(frozen=True, slots=True)
class _Part:
    first: int
    last: int
    name: str
    whole: str


def composed(
    words: Sequence[Word], lexicon: Lexicon, taken: frozenset[int], of: str | None = None
) -> tuple[Composed, ...]:
    """Every fault the line puts together. taken: words that mean something already; of: what "it" is."""
    texts = [word.text for word in words]
    contexts = {part.name for part in _parts(texts, lexicon, of_context=True)}
    parts = _of_bread(_parts(texts, lexicon))
    out: list[Composed] = []
    used: set[int] = set()
    looks = _looks(texts, lexicon)
    starts = {first for first, _, _ in looks}
    for first, last, names in looks:
        span = set(range(first, last + 1))
        inside = any(p.last > p.first and span <= set(range(p.first, p.last + 1)) for p in parts)
        if inside or span & (taken | used) or any(words[n].amount >= 0 for n in span):
            continue
        near = [p for p in parts if not (p.first <= last and first <= p.last)]
        if first == last and texts[first] in COLOURS and last + 1 in starts and texts[last + 1] not in COLOURS:
            continue  # "white streaks" are streaks
        if first == last and texts[first] in STRESS and last + 1 in starts:
            continue  # "dead sour" is sour
        gone = _gone(words, last)
        part = _part_of(first, gone or last, near, words) or _it(first, words, of) or _compared(last, words)
        denied = gone is not None or _denied(words, first)
        found = _meant(names, part, denied, contexts, lexicon)
        if found is None and part is not None and part.first > last:
            part = _part_of(first, last, [p for p in near if p.last < first], words)
            found = _meant(names, part, denied, contexts, lexicon)
        if found is None:
            continue
        symptom, absent = found
        used |= span
        out.append(Composed(first, gone or last, symptom, absent, part is not None))
    return tuple(out)


def in_context(mention: Mention, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a fault is another in what the line speaks of: "like a stone" of a bread a day old."""
    faults = set(mention.ids("symptom"))
    texts = [word.text for word in words]
    inside = [n for a, b, n in _looks(texts, lexicon) if mention.first <= a and b <= mention.last]
    looks = [lexicon.look_of[name] for names in inside for name in names]
    needed = {look.when for look in looks if look.when and look.alone and not faults & set(look.of.values())}
    return bool(faults and needed) and any(p.name in needed for p in _parts(texts, lexicon, of_context=True))


def _of_bread(parts: list[_Part]) -> list[_Part]:
    """The skin of a bread is its crust, where no dough is spoken of."""
    wholes = {part.whole for part in parts if part.name != "skin"}
    if wholes != {"bread"}:
        return parts
    return [replace(part, name="crust", whole="bread") if part.name == "skin" else part for part in parts]


def _phrases(texts: Sequence[str], first: int) -> list[tuple[int, str]]:
    ends = range(min(LONGEST, len(texts) - first), 0, -1)
    return [(first + count - 1, " ".join(texts[first : first + count])) for count in ends]


def _parts(texts: Sequence[str], lexicon: Lexicon, of_context: bool = False) -> list[_Part]:
    """The parts said, or else the contexts: the longest name at each place."""
    out: list[_Part] = []
    at = 0
    while at < len(texts):
        for last, said in _phrases(texts, at):
            found = [one for one in lexicon.parts.get(said, ()) if (one[1] == "context") == of_context]
            if found:
                out += [_Part(at, last, name, whole) for name, whole in found]
                at = last
                break
        at += 1
    return out


def _looks(texts: Sequence[str], lexicon: Lexicon) -> list[tuple[int, int, tuple[str, ...]]]:
    """(first, last, looks) of every property, those of most words first."""
    out = [
        (first, last, lexicon.looks[said])
        for first in range(len(texts))
        for last, said in _phrases(texts, first)
        if said in lexicon.looks
    ]
    return sorted(out, key=lambda one: (one[0] - one[1], one[0]))


def _part_of(first: int, last: int, parts: Sequence[_Part], words: Sequence[Word]) -> _Part | None:
    """The part a property is said of: right behind it ("soggy bottoms"), else the nearest before it."""
    for part in parts:
        gap = range(last + 1, part.first)
        if part.first > last and len(gap) <= 1 and not any(words[n].after_mark for n in (*gap, part.first)):
            sort = part.name in _WHOLES and first == last and words[first].text in _SORTS
            stressed = first > 0 and words[first - 1].text in STRESS
            if not sort or stressed:
                return part
    before = [part for part in parts if part.last < first]
    if before:
        part = max(before, key=lambda p: (p.last, p.whole == "bread"))
        crossed = any(words[n].after_mark for n in range(part.last + 1, first + 1))
        return part if first - part.last <= (FAR if crossed else NEAR) else None
    after = [part for part in parts if part.first > last]
    if after:
        part = min(after, key=lambda p: p.first)
        gap = range(last + 1, part.first + 1)
        sort = part.name in _WHOLES and first == last and words[first].text in _SORTS
        if not sort and len(gap) <= 4 and not any(words[n].after_mark for n in gap):
            return part
    return None


_PRONOUNS = word_set("it its itd itll theyre they them that thats these this")
_ADDING = word_set("also and plus")
_BACK = 6


def _it(first: int, words: Sequence[Word], of: str | None) -> _Part | None:
    """What was complained of before, where a property is said of an "it" and of no part."""
    said = [n for n in range(max(0, first - _BACK), first) if words[n].text in _PRONOUNS]
    if said or (words[0].text in _ADDING and first <= _BACK):
        return _Part(-1, -1, of, of) if of else None
    return None


def _denied(words: Sequence[Word], first: int) -> bool:
    """Whether what follows is denied, or there too little of it."""
    for n in range(first - 1, max(-1, first - 7), -1):
        if words[n + 1].after_mark:
            return False
        if words[n].text in TOO_LITTLE:
            return True
        if words[n].text not in _ACROSS:
            return False
    return False


def _gone(words: Sequence[Word], last: int) -> int | None:
    """Where it is said to be there no longer: "the bubbles have all gone from it"."""
    n = last + 1
    while n < len(words) and words[n].text in FILL - {"gone"} and not words[n].after_mark:
        n += 1
    if n >= len(words) or words[n].after_mark or words[n].text not in _GONE:
        return None
    after = words[n + 1] if n + 1 < len(words) else None
    return n if after is None or after.after_mark or after.text in _GOES_ON else None


def _compared(last: int, words: Sequence[Word]) -> _Part | None:
    """The bread, where a property is measured against another bake and no part is named: "heavier than last time"."""
    start = max((n for n in range(last + 1) if words[n].after_mark), default=0)
    end = next((n for n in range(last + 1, len(words)) if words[n].after_mark), len(words))
    stretch = words[start:end]
    measured = any(word.text == "than" for word in stretch) and all(word.amount < 0 for word in stretch)
    return _Part(-1, -1, "bread", "bread") if measured else None


def _meant(
    names: Sequence[str], part: _Part | None, denied: bool, contexts: set[str], lexicon: Lexicon
) -> tuple[str, bool] | None:
    """The symptom of a property on a part, and whether it is said not to be there; None where it means none."""
    best: tuple[int, str, bool] | None = None
    for name in names:
        look = lexicon.look_of[name]
        if look.when and look.when not in contexts:
            continue
        rank = 4 if look.when else 0
        if part is None:
            symptom, absent = (look.unsaid, False) if denied else (look.alone, False)
        else:
            of = look.denied if denied else look.of
            symptom = of.get(part.name, of.get(part.whole, ""))
            absent = False
            rank += 2 if part.name in of else 0
            if denied and not symptom:
                symptom = look.of.get(part.name, look.of.get(part.whole, ""))
                absent = True
                rank -= 1
        if symptom and (best is None or rank > best[0]):
            best = (rank, symptom, absent)
    return (best[1], best[2]) if best is not None else None
