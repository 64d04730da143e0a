"""What bakers say when something is wrong, as one plain table beside the vocabulary.

Symptoms, pictures, findings and dangers are said in whole turns of speech ("no holes", "straight from the fridge", "forgot
the salt"). In the vocabulary they would swallow words of other requests, so they stand in a table of their own, which the
reader opens only where it reads a complaint. A phrase that several records say has several meanings; what the line is
about then decides.
"""

from __future__ import annotations

from collections.abc import Mapping

from knowledge.loader import Knowledge
from knowledge.record import Record
from knowledge.records.diagnosis_dangers import Danger
from knowledge.records.diagnosis_findings import Finding
from knowledge.records.diagnosis_pictures import Picture
from knowledge.records.diagnosis_symptoms import Symptom
from knowledge.vocabulary import Term, fold

_SPOKEN: tuple[type[Record], ...] = (Danger, Symptom, Finding, Picture)


def complaints(kb: Knowledge) -> Mapping[str, tuple[Term, ...]]:
    """Folded phrase to its meanings, (kind, id): danger, symptom, finding, picture. Kept between runs."""
    table = kb.table("complaints", kb.digest(), lambda: _phrases(kb))
    return {phrase: tuple((kind, id) for kind, id in terms) for phrase, terms in table.items()}


def _phrases(kb: Knowledge) -> dict[str, list[Term]]:
    phrases: dict[str, list[Term]] = {}
    for kind_of in _SPOKEN:
        kind = str(getattr(kind_of, "COMPLAINT_KIND"))  # noqa: B009 - only these four classes have one
        for record in kb.all(kind_of).values():
            for form in getattr(record, "said_as", ()):
                terms = phrases.setdefault(fold(form), [])
                if (kind, record.id) not in terms:
                    terms.append((kind, record.id))
    phrases.pop("", None)
    return phrases
