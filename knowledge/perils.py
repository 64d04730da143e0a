"""The danger words and the pairs they make a danger by, as plain tables for the reader."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from knowledge.columns import columns, from_columns
from knowledge.loader import Knowledge
from knowledge.records.danger_words import DangerWord, both_of
from knowledge.records.diagnosis_dangers import Danger, parts_of
from knowledge.vocabulary import fold, plural, verb_forms

Rule = tuple[tuple[str | tuple[str, str], ...], int]


def perilous(kb: Knowledge) -> Mapping[str, tuple[str, ...]]:
    """Folded phrase to the danger words it is, plurals too. Kept between runs."""
    return from_columns(kb.table("perilous", kb.digest(), lambda: columns(_phrases(kb))), tuple)


def made_perilous(kb: Knowledge) -> tuple[tuple[str, str, str, bool], ...]:
    """(danger word, the two it is made of, whether only small words stand between), parts before wholes."""
    return tuple((id, first, second, near) for id, first, second, near in _table(kb)["made"])


def perilous_numbers(kb: Knowledge) -> tuple[tuple[str, float, float], ...]:
    """(danger word, least, most) of those that are a bare number."""
    return tuple((id, least, most) for id, least, most in _table(kb)["numbers"])


def perils(kb: Knowledge) -> tuple[tuple[str, tuple[Rule, ...], tuple[str, ...], int], ...]:
    """(id, rules, unless, rank) of each danger; a rule is its parts and the most words they may lie apart."""
    return tuple(
        (id, tuple((tuple(_part(p) for p in parts), within) for parts, within in rules), tuple(unless), rank)
        for id, rules, unless, rank in _table(kb)["perils"]
    )


def _table(kb: Knowledge) -> Mapping[str, Any]:
    found: Mapping[str, Any] = kb.table("perils", kb.digest(), lambda: _rules(kb))
    return found


def _part(text: str) -> str | tuple[str, str]:
    thing, _, befell = text.partition("~")
    return (thing, befell) if befell else thing


def _phrases(kb: Knowledge) -> dict[str, list[str]]:
    phrases: dict[str, list[str]] = {}
    for word in kb.all(DangerWord).values():
        listed = [said for form in word.said_as for said in (fold(form), plural(fold(form)))]
        for said in (*listed, *(form for verb in word.verbs for form in verb_forms(verb))):
            if said and word.id not in phrases.setdefault(said, []):
                phrases[said].append(word.id)
    return phrases


def _rules(kb: Knowledge) -> dict[str, Any]:
    words = kb.all(DangerWord).values()
    made = [(word.id, *both_of(rule)) for word in words for rule in word.made_of]
    whole = {id for id, *_ in made}
    return {
        "made": sorted(made, key=lambda one: (one[1] in whole or one[2] in whole, one[0])),
        "numbers": [(word.id, *word.numbers) for word in words if len(word.numbers) == 2],
        "perils": [
            (one.id, [parts_of(rule, one.within) for rule in one.when], one.unless, one.rank)
            for one in kb.all(Danger).values()
        ]
    }
