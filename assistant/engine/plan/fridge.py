"""How much of a fridge a dough fills, shaped on trays or in its tub; None said of the fridge: it takes all."""

from __future__ import annotations

import math

from assistant.engine.plan.asked import Batch, Kitchen

TRAY_L = 10.0
"""A tray of shaped pieces under its cover: about 38 x 34 x 8 cm."""
TUB_SPARE = 1.3
"""A tub holds the risen dough and a little air."""


def tray_pieces(kitchen: Kitchen) -> int:
    """Pieces on one tray: an oven's load on its trays."""
    return max(1, math.ceil(kitchen.oven_pieces / max(1, kitchen.trays)))


def trays_of(pieces: int, kitchen: Kitchen) -> int:
    """Trays that so many shaped pieces lie on."""
    return math.ceil(pieces / tray_pieces(kitchen))


def tub_l(batch: Batch) -> float:
    """Litres of the tub a bulk rises in."""
    return batch.dough_g / 1000 * (1 + batch.rise_bulk_pct / 100) * TUB_SPARE


def fridge_share(batch: Batch, kitchen: Kitchen, where: str) -> float:
    """Share of the fridge the dough fills; 0 where nobody said how much the fridge takes, above 1 it does not fit."""
    shares = [0.0]
    trays = trays_of(batch.pieces, kitchen)
    if kitchen.fridge_l is not None:
        shares.append((tub_l(batch) if where == "bulk" else trays * TRAY_L) / kitchen.fridge_l)
    if kitchen.fridge_trays is not None:
        shares.append((math.ceil(tub_l(batch) / TRAY_L) if where == "bulk" else trays) / kitchen.fridge_trays)
    if kitchen.fridge_pieces is not None and where != "bulk":
        shares.append(batch.pieces / kitchen.fridge_pieces)
    return max(shares)


def most_chilled(batch: Batch, kitchen: Kitchen) -> int:
    """The most shaped pieces of this batch that the fridge takes at once."""
    fits = [batch.pieces]
    if kitchen.fridge_l is not None:
        fits.append(int(kitchen.fridge_l // TRAY_L) * tray_pieces(kitchen))
    if kitchen.fridge_trays is not None:
        fits.append(kitchen.fridge_trays * tray_pieces(kitchen))
    if kitchen.fridge_pieces is not None:
        fits.append(kitchen.fridge_pieces)
    return min(fits)


def fits(batch: Batch, kitchen: Kitchen, cold: str) -> bool:
    """Whether the fridge takes the whole dough where it goes cold ("none": it does not)."""
    wheres = {"none": (), "both": ("bulk", "shaped")}.get(cold, (cold,))
    return all(fridge_share(batch, kitchen, where) <= 1 for where in wheres)
