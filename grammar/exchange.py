"""Two things in a line, one to go and one to come: which is which, from the words around them."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, fits
from grammar.mishap import GENERAL
from grammar.phrases import Phrase

THING = ("ingredient:*", "yeast_kind:*", *(cue for cue in GENERAL if cue != "cue:hydration"))


def ids_of(phrase: Phrase) -> tuple[str, ...]:
    """The ingredients a word may mean."""
    named = phrase.ids("ingredient") or phrase.ids("yeast_kind")
    general = tuple(name for cue, name in GENERAL.items() if fits(phrase, (cue,)) and name not in named)
    return (*named, *general)


def place_of(bound: Bound, phrase: Phrase) -> int:
    """The place of a phrase in the line."""
    return next(i for i, one in enumerate(bound.phrases) if one is phrase)


@dataclass(frozen=True, slots=True)
class Sides:
    """What is taken out and what goes in, by their places in the line."""

    out: int | None = None
    into: int | None = None


def sides_of(bound: Bound, things: list[int]) -> Sides:
    """Which of the named things goes and which comes: the first turn of speech that tells it decides."""
    for rule in (_instead_of, _swap, _only, _missing, _absent, _than, _instead, _question):
        sides = rule(bound, things)
        if sides is not None:
            return sides
    return Sides()


def _first_of(bound: Bound, *patterns: str) -> int | None:
    return next((i for i, p in enumerate(bound.phrases) if fits(p, patterns)), None)


def _instead_of(bound: Bound, things: list[int]) -> Sides | None:
    """ "oil instead of butter", "instead of butter can I use oil"."""
    place = _first_of(bound, "link:instead_of")
    out = None if place is None else next((i for i in things if i > place), None)
    if place is None or out is None:
        return None
    before = next((i for i in reversed(things) if i < place), None)
    return Sides(out, before if before is not None else next((i for i in things if i > out), None))


def _swap(bound: Bound, things: list[int]) -> Sides | None:
    """ "swap the butter for oil", "sub oil for butter", "how much molasses replaces 40 g honey"."""
    place = _first_of(bound, "act:swap")
    if place is None or len(things) < 2:
        return None
    first, second = things[0], things[1]
    said = bound.phrases[place].text.lower()
    replaces = first < place < second and said.startswith(("replaces", "equals", "is eq"))
    joined_by_for = any("for" in p.ids("link") for p in bound.phrases[first:second])
    if replaces or (first > place and joined_by_for and said.startswith("sub")):
        return Sides(second, first)
    return Sides(first, second)


def _only(bound: Bound, things: list[int]) -> Sides | None:
    """ "113 g unsalted butter, only got salted"."""
    place = _first_of(bound, "cue:only_this")
    first = bound.phrases[0] if bound.phrases else None
    if place is None and first is not None and first.text.lower() in ("only", "just") and fits(first, ("cue:limit",)):
        place = 0  # "only salted butter, 120 g"
    if place is None:
        return None
    into = next((i for i in things if i > place and not bound.phrases[i].negated), None)
    return Sides(next((i for i in things if i != into), None), into)


def _missing(bound: Bound, things: list[int]) -> Sides | None:
    """ "out of honey", "the honey has run out"."""
    place = _first_of(bound, "cue:missing")
    if place is None:
        return None
    out = next((i for i in things if i > place), next(reversed(things), None))
    return Sides(out, next((i for i in things if i != out and not bound.phrases[i].negated), None))


def _absent(bound: Bound, things: list[int]) -> Sides | None:
    """ "no honey, use maple syrup"."""
    negated = [i for i in things if bound.phrases[i].negated]
    meant_for = [i for i in things if i and "for" in bound.phrases[i - 1].ids("link")]  # "no caraway for the rye"
    return Sides(negated[0], next((i for i in things if i not in (*negated, *meant_for)), None)) if negated else None


def _than(bound: Bound, things: list[int]) -> Sides | None:
    """ "I'd rather use olive oil than butter"."""
    place = _first_of(bound, "link:than")
    if place is None or len(things) < 2 or not things[0] < place < things[1]:
        return None
    return Sides(out=things[1], into=things[0])


def _instead(bound: Bound, things: list[int]) -> Sides | None:
    """ "butter, can I use oil instead", "what instead"."""
    place = _first_of(bound, "link:instead")
    if place is None or not things:
        return None
    ahead = [i for i in things if i < place]
    if len(things) >= 2:
        return Sides(things[0], ahead[-1] if len(ahead) > 1 else things[1])
    asked = any(fits(p, ("ask:what_else",)) for p in bound.phrases[max(0, place - 3) : place])
    return Sides(out=things[0]) if asked else Sides(into=things[0])


def _question(bound: Bound, things: list[int]) -> Sides | None:
    """ "can I swap the butter for oil", "what can I use for butter", "dried yeast for 15 g fresh"."""
    if not things:
        return None
    phrases = bound.phrases
    asked = _first_of(bound, "ask:what_else")
    if len(things) < 2:
        return Sides(out=things[0])
    if asked is not None and any(word in phrases[asked].text.lower() for word in ("swap", "replace")):
        return Sides(things[0], things[1])
    if asked is not None:
        wanted = next((i for i in things if i and "for" in phrases[i - 1].ids("link")), things[-1])
        return Sides(wanted, next(i for i in things if i != wanted))
    weighed = {place_of(bound, hit.label) for hit in bound.of("mass") if hit.label is not None} & set(things)
    if len(things) == 2 and len(weighed) == 1:
        return Sides(next(i for i in things if i in weighed), next(i for i in things if i not in weighed))
    return Sides(things[0], things[1])


def one_for_other(bound: Bound, things: list[int]) -> bool:
    """Two kinds of one thing, one of them weighed: "dried yeast for 42 g fresh", "kosher salt for 18 g table salt"."""
    if len(things) != 2 or len(bound.of("mass")) != 1 or not {"for", "to", "in", "into", "as"} & bound.links():
        return False
    if any(p.kind == "amount" for p in bound.phrases if p is not bound.of("mass")[0].amount):
        return False
    first, second = (ids_of(bound.phrases[i]) for i in things)
    return first != second and first[0].split("_")[0] == second[0].split("_")[0]
