"""Which bread is meant: named, or what such a piece plausibly is, or the one in hand; and how it is worked."""

from __future__ import annotations

from typing import Any

from assistant.talk.room import Room
from knowledge import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.process import Process


def bread_of(room: Room, bread: str | None, piece: str | None) -> Bread | None:
    """The bread named, or that such a piece plausibly is, or the one in hand."""
    if bread is not None:
        return room.kb.breads[bread]
    found = of_piece(piece, room.kb)
    if found is not None or room.formula_said is None:
        return found
    return bread_of_formula(room, room.formula_said)


def bread_of_formula(room: Room, said: Any) -> Bread | None:
    """The bread of a formula request: named, or what such a piece plausibly is."""
    return room.kb.breads[said.bread] if said.bread is not None else of_piece(said.piece, room.kb)


def of_piece(piece: str | None, kb: Knowledge) -> Bread | None:
    """The bread a word for pieces most plausibly means; None where it may be any."""
    word = kb.words.get(f"piece {piece}") if piece else None
    return kb.breads[word.bread] if word is not None and word.bread is not None else None


def piece_bread(bread: str | None, piece: str | None, kb: Knowledge, boils: bool) -> Bread:
    """The bread named or that a word for pieces most plausibly means; rings where boiled, else a plain roll."""
    if bread is not None:
        return kb.breads[bread]
    return of_piece(piece, kb) or kb.breads["ring_roll" if boils else "crusty_roll"]


def process_of(bread: Bread, kb: Knowledge) -> Process:
    """How that bread is worked."""
    return next(process for process in kb.all(Process).values() if bread.id in process.breads)
