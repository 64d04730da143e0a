"""What every trade fact has in common, and how a family of facts is declared.

A family is one folder of YAML files, `knowledge/<folder>/*.yaml`, each a mapping `id: {fields}`, and one
frozen dataclass that says which fields a record of the family has. The declaration lives in
`knowledge/records/`: a module there with a `Family` in it is found by the loader without being listed anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

Confidence = Literal["measured", "textbook", "rule_of_thumb"]
"""measured: somebody weighed, timed or assayed it; textbook: published trade or scientific text; rule_of_thumb:
an estimate, a proxy or bakery practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One trade fact: its id in the family, where it comes from and how far it can be trusted.

    A subclass with a field `said_as: tuple[str, ...]` and a `TERM_KIND` becomes vocabulary: whoever types one of
    the said forms means `(TERM_KIND, id)`.
    """

    id: str
    source: str
    confidence: Confidence

    TERM_KIND: ClassVar[str] = ""
    COUNTED: ClassVar[bool] = False
    """Its said forms are things that can be several: the vocabulary takes in their plurals."""

    def counted(self) -> bool:
        """Whether the said forms have plurals that mean the same."""
        return self.COUNTED

    def term_kind(self) -> str:
        """The kind of word its said forms are; empty when the record is no vocabulary."""
        return self.TERM_KIND

    def terms(self) -> Iterator[tuple[str, str]]:
        """What whoever types one of its said forms can mean, as (kind, id)."""
        kind = self.term_kind()
        if kind:
            yield kind, self.id

    def forms(self, kb: Knowledge) -> tuple[str, ...]:
        """All its said forms: those written down, and any that follow from them and the words of `kb`."""
        written: tuple[str, ...] = getattr(self, "said_as", ())
        return written

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """What is wrong with the record beyond the shape of its fields, each as `field: what is wrong`.

        `kb` serves for references to other records. Called by `Knowledge.check` and for a baker's own records.
        """
        return iter(())


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """A folder of records of one class.

    `joined`: the same id may stand in several files, or twice with different kinds; records of one kind and id are
    joined and their said forms added up. Meant for words, which every topic brings in a file of its own.
    """

    folder: str
    record: type[Record]
    joined: bool = False
