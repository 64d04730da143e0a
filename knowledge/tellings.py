"""How a bake under way is told of, as one plain table beside the vocabulary.

Most of these words are everyday ones ("put", "in", "up", "over") that mean something only in a report, so they stand in
a table of their own, which the reader opens where it reads one.
"""

from __future__ import annotations

from collections.abc import Mapping

from knowledge.loader import Knowledge
from knowledge.records.tellings import Telling
from knowledge.vocabulary import Term, fold


def tellings(kb: Knowledge) -> Mapping[str, tuple[Term, ...]]:
    """Folded phrase to (kind, what it means); what is the record's note where it has one. Kept between runs."""
    table = kb.table("tellings", kb.digest("telling"), lambda: _table(kb))
    return {phrase: tuple((kind, what) for kind, what in terms) for phrase, terms in table.items()}


def _table(kb: Knowledge) -> dict[str, list[Term]]:
    found: dict[str, list[Term]] = {}
    for record in kb.all(Telling).values():
        for form in record.said_as:
            terms = found.setdefault(fold(form), [])
            term = (record.kind, record.note or record.id)
            if term not in terms:
                terms.append(term)
    return found
