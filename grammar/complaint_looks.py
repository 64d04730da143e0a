"""Faults put together from what is seen and on what: part times property, with its denial.

"Crumb" and "claggy" are gummy wherever in the line they stand; "won't" and "rise" are a dough that does not; a property
of many meanings is heard only with its part.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.complaint_owner import owned_elsewhere, weighed_so
from grammar.complaint_part import Part, compared, it, of_bread, part_of, parts_in, phrases_at
from grammar.complaint_terms import Mention, Word
from grammar.lexicon import Lexicon


@dataclass(frozen=True, slots=True)
class Composed:
    """A fault put together: first and last word of the property, the symptom, whether it is denied to be there, and
    whether its part was said."""

    first: int
    last: int
    symptom: str
    absent: bool
    with_part: bool


def composed(
    words: Sequence[Word], lexicon: Lexicon, taken: frozenset[int], of: str | None = None, raw: bool = False
) -> tuple[Composed, ...]:
    """Every fault the line puts together. taken: words that mean something already; of: what "it" is; raw: the bread
    spoken of is dough still."""
    texts = [word.text for word in words]
    contexts = {part.name for part in parts_in(texts, lexicon, of_context=True)}
    parts = of_bread(parts_in(texts, lexicon))
    if raw:
        parts = [replace(part, name="dough", whole="dough") if part.name == "bread" else part for part in parts]
        of = of or "dough"
    out: list[Composed] = []
    used: set[int] = set()
    looks = _looks(texts, lexicon)
    colours, little = lexicon.small("colour"), lexicon.small("denies", "too_little")
    starts = {first for first, _, _ in looks}
    for first, last, names in looks:
        span, one = set(range(first, last + 1)), first == last
        inside = any(p.last > p.first and span <= set(range(p.first, p.last + 1)) for p in parts)
        inside = inside or weighed_so(first, words, lexicon)
        if inside or span & (taken | used) or any(words[n].amount >= 0 for n in span):
            continue
        near = [p for p in parts if not (p.first <= last and first <= p.last)]
        follows = last + 1 in starts
        if one and texts[first] in colours and follows and texts[last + 1] not in colours:
            continue  # "white streaks" are streaks
        if one and texts[first] in lexicon.small("stress") and follows:
            continue  # "dead sour" is sour
        if one and texts[first] in little and not _ends_there(words, last, lexicon):
            continue  # "nothing sweet" denies what follows
        gone = _gone(words, last, lexicon)
        part = part_of(first, gone or last, near, words, lexicon) or it(first, words, of, lexicon)
        part = part or compared(last, words)
        denied = gone is not None or _denied(words, first, lexicon)
        found = _meant(names, part, denied, contexts, lexicon)
        if found is None and part is not None and part.first > last:
            part = part_of(first, last, [p for p in near if p.last < first], words, lexicon)
            found = _meant(names, part, denied, contexts, lexicon)
        if found is None:
            continue
        if part is None and first == last and _only_named(words, first, lexicon):
            continue
        if owned_elsewhere(first, last, words, parts, lexicon):
            continue
        symptom, absent = found
        used |= span
        out.append(Composed(first, gone or last, symptom, absent, part is not None))
    return tuple(out)


_THINGS = frozenset({"n", "f", "p"})
"""Letters of the list of English for things, stuffs and persons."""


def _only_named(words: Sequence[Word], at: int, lexicon: Lexicon) -> bool:
    """Whether a word that pictures a fault ("brick", "plate") is but the thing: nothing is compared with it."""
    if not at or len(words) <= _FEW or lexicon.letter(words[at].text) not in _THINGS:
        return False
    return not any(word.text in lexicon.small("pictures") for word in words[max(0, at - 2) : at])


_FEW = 2
"""A line of no more words says nothing else: "total bricks"."""


def _ends_there(words: Sequence[Word], last: int, lexicon: Lexicon) -> bool:
    """Whether a clause ends behind a word, or only goes on saying when."""
    after = words[last + 1] if last + 1 < len(words) else None
    return after is None or after.after_mark or after.text in lexicon.small("goes_on")


_CLOSE = frozenset({"tight_crumb", "dense"})


def here_and_there(
    faults: Sequence[tuple[int, str]], words: Sequence[Word], lexicon: Lexicon
) -> Sequence[tuple[int, str]]:
    """Faults, each with its place: a crumb close in one place and open in another is uneven, and neither of the two."""
    texts = [word.text for word in words]
    close = [place for place, symptom in faults if symptom in _CLOSE]
    if not close or len([text for text in texts if text in lexicon.small("here_or_there")]) < 2:
        return faults
    if not any({"open", "cavern"} & set(names) for _, _, names in _looks(texts, lexicon)):
        return faults
    return [(close[0], "uneven_crumb"), *(one for one in faults if one[1] not in _CLOSE | {"tunnels"})]


def in_context(mention: Mention, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a fault is another in what the line speaks of: "like a stone" of a bread a day old."""
    faults = set(mention.ids("symptom"))
    texts = [word.text for word in words]
    inside = [n for a, b, n in _looks(texts, lexicon) if mention.first <= a and b <= mention.last]
    looks = [lexicon.look_of[name] for names in inside for name in names]
    needed = {look.when for look in looks if look.when and look.alone and not faults & set(look.of.values())}
    return bool(faults and needed) and any(p.name in needed for p in parts_in(texts, lexicon, of_context=True))


def _looks(texts: Sequence[str], lexicon: Lexicon) -> list[tuple[int, int, tuple[str, ...]]]:
    """(first, last, looks) of every property, those of most words first."""
    out = [
        (first, last, lexicon.looks[said])
        for first in range(len(texts))
        for last, said in phrases_at(texts, first)
        if said in lexicon.looks
    ]
    return sorted(out, key=lambda one: (one[0] - one[1], one[0]))


def _denied(words: Sequence[Word], first: int, lexicon: Lexicon) -> bool:
    """Whether what follows is denied, or there too little of it."""
    for n in range(first - 1, max(-1, first - 7), -1):
        if words[n + 1].after_mark:
            return False
        if words[n].text in lexicon.small("denies", "too_little"):
            return True
        if words[n].text not in lexicon.small("denied_across", "passed_over", "looked_across"):
            return False
    return False


def _gone(words: Sequence[Word], last: int, lexicon: Lexicon) -> int | None:
    """Where it is said to be there no longer: "the bubbles have all gone from it"."""
    n = last + 1
    while n < len(words) and words[n].text in lexicon.small("passed_over") - {"gone"} and not words[n].after_mark:
        n += 1
    if n >= len(words) or words[n].after_mark or words[n].text not in lexicon.small("gone"):
        return None
    after = words[n + 1] if n + 1 < len(words) else None
    return n if after is None or after.after_mark or after.text in lexicon.small("goes_on") else None


def _meant(
    names: Sequence[str], part: Part | None, denied: bool, contexts: set[str], lexicon: Lexicon
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
