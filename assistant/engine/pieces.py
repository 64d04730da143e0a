"""How many pieces and how heavy: said outright, after baking, by tin, by head, or usual for the bread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import ceil
from typing import TYPE_CHECKING

from assistant.engine.givens import Tin
from assistant.engine.house import LEAN_BREAD, Layer
from assistant.engine.naming import article, figure, grams
from assistant.engine.pans import room_in
from assistant.engine.refusal import Refused
from assistant.engine.settled import Settled
from knowledge.records.usual_doughs import UsualDough

if TYPE_CHECKING:
    from knowledge import Knowledge
    from knowledge.records.breads import Bread

TIN_BREAD = "pan_loaf"
WHOLEMEAL_TIN_BREAD = "wholewheat_pan"
RYE_TIN_BREAD = "high_rye"
TRAY_BREAD = "focaccia"
ONE_EACH_BELOW_G = 300.0
"""Breads whose usual piece is lighter than this are handed out whole, one a head; heavier ones are sliced."""


@dataclass(frozen=True, slots=True)
class PieceSize:
    """What is known of the pieces before the dough is solved; piece_assumed: nobody said how heavy one is."""

    pieces: float | None = None
    piece_g: float | None = None
    baked_g: float | None = None
    piece_assumed: bool = False
    layers: Mapping[str, Layer] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


def raw_for_baked_g(baked_g: float, bake_loss_pct: float) -> float:
    """Raw dough that comes out of the oven at `baked_g`: baked / (1 - loss)."""
    return baked_g / (1 - bake_loss_pct / 100)


def piece_size(settled: Settled, kb: Knowledge) -> PieceSize:
    """Pieces and piece mass as far as the givens and the bread tell."""
    said, bread = settled.givens, settled.bread
    layers: dict[str, Layer] = {}
    assumed: list[str] = []
    remarks: list[str] = []
    pieces, piece_g = said.pieces, said.piece_g
    if pieces is not None:
        layers["pieces"] = "said"
    if piece_g is not None:
        layers["piece_g"] = "said"
    lent = kb.breads[said.like] if said.like is not None else None
    oven = bread or lent or kb.breads[LEAN_BREAD]
    if said.baked_g is not None:
        if piece_g is None:
            piece_g = raw_for_baked_g(said.baked_g, oven.bake_loss_pct)
            layers["piece_g"] = "solved"
            assumed.append(f"bake loss {figure(oven.bake_loss_pct)} % ({oven.name.lower()})")
        elif said.baked_g >= piece_g:
            raise Refused(
                f"a piece of {grams(piece_g)} g dough cannot weigh {grams(said.baked_g)} g baked: bread loses water",
                f"{grams(raw_for_baked_g(said.baked_g, oven.bake_loss_pct))} g dough for {grams(said.baked_g)} g baked",
            )
    if said.tin is not None:
        fits_g, words = tin_dough_g(said.tin, settled, kb)
        pieces = pieces if pieces is not None else float(said.tin.count)
        if piece_g is None:
            piece_g = fits_g
            layers["piece_g"] = "solved"
            assumed.append(words)
        elif not 0.75 <= piece_g / fits_g <= 1.25:
            remarks.append(f"{grams(piece_g)} g in this tin: {grams(fits_g)} g is usual ({words})")
    elif said.portions is not None:
        return _by_head(said.portions, pieces, piece_g, oven, settled, layers, assumed)
    if pieces is None and piece_g is not None and not _sized(settled):
        pieces = 1.0
        assumed.append("one piece")
    if pieces is None and bread is not None and settled.givens.piece_g is None and not _sized(settled):
        pieces = 1.0
        assumed.append("one piece")
    guessed = False
    if pieces is not None and piece_g is None:
        piece_g, guessed = _usual_piece(settled, kb, layers, assumed), True
    guessed = guessed and piece_g is not None
    return PieceSize(pieces, piece_g, said.baked_g, guessed, layers, tuple(assumed), tuple(remarks))


def _usual_piece(
    settled: Settled, kb: Knowledge, layers: dict[str, Layer], assumed: list[str]
) -> float | None:
    """The kitchen's piece, else the bread's; Refused where neither is known and nothing else gives a size."""
    if settled.kept_piece_g is not None:
        layers["piece_g"] = "set"
        assumed.append(f"pieces of {figure(settled.kept_piece_g)} g (your setting)")
        return settled.kept_piece_g
    lent = kb.breads[settled.givens.like] if settled.givens.like is not None else None
    bread = settled.bread or (None if _sized(settled) else lent)
    if bread is not None and lent is not None and lent.piece_usual_g < ONE_EACH_BELOW_G <= bread.piece_usual_g:
        bread = lent  # rolls of a loaf's dough are as heavy as rolls
    if bread is not None:
        layers["piece_g"] = "assumed"
        assumed.append(f"pieces of {figure(bread.piece_usual_g)} g (usual for {article(bread.name.lower())})")
        return bread.piece_usual_g
    if _sized(settled):
        return None
    count = figure(settled.givens.pieces or 1)
    raise Refused(f"{count} pieces of what weight?", f"{count} pieces of 90 g")


def _sized(settled: Settled) -> bool:
    """Something other than pieces says how much dough."""
    said = settled.givens
    masses = (said.dough_g, said.bowl_flour_g, said.all_flour_g, said.water_g, said.starter_g, said.salt_g)
    weighed = [*(x.g for x in said.flours), *(x.g for x in said.extras)]
    return masses != (None,) * 6 or any(g is not None for g in weighed) or bool(said.max_g)


def _by_head(
    portions: float, pieces: float | None, piece_g: float | None, bread: Bread, settled: Settled,
    layers: dict[str, Layer], assumed: list[str],
) -> PieceSize:  # fmt: skip
    """Enough for so many: a roll or ring each, or slices of a loaf."""
    if portions <= 0:
        raise Refused("enough for nobody is no dough", "enough for 12")
    usual_g = piece_g if piece_g is not None else (settled.kept_piece_g or bread.piece_usual_g)
    if usual_g < ONE_EACH_BELOW_G:
        assumed.append("one piece a head")
        if piece_g is None:
            assumed.append(f"pieces of {figure(usual_g)} g (usual for {article(bread.name.lower())})")
        layers |= {"pieces": "assumed", "piece_g": "said" if piece_g is not None else "assumed"}
        return PieceSize(pieces or float(ceil(portions)), usual_g, None, False, layers, tuple(assumed))
    raw_g = raw_for_baked_g(portions * bread.portion_g, bread.bake_loss_pct)
    count = pieces or float(max(1, ceil(raw_g / bread.piece_high_g - 1e-9)))
    assumed.append(f"{figure(bread.portion_g)} g of bread a head, bake loss {figure(bread.bake_loss_pct)} %")
    layers |= {"pieces": "assumed", "piece_g": "solved"}
    each = piece_g if piece_g is not None else raw_g / count
    if piece_g is not None and pieces is None:
        count = float(max(1, ceil(raw_g / piece_g - 1e-9)))
    return PieceSize(count, each, None, False, layers, tuple(assumed))


def tin_dough_g(tin: Tin, settled: Settled, kb: Knowledge) -> tuple[float, str]:
    """Raw dough for one tin or tray and how that comes about, in words with the figures."""
    room = room_in(tin)
    bread = settled.bread
    if room.ml is not None:
        filled = bread if bread is not None and bread.tin_fill_g_per_ml else kb.breads[_tin_bread(settled)]
        fill = filled.tin_fill_g_per_ml or 0.28
        return room.ml * fill, f"{room.how}, filled at {fill:g} g/ml ({filled.name.lower()})"
    thickness = kb.all(UsualDough)
    known = thickness.get(bread.id) if bread is not None else None
    if known is None or known.tray_g_per_cm2_usual is None:
        known = thickness[TRAY_BREAD]
    g_per_cm2 = known.tray_g_per_cm2_usual or 0.65
    area = room.cm2 or 0.0
    return area * g_per_cm2, f"{room.how}, {g_per_cm2:g} g/cm2 ({kb.breads[known.id].name.lower()})"


def _tin_bread(settled: Settled) -> str:
    """Which tin bread's fill to go by: the flour tells."""
    rest_pct = 100 - sum(share.pct or 0.0 for share in settled.flours)
    pct = {share.item: rest_pct if share.rest else share.pct or 0.0 for share in settled.flours}
    rye = sum(share for item, share in pct.items() if "rye" in item)
    whole = sum(share for item, share in pct.items() if "whole_wheat" in item)
    if rye >= 80:
        return RYE_TIN_BREAD
    return WHOLEMEAL_TIN_BREAD if whole >= 50 else TIN_BREAD
