"""Which topic a question is most likely about, where nothing else accounts for its words.

The topic that the greatest share of the line's telling words belongs to; a word tells the more, the fewer topics have
it. Topics, senses and weights are handed in with the lexicon.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from grammar.frames import Line
from grammar.lexicon import Lexicon, fold

COVERED = 0.55
"""The share of what the words tell that a topic has to account for, to be what is asked about."""
_NAMED = 0.35
"""The share that has to stand among its names, and not only in what is told of it."""
_TOLD = 0.6
_LEAST = 1.5
"""How much the words of a question tell at least."""
_TOGETHER = 1.0
"""How much two senses tell beyond each by itself that stand in one name of a topic."""
_SEVERAL = 2
"""Senses that have to agree where none of the words is the name of a thing."""
_UNHEARD = 6.0
"""How much a word tells that no topic knows."""
_LONGEST = 4
CHANGED = frozenset({"left_out", "double", "half"})
"""Senses of more, less or none of a thing."""
_FOODS = ("ingredient", "flour_type")
_THINGS = (*_FOODS, "topic")
_FAR = 5
"""Words before the verb that asks what a thing does."""


@dataclass(frozen=True, slots=True)
class Found:
    """topic: its id; covered: the share of what the words tell; left: the telling words it has no place for."""

    topic: str
    covered: float
    left: tuple[str, ...]


def topic_of(line: Line, acting: str | None = None) -> Found | None:
    """The topic that accounts for most of the line; None where none clearly does.

    acting: the sense of a thing that has to be among what the topic is named by, and counts twice.
    """
    said = tuple(_telling(line))
    topics = line.lexicon.topics_by_sense
    if acting is not None:
        said = (*said, *(("", acting, weight) for _, sense, weight in said if sense == acting))
    whole = sum(weight for _, _, weight in said)
    if whole < _LEAST:
        return None
    covered: dict[str, float] = {}
    named: dict[str, float] = {}
    for _, sense, weight in said:
        for topic, surely in topics.get(sense, {}).items():
            covered[topic] = covered.get(topic, 0.0) + weight * surely
            named[topic] = named.get(topic, 0.0) + weight * (surely > _TOLD)
    if acting is not None:
        named = {topic: told for topic, told in named.items() if topics.get(acting, {}).get(topic, 0.0) > _TOLD}
    senses = sorted({sense for _, sense, _ in said})
    together = Counter(
        topic for pair in combinations(senses, 2) for topic in line.lexicon.topics_by_pair.get(" ".join(pair), ())
    )
    best = max(named, key=lambda topic: (covered[topic] + _TOGETHER * together[topic], named[topic]), default=None)
    if best is None or covered[best] < COVERED * whole or named[best] < _NAMED * whole:
        return None
    of_it = [(word, sense) for word, sense, _ in said if best in topics.get(sense, {})]
    if len({sense for _, sense in of_it}) < _SEVERAL and not any(_named(word, line.lexicon) for word, _ in of_it):
        return None
    left = tuple(word for word, sense, _ in said if best not in topics.get(sense, {}))
    return Found(best, covered[best] / whole, left)


def thing_acting(line: Line) -> str | None:
    """The sense of what does something to something else ("does salt slow it", "is it true that eggs …"), or of which
    there would be more, less or none ("what if I skip the milk")."""
    words = fold(re.sub(r"[^\w'’-]+", " ", line.text)).split()
    small = line.lexicon.small
    supposes = small("acting", "supposes").intersection(words)
    if supposes and CHANGED.intersection(sense for _, sense in _senses(line.text, line.lexicon)):
        return next(
            (name for at in range(len(words)) if (name := _thing(words, at, line.lexicon, _FOODS))),
            None,
        )
    start = next((n + 1 for n, word in enumerate(words[:_FAR]) if word in small("acting")), None)
    if start is None or small("asked_how").intersection(words[:start]):
        return None
    if small("acting_it").intersection(words[start : start + 1]):
        return None
    heard = (
        word
        for word in words[start:-1]
        if _sense(word, line.lexicon) and line.lexicon.telling.get(line.lexicon.sense(word), 1)
    )
    first = next(heard, None)
    return _thing(words, words.index(first, start), line.lexicon, _THINGS) if first is not None else None


def _thing(words: list[str], at: int, lexicon: Lexicon, kinds: tuple[str, ...]) -> str | None:
    """The sense of a thing of the trade named at a place, the longer name first; None where none is."""
    for count in (2, 1):
        name = " ".join(words[at : at + count])
        terms = lexicon.subjects.get(name, ())
        if name not in lexicon.small("stop") and any(kind in kinds for kind, _ in terms) and lexicon.sense(name):
            return lexicon.sense(name)
    return None


def _named(word: str, lexicon: Lexicon) -> bool:
    """Whether a word by itself names something that can be asked about."""
    return bool(lexicon.subjects.get(word)) or any(kind in _THINGS for kind, _ in lexicon.phrases.get(word, ()))


def _telling(line: Line) -> Iterator[tuple[str, str, float]]:
    """(as typed, sense, how much it tells) of every word that tells something."""
    lexicon = line.lexicon
    passed = {word for token in line.tokens if token.kind == "FILL" or token.idle for word in fold(token.text).split()}
    for word, sense in _senses(line.text, lexicon):
        weight = lexicon.telling.get(sense)
        if weight is None and not passed.issuperset(word.split()) and _carries(word, lexicon):
            weight = _UNHEARD
        if weight:
            yield word, sense, weight


def _carries(word: str, lexicon: Lexicon) -> bool:
    """Whether a word that no topic knows is more than plain English round a question."""
    return word in lexicon.weighty or not lexicon.letter(word)


def _senses(text: str, lexicon: Lexicon) -> Iterator[tuple[str, str]]:
    """The turns and words of a text with their senses, the longest turn at each place; small words left out."""
    words = fold(re.sub(r"[^\w'’-]+", " ", text)).split()
    at = 0
    while at < len(words):
        turns = (" ".join(words[at : at + count]) for count in range(min(_LONGEST, len(words) - at), 0, -1))
        turn = next((turn for turn in turns if _sense(turn, lexicon)), words[at])
        yield from _of_one(turn, lexicon)
        at += turn.count(" ") + 1


def _sense(turn: str, lexicon: Lexicon) -> str:
    return "" if turn in lexicon.small("stop") else lexicon.sense(turn)


def _of_one(turn: str, lexicon: Lexicon) -> Iterator[tuple[str, str]]:
    """A word with its sense; one of a thing left out with both."""
    thing = next((turn.removesuffix(end) for end in lexicon.small("left_out_ending") if turn.endswith(end)), "")
    if thing and _known(thing, lexicon.telling, lexicon):
        yield from ((turn, lexicon.sense(part)) for part in (thing, "without"))
    elif sense := _sense(turn, lexicon):
        yield turn, sense


def _known(thing: str, telling: Mapping[str, float], lexicon: Lexicon) -> bool:
    return lexicon.sense(thing) in telling
