"""Dangers in a line, heard even where nothing else is: pairs of a thing and a sign said near each other.

A sign that is denied ("no mould", "not a speck of pink"), or only to be kept away ("so it won't go mouldy"), is none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from grammar.complaint_words import word_set
from grammar.lexicon import Lexicon, Peril, fold

_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*|[;.!?,:()]", re.UNICODE)
_MARKS = frozenset(";.!?,:()")
LONGEST = 5
"""Words of the longest danger word."""
NEAR = 4
"""Words between a thing and what befell it ("the bowl has just now cracked")."""
_NOT = word_set(
    "aint arent cant couldnt didnt doesnt dont hadnt hasnt havent isnt neither never no none nor not wasnt werent wont "
    "without zero free avoid avoiding prevent preventing stop stopping stops against before unless instead"
)
_THROUGH = word_set(
    "a an all any anything as at be been being bit bits clue even ever evidence find found from get getting go goes "
    "going "
    "got had has have hint i in is it its itself looks nasty of or and on pieces sees see seen seeing seem shows show "
    "sign signs single so speck that the them there this to trace traces turn turning visible with yet you becoming "
    "become actual real whatsoever sort kind my our your bread loaf loaves starter dough jar rolls crumb obvious like "
    "smell smells smelling taste nor think swallow swallowed"
)
"""Words a denial reaches across."""
_PLACE = word_set("in into inside from on onto out with under over near off at to for by and or but")
"""Words that part a thing from what befell it."""


@dataclass(frozen=True, slots=True)
class _At:
    """A danger word found: its first and last word, and whether it is denied."""

    first: int
    last: int
    denied: bool


def dangers_heard(text: str, lexicon: Lexicon) -> tuple[str, ...]:
    """Ids of the dangers a line tells of, the gravest first."""
    words, marks = _words(text)
    found = _found(words, marks, lexicon)
    if not found:
        return ()
    heard = [one for one in lexicon.perils if _heard(one, found, words, marks)]
    return tuple(one.id for one in sorted(heard, key=lambda one: (one.rank, one.id)))


def asks_for_rescue(text: str, lexicon: Lexicon) -> bool:
    """Whether a line pleads for what was just condemned: "could I not keep a spoonful of it"."""
    words, _ = _words(text)
    names = {name for _, _, ids in _longest(words, lexicon) for name in ids}
    return "rescue" in names and ("plea" in names or "?" in text)


def _words(text: str) -> tuple[list[str], frozenset[int]]:
    """Folded words, and the places of those before which a mark stands."""
    words: list[str] = []
    marks: set[int] = set()
    for match in _WORD.finditer(text):
        if match.group() in _MARKS:
            marks.add(len(words))
            continue
        words.extend(fold(match.group()).split())
    return words, frozenset(marks)


def _found(words: Sequence[str], marks: frozenset[int], lexicon: Lexicon) -> dict[str, list[_At]]:
    """Danger words by id; the longest phrase at a place is meant, and harmless ones take their words away."""
    out: dict[str, list[_At]] = {}
    held: set[int] = set()
    for place, last, names in _longest(words, lexicon):
        if "harmless" in names:
            held |= set(range(place, last + 1))
            continue
        if held & set(range(place, last + 1)):
            continue
        at = _At(place, last, _denied(words, marks, place))
        for name in names:
            out.setdefault(name, []).append(at)
    return out


def _longest(words: Sequence[str], lexicon: Lexicon) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """(first, last, ids) of the danger words at each place; shorter ones inside a longer one still count, but not
    those inside what is harmless."""
    spans: list[tuple[int, int, tuple[str, ...]]] = []
    for place in range(len(words)):
        for count in range(1, min(LONGEST, len(words) - place) + 1):
            names = lexicon.perilous.get(" ".join(words[place : place + count]))
            if names:
                spans.append((place, place + count - 1, names))
    yield from sorted(spans, key=lambda span: ("harmless" not in span[2], span[0], -span[1]))


def _denied(words: Sequence[str], marks: frozenset[int], first: int) -> bool:
    """Whether a denial stands before, with nothing between but words it reaches across; "no mould or pink" too."""
    if first + 1 < len(words) and words[first + 1] == "free":
        return True
    for n in range(first - 1, max(-1, first - 9), -1):
        if n + 1 in marks:
            return False
        if words[n] in _NOT:
            return not (words[n] == "no" and words[n + 1] in ("the", "there", "it", "its", "my", "i"))
        if words[n] not in _THROUGH and not _joined(words, n):
            return False
    return False


def _joined(words: Sequence[str], n: int) -> bool:
    """Whether a word is one of a list: "no mould or pink streaks"."""
    return any(words[k] in ("or", "nor") for k in (n - 1, n + 1) if 0 <= k < len(words))


def _heard(one: Peril, found: dict[str, list[_At]], words: Sequence[str], marks: frozenset[int]) -> bool:
    spans = {(at.first, at.last) for hits in found.values() for at in hits}
    for at in (at for name in one.unless for at in found.get(name, ())):
        within = any(a <= at.first and at.last <= b and b - a > at.last - at.first for a, b in spans)
        if not (at.denied or within):  # the twist of "twist bath" is no bread
            return False
    return any(_holds(rule, within, found, words) for rule, within in one.when)


def _holds(
    rule: Sequence[str | tuple[str, str]], within: int, found: dict[str, list[_At]], words: Sequence[str]
) -> bool:
    """Whether the parts of a rule are all said, none of them denied, each in words of its own, near enough."""
    for part in rule:  # most rules lack a part
        if (part if isinstance(part, str) else part[0]) not in found:
            return False
    places: list[list[tuple[_At, ...]]] = []
    for part in rule:
        thing, befell = part if isinstance(part, tuple) else (part, "")
        said = [at for at in found.get(thing, ()) if not at.denied]
        if befell:
            happened = [at for at in found.get(befell, ()) if not at.denied]
            places.append([(a, b) for a in said for b in happened if _befell(a, b, words)])
        else:
            places.append([(at,) for at in said])
    if not all(places):
        return False
    for chosen in product(*(options[:6] for options in places)):
        spots = [at for group in chosen for at in group]
        taken: set[int] = set()
        for at in spots:
            own = set(range(at.first, at.last + 1))
            if own <= taken:
                break
            taken |= own
        else:
            if max(at.last for at in spots) - min(at.first for at in spots) <= within:
                return True
    return False


def _befell(thing: _At, sign: _At, words: Sequence[str]) -> bool:
    """Whether a sign is said of the thing: right beside it, with no word of place between."""
    if thing.first <= sign.last and sign.first <= thing.last:
        return False
    start, end = (thing.last + 1, sign.first) if thing.last < sign.first else (sign.last + 1, thing.first)
    between = words[start:end]
    return len(between) <= NEAR and not _PLACE & set(between)
