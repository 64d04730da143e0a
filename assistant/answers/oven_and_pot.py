"""What oven and pot take at once where nobody said, and which bread a word for pieces means."""

from __future__ import annotations

from assistant.engine.fits import baked_width_cm, tray_pieces
from knowledge import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.process import Process

TRAY_CM = (38.0, 34.0)
TRAYS = 2
"""A home oven where nobody said what it takes: two trays of this size."""
POT_PIECES = 6


def piece_bread(bread: str | None, piece: str | None, kb: Knowledge, boils: bool) -> Bread:
    """The bread a word for pieces most plausibly means; rings where they are boiled, else a plain roll."""
    if bread is not None:
        return kb.breads[bread]
    word = kb.words.get(f"piece {piece}") if piece else None
    if word is not None and word.bread is not None:
        return kb.breads[word.bread]
    return kb.breads["ring_roll" if boils else "crusty_roll"]


def process_of(bread: str, kb: Knowledge) -> Process:
    """How that bread is worked."""
    return next(process for process in kb.all(Process).values() if bread in process.breads)


def oven_takes(pieces_g: float, bread: Bread, process: Process) -> int:
    """Pieces a home oven with two trays takes, by their baked size."""
    width = baked_width_cm(pieces_g, bread.bake_loss_pct, process)
    return TRAYS * max(1, tray_pieces(*TRAY_CM, width, width * process.length_share, process.gap_cm))
