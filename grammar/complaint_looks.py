"""Faults put together from what is seen and on what: part times property, with its denial.

"Crumb" and "claggy" are gummy wherever in the line they stand; "won't" and "rise" are a dough that does not; a property
of many meanings is heard only with its part.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.complaint_owner import owned_elsewhere, weighed_so
from grammar.complaint_part import Part, compared, it, of_bread, part_of, parts_in, phrases_at
from grammar.complaint_terms import BETWEEN, FILL, NOT, STRESS, Mention, Word, word_set
from grammar.lexicon import Lexicon

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
COLOURS = word_set("black brown dark gray grey greyish light white yellow")


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
    starts = {first for first, _, _ in looks}
    for first, last, names in looks:
        span = set(range(first, last + 1))
        inside = any(p.last > p.first and span <= set(range(p.first, p.last + 1)) for p in parts)
        if inside or span & (taken | used) or any(words[n].amount >= 0 for n in span) or weighed_so(first, words):
            continue
        near = [p for p in parts if not (p.first <= last and first <= p.last)]
        if first == last and texts[first] in COLOURS and last + 1 in starts and texts[last + 1] not in COLOURS:
            continue  # "white streaks" are streaks
        if first == last and texts[first] in STRESS and last + 1 in starts:
            continue  # "dead sour" is sour
        if first == last and texts[first] in TOO_LITTLE and not _ends_there(words, last):
            continue  # "nothing sweet" denies what follows
        gone = _gone(words, last)
        part = part_of(first, gone or last, near, words) or it(first, words, of) or compared(last, words)
        denied = gone is not None or _denied(words, first)
        found = _meant(names, part, denied, contexts, lexicon)
        if found is None and part is not None and part.first > last:
            part = part_of(first, last, [p for p in near if p.last < first], words)
            found = _meant(names, part, denied, contexts, lexicon)
        if found is None:
            continue
        if part is None and first == last and _only_named(words, first, lexicon):
            continue
        if part is None and owned_elsewhere(first, last, words, parts, lexicon):
            continue
        symptom, absent = found
        used |= span
        out.append(Composed(first, gone or last, symptom, absent, part is not None))
    return tuple(out)


_PICTURED = word_set(
    "a an as into like is are was were its theyre it they came come comes out turned more than of pure"
)
"""Words before what a bread is likened to."""
_THINGS = frozenset({"n", "f", "p"})
"""Letters of the list of English for things, stuffs and persons."""


def _only_named(words: Sequence[Word], at: int, lexicon: Lexicon) -> bool:
    """Whether a word that pictures a fault ("brick", "plate") is but the thing: nothing is compared with it."""
    if not at or len(words) <= _FEW or lexicon.letter(words[at].text) not in _THINGS:
        return False
    return not any(word.text in _PICTURED for word in words[max(0, at - 2) : at])


_FEW = 2
"""A line of no more words says nothing else: "total bricks"."""


def _ends_there(words: Sequence[Word], last: int) -> bool:
    """Whether a clause ends behind a word, or only goes on saying when."""
    after = words[last + 1] if last + 1 < len(words) else None
    return after is None or after.after_mark or after.text in _GOES_ON


_CLOSE = frozenset({"tight_crumb", "dense"})
_PLACES = word_set(
    "above below top bottom base upper lower end ends side sides middle centre center edge edges here there half rim"
)


def here_and_there(
    faults: Sequence[tuple[int, str]], words: Sequence[Word], lexicon: Lexicon
) -> Sequence[tuple[int, str]]:
    """Faults, each with its place: a crumb close in one place and open in another is uneven, and neither of the two."""
    texts = [word.text for word in words]
    close = [place for place, symptom in faults if symptom in _CLOSE]
    if not close or len([text for text in texts if text in _PLACES]) < 2:
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
