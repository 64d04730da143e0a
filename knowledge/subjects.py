"""What can be asked about, the shapes of the question, and small talk, as plain tables for the reader."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from knowledge.columns import columns, from_columns, pairs
from knowledge.loader import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.explanations import Explanation
from knowledge.records.flour_types import FlourType
from knowledge.records.ingredients import Ingredient
from knowledge.records.preferments import PrefermentKind
from knowledge.records.question_shapes import QuestionShape
from knowledge.records.small_talk import SmallTalk
from knowledge.vocabulary import Term, fold, plural

_KINDS = ((FlourType, "flour_type"), (PrefermentKind, "preferment"), (Ingredient, "ingredient"), (Bread, "bread"))


def subjects(kb: Knowledge) -> Mapping[str, tuple[Term, ...]]:
    """Folded name to what it can be, topics first; plurals too. Kept between runs."""
    return from_columns(kb.table("subjects", kb.digest(), lambda: columns(_subjects(kb))), pairs)


def besides(kb: Knowledge) -> Mapping[str, tuple[tuple[str, frozenset[str]], ...]]:
    """Folded name, plurals too, to the topics it is beside certain words, each with those words."""
    out: dict[str, list[tuple[str, frozenset[str]]]] = {}
    for topic in kb.all(Explanation).values():
        for name, words in topic.beside.items():
            needed = frozenset(fold(word) for word in words)
            for said in {fold(name), plural(fold(name)) or fold(name)}:
                out.setdefault(said, []).append((topic.id, needed))
    return {name: tuple(topics) for name, topics in out.items()}


def shapes(kb: Knowledge) -> Mapping[str, tuple[tuple[str, bool], ...]]:
    """Folded words to the shapes they are of, each with whether they stand before the thing asked about."""
    table = kb.table("shapes", kb.digest(), lambda: _shapes(kb))
    return {words: tuple((shape, before) for shape, before in found) for words, found in table.items()}


def small_talk(kb: Knowledge) -> Mapping[str, str]:
    """Folded phrase to what sort of small talk it is."""
    return {fold(form): talk.id for talk in kb.all(SmallTalk).values() for form in talk.said_as}


def small_talk_holds(kb: Knowledge) -> Mapping[str, str]:
    """The sorts of small talk that may name a bread, or hold hours and scores."""
    return {talk.id: talk.holds for talk in kb.all(SmallTalk).values() if talk.holds}


def _named(kb: Knowledge) -> Iterator[tuple[str, str, str]]:
    for topic in kb.all(Explanation).values():
        yield from ((name, "topic", topic.id) for name in topic.names)
    for record, kind in _KINDS:
        for one in kb.all(record).values():
            yield from ((name, kind, one.id) for name in getattr(one, "said_as", ()))
    for word in kb.words.values():
        if word.kind == "piece" and word.bread is not None and word.names_bread:
            yield from ((name, "bread", word.bread) for name in word.said_as)


def _subjects(kb: Knowledge) -> dict[str, list[Term]]:
    out: dict[str, list[Term]] = {}
    for name, kind, id in _named(kb):
        one = fold(name)
        for said in (one, plural(one)):
            if said and (kind, id) not in out.setdefault(said, []):
                out[said].append((kind, id))
    return out


def _shapes(kb: Knowledge) -> dict[str, Any]:
    out: dict[str, list[tuple[str, bool]]] = {}
    for shape in kb.all(QuestionShape).values():
        for words, before in ((shape.before, True), (shape.after, False)):
            for said in words:
                out.setdefault(fold(said), []).append((shape.id, before))
    return out
