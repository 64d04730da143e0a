"""How each thing of a line stands: wanted by recipe or habit, lacking, not to be in it, at hand, about to go in.

A line is cut into clauses at its signs and at "but". A word that tells a stance belongs to the next thing of its
clause, else to the one before it; in a clause without a thing it belongs to the thing last named ("it needs
100 g"). What is told counts for going out or for coming in; who has most of one goes, who has most of the other comes,
so the order of the words decides nothing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grammar.frames import Bound, fits
from grammar.phrases import Phrase
from grammar.stance_links import by_links

GENERAL = {
    "cue:salt": "salt_table", "cue:starter": "starter_100", "cue:water": "water", "cue:flour": "flour",
    "cue:leaven": "yeast_instant", "cue:hydration": "hydration",
}  # fmt: skip
"""Words that name an ingredient without being one in the vocabulary; "flour" is whatever flour the dough has."""
OF_UNITS = {"butter_stick": "butter_unsalted"}
"""Measures that name what is measured."""
THING = ("ingredient:*", "yeast_kind:*", *(cue for cue in GENERAL if cue != "cue:hydration"))

CLAUSE_ENDS = ",;.!?-–—("
_TURNS = re.compile(r"\b(but|so|because|while|whereas|though|although)\b", re.I)
LACKING, MUST_NOT, CALLED_FOR, AT_HAND, WILL_TAKE = "lacking", "must_not", "called_for", "at_hand", "will_take"
HOLDS = "holds"
_OUT = {LACKING: 3.0, MUST_NOT: 3.0, CALLED_FOR: 2.5, HOLDS: 2.0}
_IN = {AT_HAND: 3.0, WILL_TAKE: 2.5, "guess": 1.2}
_FARTHER = 0.4
"""What a stance told in a clause of its own weighs for the thing it is taken to mean."""
_WORDS: Mapping[str, tuple[str, ...]] = {
    LACKING: ("cue:missing",),
    MUST_NOT: ("stance:must_not", "diet:*", "cue:company", "person:baby", "person:coeliac", "person:pregnant"),
    CALLED_FOR: ("stance:called_for", "cue:recipe_given", "mistake:meant"),
    HOLDS: ("stance:holds", "stance:was"),
    AT_HAND: ("stance:at_hand", "cue:only_this"),
    WILL_TAKE: ("stance:will_take", "act:use"),
    "guess": ("stance:guess",),
}
_ASPECTS = {"lacking": ("out", 1.5), "must_not": ("out", 1.5), "meant": ("out", 1.0), "at_hand": ("in", 1.5)}
"""What the aspect of a thing speaks for where no word of its own tells its stance."""
_WHO = ("diet:*", "cue:company", "person:*")
"""Words that only name who eats: in a clause of their own they say nothing of one thing rather than another."""


@dataclass(frozen=True, slots=True)
class Thing:
    """A thing named in a line. place: of its first word; ids: ingredients it may mean, likeliest first.

    goes, comes: how much speaks for its going out and its coming in; told: the stances said of it.
    """

    place: int
    ids: tuple[str, ...]
    goes: float
    comes: float
    told: frozenset[str]

    @property
    def net(self) -> float:
        """Above 0 it goes out, below 0 it comes in."""
        return self.goes - self.comes


def ids_of(phrase: Phrase) -> tuple[str, ...]:
    """The ingredients a word may mean; a measure that names what it measures is one."""
    if phrase.quantity is not None and phrase.quantity.unit in OF_UNITS:
        return (OF_UNITS[phrase.quantity.unit],)
    named = phrase.ids("ingredient") or phrase.ids("yeast_kind")
    general = tuple(name for cue, name in GENERAL.items() if fits(phrase, (cue,)) and name not in named)
    return (*named, *general)


def is_thing(phrase: Phrase) -> bool:
    """Whether a phrase names something that goes into a dough."""
    if phrase.kind == "amount":
        return phrase.quantity is not None and phrase.quantity.unit in OF_UNITS
    return phrase.kind == "label" and fits(phrase, THING) and not phrase.ids("diet") and not phrase.ids("job")


def clauses(bound: Bound) -> tuple[int, ...]:
    """For each phrase the number of its clause, from 0."""
    out: list[int] = []
    now = 0
    for i, phrase in enumerate(bound.phrases):
        if i and _TURNS.search(gap(bound, i)):
            now += 1
        if phrase.kind == "sep" and phrase.text.strip() in CLAUSE_ENDS:
            now += 1
        out.append(now)
    return tuple(out)


def gap(bound: Bound, place: int) -> str:
    """The small words that stand between a phrase and the one before it, as typed."""
    if place <= 0:
        return bound.text[: bound.phrases[0].tokens[0].start].lower() if bound.phrases else ""
    return bound.text[bound.phrases[place - 1].tokens[-1].end : bound.phrases[place].tokens[0].start].lower()


def stance_of(phrase: Phrase) -> str | None:
    """The stance a word tells, None where it tells none."""
    if phrase.kind != "label":
        return None
    if fits(phrase, ("stock:left",)) and not phrase.negated:
        return None  # "in the house", "left": there is some, unless the thing itself is denied
    if phrase.text.lower() in ("only", "just") and fits(phrase, ("cue:limit",)):
        return AT_HAND
    return next((stance for stance, words in _WORDS.items() if fits(phrase, words)), None)


def things_told(bound: Bound, places: Sequence[int]) -> tuple[Thing, ...]:
    """The things at these places with what is said of them; one that is named twice is one thing."""
    goes, comes = dict.fromkeys(places, 0.0), dict.fromkeys(places, 0.0)
    told: dict[int, set[str]] = {place: set() for place in places}
    clause = clauses(bound)
    exchange = any(fits(p, ("link:instead_of", "stance:serves", "act:swap")) for p in bound.phrases)
    for i, phrase in enumerate(bound.phrases):
        stance = stance_of(phrase)
        if stance is None or i in goes:
            continue
        place, near = _meant(bound, clause, places, i)
        if place is None or (len(places) > 1 and fits(phrase, _WHO) and (exchange or not near)):
            continue
        weight = 1.0 if near else _FARTHER
        turned = phrase.negated and stance != LACKING  # "not called for", "don't have"
        turned = turned or (stance == AT_HAND and near and bound.phrases[place].negated)  # "there is no cream either"
        told[place].add(stance if not turned else f"not {stance}")
        out = _OUT.get(stance, 0.0) * weight
        into = _IN.get(stance, 0.0) * weight
        goes[place] += into if turned else out
        comes[place] += out if turned else into
    for place in places:
        _by_itself(bound, place, goes, comes)
        if not told[place] and bound.phrases[place].meant and len(places) > 1:
            side, weight = _ASPECTS.get(bound.phrases[place].meant[0], ("", 0.0))
            goes[place] += weight if side == "out" else 0.0
            comes[place] += weight if side == "in" else 0.0
    by_links(bound, places, clause, goes, comes)
    merged: dict[str, Thing] = {}
    for place in places:
        ids = ids_of(bound.phrases[place])
        thing = Thing(place, ids, goes[place], comes[place], frozenset(told[place]))
        earlier = merged.get(ids[0])
        if earlier is not None:
            thing = Thing(
                earlier.place, earlier.ids, earlier.goes + thing.goes, earlier.comes + thing.comes,
                earlier.told | thing.told,
            )  # fmt: skip
        merged[ids[0]] = thing
    return tuple(sorted(merged.values(), key=lambda one: one.place))


def _meant(bound: Bound, clause: Sequence[int], places: Sequence[int], cue: int) -> tuple[int | None, bool]:
    """The thing a stance word is said of, and whether it stands in the same clause."""
    here = [place for place in places if clause[place] == clause[cue]]
    after = next((place for place in here if place > cue and not _told_between(bound, cue, place)), None)
    before = next((place for place in reversed(here) if place < cue and not _told_between(bound, place, cue)), None)
    joined = cue + 1 < len(bound.phrases) and "and" in bound.phrases[cue + 1].ids("link")
    if after is not None and not (before is not None and joined):  # "lard's finished and ..." is said of lard
        return after, True
    if before is not None:
        return before, True
    if here:
        return None, True
    earlier = next((place for place in reversed(places) if place < cue), None)
    if earlier is not None:
        return earlier, False
    return next((place for place in places if place > cue), None), False


def _told_between(bound: Bound, first: int, last: int) -> bool:
    ends = {stance_of(bound.phrases[first]), stance_of(bound.phrases[last])}
    return any(stance_of(bound.phrases[i]) not in {None, *ends} for i in range(first + 1, last))


def _by_itself(bound: Bound, place: int, goes: dict[int, float], comes: dict[int, float]) -> None:
    """What a thing's own small words tell: "no honey", "not of the margarine", "the jar of molasses"."""
    after = bound.phrases[place + 1 : place + 3]
    ends = len(after) < 2 or after[1].kind == "sep"
    if bound.phrases[place].negated or (after and ends and fits(after[0], ("negation:no",))):
        goes[place] += 3.0  # "no butter", "butter not"
    elif after and ends and fits(after[0], ("away:out",)) and after[0].text.lower() == "out":
        goes[place] += 3.0  # "sugar's out too"
    elif after and ends and fits(after[0], ("stance:yes",)):
        comes[place] += 3.0  # "margarine yes"
    elif re.search(r"\bnot (out )?of\b", gap(bound, place)) or _denied_of(bound, place):
        comes[place] += 3.0


def _denied_of(bound: Bound, place: int) -> bool:
    """Whether "not of" stands before a thing: of that one there is some."""
    if place < 2 or "of" not in bound.phrases[place - 1].ids("link"):
        return False
    return bound.phrases[place - 2].text.lower() == "not"


