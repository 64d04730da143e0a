"""What oven and pot take at once where nobody said."""

from __future__ import annotations

from assistant.engine.fits import baked_width_cm, tray_pieces
from knowledge.records.breads import Bread
from knowledge.records.process import Process

TRAY_CM = (38.0, 34.0)
TRAYS = 2
"""A home oven where nobody said what it takes: two trays of this size."""
POT_PIECES = 6


def oven_takes(pieces_g: float, bread: Bread, process: Process) -> int:
    """Pieces a home oven with two trays takes, by their baked size."""
    width = baked_width_cm(pieces_g, bread.bake_loss_pct, process)
    return TRAYS * max(1, tray_pieces(*TRAY_CM, width, width * process.length_share, process.gap_cm))
