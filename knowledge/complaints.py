"""What bakers say when something is wrong, as one plain table beside the vocabulary.

Symptoms and findings are said in whole turns of speech ("no holes", "straight from the fridge",
"forgot the salt"). In the vocabulary they would swallow words of other requests, so they stand in a table of their own,
which the reader opens only where it reads a complaint. A phrase that several records say has several meanings; what the
line is about then decides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from knowledge.columns import columns, from_columns, pairs
from knowledge.loader import Knowledge
from knowledge.record import Record
from knowledge.records.diagnosis_cues import Cue
from knowledge.records.diagnosis_findings import Finding
from knowledge.records.diagnosis_looks import Look, Part
from knowledge.records.diagnosis_questions import Question
from knowledge.records.diagnosis_symptoms import Symptom
from knowledge.vocabulary import Term, comparative, fold, plural, verb_forms

_SPOKEN: tuple[type[Record], ...] = (Symptom, Finding)


@dataclass(frozen=True, slots=True)
class Complaints:
    """What is said of faults.

    phrases: folded phrase to its meanings, (kind, id), kinds symptom, finding; cues: likewise for the words that steer
    (kinds subject, figure, agent, talk, ask); trade_of: symptom to what it is a fault of (bread, dough, starter);
    denied: finding to the one that holds where it is denied; shows: finding to the symptom it is by itself; about:
    finding to what it reports on; answers: for each question, few words to the finding they mean there; parts: words to
    (part, its whole); looks: words to properties; look_of: of each, part to symptom, the same denied, the symptom
    alone, the same denied, the context it needs.
    """

    cues: Mapping[str, tuple[Term, ...]]
    phrases: Mapping[str, tuple[Term, ...]]
    trade_of: Mapping[str, str]
    denied: Mapping[str, str]
    shows: Mapping[str, str]
    about: Mapping[str, str]
    answers: Mapping[str, Mapping[str, str]]
    parts: Mapping[str, tuple[tuple[str, str], ...]]
    looks: Mapping[str, tuple[str, ...]]
    look_of: Mapping[str, tuple[Mapping[str, str], Mapping[str, str], str, str, str]]


def complaints(kb: Knowledge) -> Complaints:
    """What is said of faults. Kept between runs."""
    table = kb.table("complaints", kb.digest(), lambda: _tables(kb))
    phrases = from_columns(table["phrases"], pairs)
    cues = {phrase: tuple((kind, id) for kind, id in terms) for phrase, terms in table["cues"].items()}
    return Complaints(
        cues,
        phrases,
        table["trade_of"],
        table["denied"],
        table["shows"],
        table["about"],
        table["answers"],
        {words: tuple((part, whole) for part, whole in found) for words, found in table["parts"].items()},
        {words: tuple(names) for words, names in table["looks"].items()},
        {name: (one[0], one[1], one[2], one[3], one[4]) for name, one in table["look_of"].items()},
    )


def _tables(kb: Knowledge) -> dict[str, Any]:
    return {
        "phrases": columns(_phrases(kb)),
        "cues": _cues(kb),
        "trade_of": {symptom.id: symptom.of for symptom in kb.all(Symptom).values()},
        "denied": {one.id: one.opposite for one in kb.all(Finding).values() if one.opposite is not None},
        "answers": {
            question.id: {fold(form): finding for finding, forms in question.short.items() for form in forms}
            for question in kb.all(Question).values()
        },
        "parts": _said(kb, Part),
        "looks": _said(kb, Look),
        "look_of": {
            one.id: [dict(one.of), dict(one.denied), one.alone, one.unsaid, one.when] for one in kb.all(Look).values()
        },
        "about": {one.id: one.about for one in kb.all(Finding).values()},
        "shows": {one.id: one.shows for one in kb.all(Finding).values() if one.shows is not None},
    }


def _said(kb: Knowledge, record: type[Part] | type[Look]) -> dict[str, list[Any]]:
    """Folded words, plurals too, to the parts (with their whole) or looks they name."""
    out: dict[str, list[Any]] = {}
    for one in kb.all(record).values():
        for form in _forms(one):
            for said in (form, plural(form)):
                meant = [one.id, one.of] if isinstance(one, Part) else one.id
                if said and meant not in out.setdefault(said, []):
                    out[said].append(meant)
    return out


def _forms(one: Part | Look) -> Iterator[str]:
    """Everything a part or look is said as, folded: the degrees of its adjectives and the forms of its verbs too."""
    yield from (fold(form) for form in one.said_as)
    if isinstance(one, Look):
        yield from (form for word in one.adjectives for form in (word, comparative(word)))
        yield from (form for verb in one.verbs for form in verb_forms(verb))


def _cues(kb: Knowledge) -> dict[str, list[Term]]:
    cues: dict[str, list[Term]] = {}
    for cue in kb.all(Cue).values():
        for form in cue.said_as:
            terms = cues.setdefault(fold(form), [])
            if (cue.kind, cue.name) not in terms:
                terms.append((cue.kind, cue.name))
    return cues


def _phrases(kb: Knowledge) -> dict[str, list[Term]]:
    phrases: dict[str, list[Term]] = {}
    for kind_of in _SPOKEN:
        kind = str(getattr(kind_of, "COMPLAINT_KIND"))  # noqa: B009 - only these two classes have one
        for record in kb.all(kind_of).values():
            for form in getattr(record, "said_as", ()):
                terms = phrases.setdefault(fold(form), [])
                for meant in (record.id, *getattr(record, "also", ())):
                    if (kind, meant) not in terms:
                        terms.append((kind, meant))
    phrases.pop("", None)
    return phrases
