"""Which topics the words of a question may mean: each word brought to its sense, and how much every sense tells."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from itertools import combinations
from math import log
from typing import Any

from knowledge.loader import Knowledge
from knowledge.records.explanations import Explanation
from knowledge.records.senses import Sense
from knowledge.vocabulary import fold

KEY, AMONG, TOLD = 1.0, 0.7, 0.6
"""What it counts that a word stands in all names of a topic, in one of many, or only in what is told of it."""
_LONGEST = 4
_ENDINGS = (
    "ingly", "edly", "iness", "ness", "ings", "ing", "iest", "ier", "ies", "est", "ers", "er", "en", "ed", "es", "ly",
    "s", "e", "y",
)  # fmt: skip
_ROOT = 3
"""Letters that an ending leaves at least."""


def senses(kb: Knowledge) -> Callable[[str], str]:
    """What brings a folded word or turn to its sense; a word of no known sense to its root, a turn to ""."""

    @cache
    def table() -> Mapping[str, str]:
        said = {fold(form): sense.id for sense in kb.all(Sense).values() for form in sense.said_as}
        return {**{_root(form): id for form, id in said.items() if " " not in form}, **said}

    @lru_cache(maxsize=4096)
    def sense_of(said: str) -> str:
        if said in table() or " " in said:
            return table().get(said, "")
        return table().get(_root(said), _root(said))

    return sense_of


def topics_of(kb: Knowledge) -> Mapping[str, Mapping[str, float]]:
    """Sense to the topics it may mean, each with how surely. Kept between runs."""
    topics: Mapping[str, Mapping[str, float]] = _table(kb)["topics"]
    return topics


def pairs_of(kb: Knowledge) -> Mapping[str, list[str]]:
    """Two senses, in the order of the alphabet, to the topics that have both in one name."""
    pairs: Mapping[str, list[str]] = _table(kb)["pairs"]
    return pairs


def weights_of(kb: Knowledge) -> Mapping[str, float]:
    """Sense to how much it tells: the rarer among the topics, the more."""
    weights: Mapping[str, float] = _table(kb)["weights"]
    return weights


def _table(kb: Knowledge) -> dict[str, Any]:
    table: dict[str, Any] = kb.table("question_senses", kb.digest(), lambda: _made(kb))
    return table


def _made(kb: Knowledge) -> dict[str, Any]:
    """Questions of health are found by what they say alone, never by likeness."""
    sense_of = senses(kb)
    topics: dict[str, dict[str, float]] = {}
    pairs: dict[str, list[str]] = {}
    all_topics = [topic for topic in kb.all(Explanation).values() if not topic.safety]
    for topic in all_topics:
        beside = (f"{name} {word}" for name, words in topic.beside.items() for word in words)
        names = [set(in_senses(text, sense_of)) for text in (topic.title, *topic.names, *topic.said_as, *beside)]
        for pair in {pair for name in names for pair in combinations(sorted(name), 2)}:
            pairs.setdefault(" ".join(pair), []).append(topic.id)
        for sense in set().union(*names):
            share = sum(sense in name for name in names) / len(names)
            topics.setdefault(sense, {})[topic.id] = round(AMONG + (KEY - AMONG) * share, 3)
        for sense in in_senses(f"{topic.text} {topic.more}", sense_of):
            topics.setdefault(sense, {}).setdefault(topic.id, TOLD)
    counts = {sense.id: sense.weight for sense in kb.all(Sense).values()}
    weights = {
        sense: round(counts.get(sense, 1.0) * log(1 + len(all_topics) / sum(found.values())), 3)
        for sense, found in topics.items()
    }
    return {
        "pairs": pairs,
        "topics": topics,
        "weights": {**{one: 0.0 for one, part in counts.items() if not part}, **weights},
    }


def in_senses(text: str, sense_of: Callable[[str], str]) -> list[str]:
    """The senses of a text in their order, the longest turn at each place."""
    words = fold(re.sub(r"[^\w'’-]+", " ", text)).split()
    out: list[str] = []
    at = 0
    while at < len(words):
        for count in range(min(_LONGEST, len(words) - at), 0, -1):
            sense = sense_of(" ".join(words[at : at + count]))
            if sense:
                out.append(sense)
                at += count
                break
    return out


def _root(word: str) -> str:
    """A word without its ending."""
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= _ROOT:
            word = word[: -len(ending)]
            return word[:-1] if word[-1:] == word[-2:-1] and word[-1] not in "ls" else word
    return word
