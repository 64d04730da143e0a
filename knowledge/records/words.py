"""Words of the trade and of plain talk that no other record brings: cues, fillers, negations, pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge


COUNTED_KINDS = frozenset({"piece"})
"""Kinds of word that name things of which there can be several."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word(Record):
    """One meaning and the ways of saying it.

    `kind` is the kind of word (cue, ask, act, filler, negation, link, piece …), the id what it means; a kind and id
    may stand in several files, each adding said forms. For words of kind `piece`: `bread` is the bread such a piece
    plausibly is, `names_bread` whether saying the word names that bread.
    """

    kind: str
    said_as: tuple[str, ...]
    bread: str | None = None
    names_bread: bool = False
    note: str | None = None
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"

    def term_kind(self) -> str:
        return self.kind

    def counted(self) -> bool:
        return self.kind in COUNTED_KINDS

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if not self.said_as:
            yield "said_as: is empty"
        if self.bread is not None and self.bread not in kb.breads:
            yield f"bread: no bread '{self.bread}'"
        if self.names_bread and self.bread is None:
            yield "names_bread: needs a bread to name"


FAMILY = Family(folder="words", record=Word, joined=True)
