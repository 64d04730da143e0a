"""Dangers in a line, heard even where nothing else is: pairs of a thing and a sign said near each other.

A sign that is denied ("no mould", "not a speck of pink"), or only to be kept away ("so it won't go mouldy"), is none.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product

from grammar.danger_words import At, found, is_a, names_in, words_of
from grammar.lexicon import Lexicon, Peril

_NEAR = 4
"""Words between a thing and what befell it ("the bowl has just now cracked")."""
_TRIED = 6
"""Places of one word that are tried: a line has few."""
_UNSAID = -1
"""Where a thing stands that an earlier line named."""
_THINGS = ("starter", "bread", "dough", "flour", "gear")
Found = Mapping[str, Sequence[At]]


def dangers_heard(text: str, lexicon: Lexicon, of: str | None = None) -> tuple[str, ...]:
    """Ids of the dangers a line tells of, the gravest first. of: what was talked of before, meant where no other thing
    is named ("oh, and there are green hairs on it")."""
    words, marks = words_of(text)
    hits = found(words, marks, lexicon)
    if of is not None and not any(thing in hits for thing in _THINGS):
        hits[of] = [At(_UNSAID, _UNSAID, False)]
    heard = [one for one in lexicon.perils if _heard(one, hits, words, lexicon)]
    return tuple(one.id for one in sorted(heard, key=lambda one: (one.rank, one.id)))


def asks_for_rescue(text: str, lexicon: Lexicon) -> bool:
    """Whether a line pleads for what was just condemned: "could I not keep a spoonful of it"."""
    names = names_in(words_of(text)[0], lexicon)
    return "rescue" in names and ("plea" in names or "?" in text)


def _heard(one: Peril, hits: Found, words: Sequence[str], lexicon: Lexicon) -> bool:
    if not any(_holds(rule, within, hits, words, lexicon) for rule, within in one.when):
        return False
    spans = {(at.first, at.last) for said in hits.values() for at in said if not at.made}
    return all(at.denied or _within(at, spans) for name in one.unless for at in hits.get(name, ()))


def _within(at: At, spans: set[tuple[int, int]]) -> bool:
    """Whether a word is but part of a longer one: the twist of "twist bath" is no bread."""
    return any(a <= at.first and at.last <= b and b - a > at.last - at.first for a, b in spans)


def _holds(
    rule: Sequence[str | tuple[str, str]], within: int, hits: Found, words: Sequence[str], lexicon: Lexicon
) -> bool:
    """Whether the parts of a rule are all said, none of them denied, each in words of its own, near enough."""
    if not all(name in hits for part in rule for name in ((part,) if isinstance(part, str) else part)):
        return False  # so it is with nearly every rule
    places = [_places(part, hits, words, lexicon) for part in rule]
    return all(places) and any(
        _apart(spots := [at for group in chosen for at in group])
        and _span(spots) <= within
        for chosen in product(*(options[:_TRIED] for options in places))
    )


def _places(part: str | tuple[str, str], hits: Found, words: Sequence[str], lexicon: Lexicon) -> list[tuple[At, ...]]:
    """Where a part of a rule is said: a word, or a thing and what befell it."""
    said = [[at for at in hits.get(name, ()) if not at.denied] for name in ([part] if isinstance(part, str) else part)]
    if len(said) == 1:
        return [(at,) for at in said[0]]
    return [(a, b) for a in said[0] for b in said[1] if _befell(a, b, words, lexicon)]


def _span(spots: Sequence[At]) -> int:
    """Words from the first to the last of them; what was said in an earlier line is no way off."""
    said = [at for at in spots if at.first != _UNSAID]
    return max(at.last for at in said) - min(at.first for at in said) if said else 0


def _apart(spots: Sequence[At]) -> bool:
    """Whether each has a word that none before it has."""
    taken: set[int] = set()
    for at in spots:
        own = set(range(at.first, at.last + 1))
        if own <= taken:
            return False
        taken |= own
    return True


def _befell(thing: At, sign: At, words: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether a sign is said of the thing: right beside it, with no word of place between."""
    if thing.first <= sign.last and sign.first <= thing.last:
        return False
    start, end = (thing.last + 1, sign.first) if thing.last < sign.first else (sign.last + 1, thing.first)
    parting = [
        n
        for n in range(start, end)
        if is_a(words[n], "place_word", lexicon) and not (_goes_on(words, n) or _of_the_oven(words, n, lexicon))
    ]
    return end - start <= _NEAR and not parting


def _goes_on(words: Sequence[str], n: int) -> bool:
    """Whether an "and" goes on about the same thing: "fell and it cracked"."""
    return words[n] == "and" and words[n + 1 : n + 2] in (["it"], ["its"], ["they"], ["then"])


def _of_the_oven(words: Sequence[str], n: int, lexicon: Lexicon) -> bool:
    """Whether a word of place only says which thing is meant: "the bulb in the oven popped"."""
    return any(is_a(word, "oven", lexicon) for word in words[n + 1 : n + 3])
