"""What was said of a dough's size, each as one equation in its flour: pieces, masses, and the most there is."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor
from typing import TYPE_CHECKING

from assistant.engine.equations import Lines, Said
from assistant.engine.linear import ALL_FLOUR
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.parts import Part
from assistant.engine.pieces import PieceSize
from assistant.engine.refusal import Refused
from assistant.engine.settled import Settled

if TYPE_CHECKING:
    from knowledge import Knowledge

CLASH_SHARE = 0.01
CLASH_G = 1.0
"""Two sizes said for one dough are the same within this share, or these grams."""
LOSS_LIMIT_PCT = 10.0
"""A gap up to this between the dough said and the pieces said is taken for bench loss."""


def clashes(g: float, said_g: float) -> bool:
    """Whether a mass is another than the one said."""
    return abs(g - said_g) > max(CLASH_G, CLASH_SHARE * said_g)


@dataclass(frozen=True, slots=True)
class DoughSaid:
    """The dough's mass where pieces, a tin or the whole of it were said. loss_pct: bench loss, solved from both."""

    dough_g: float | None
    loss_pct: float
    loss_solved: bool = False


@dataclass(frozen=True, slots=True)
class SizesSaid:
    """The givens of a size. lines: how its masses run with the flour; piece: number and weight of the pieces."""

    settled: Settled
    lines: Lines
    piece: PieceSize
    kb: Knowledge

    def dough(self) -> DoughSaid:
        """The dough's mass where pieces, a tin or the whole dough were said; settles bench loss where both were."""
        said, piece, loss_pct = self.settled.givens, self.piece, self.settled.loss_pct
        sized_otherwise = said.dough_g is not None or self._flour_weighed() or self._water_weighed()
        from_pieces = None
        if piece.pieces is not None and piece.piece_g is not None and not (piece.piece_assumed and sized_otherwise):
            from_pieces = piece.pieces * piece.piece_g * (1 + loss_pct / 100)
        if said.dough_g is None or from_pieces is None:
            return DoughSaid(said.dough_g if said.dough_g is not None else from_pieces, loss_pct)
        assert piece.pieces is not None and piece.piece_g is not None
        bare = piece.pieces * piece.piece_g
        gap_pct = 100 * (said.dough_g / bare - 1)
        if said.loss_pct is None and -0.5 <= gap_pct <= LOSS_LIMIT_PCT:
            return DoughSaid(said.dough_g, gap_pct, loss_solved=True)
        if not clashes(from_pieces, said.dough_g):
            return DoughSaid(said.dough_g, loss_pct)
        raise Refused(
            f"{figure(piece.pieces)} pieces of {grams(piece.piece_g)} g are {grams(bare)} g, "
            f"and the dough is to be {grams(said.dough_g)} g",
            f"{figure(piece.pieces)} pieces of {grams(said.dough_g / piece.pieces / (1 + loss_pct / 100))} g, "
            f"or {floor(said.dough_g / piece.piece_g / (1 + loss_pct / 100) + 1e-9)} of {grams(piece.piece_g)} g",
        )

    def _flour_weighed(self) -> bool:
        said = self.settled.givens
        weighed = bool(said.flours) and all(share.g is not None for share in self.settled.flours)
        return said.bowl_flour_g is not None or said.all_flour_g is not None or weighed

    def _water_weighed(self) -> bool:
        said = self.settled.givens
        return said.water_g is not None or (said.starter_g is not None and self._starter_scales())

    def _starter_scales(self) -> bool:
        return self.lines.starter.share > 0

    def flour(self) -> list[Said]:
        """The equations a flour mass gives; flours weighed one by one come first, for they are rows already."""
        said, out = self.settled.givens, []
        shares = self.settled.flours
        if shares and all(share.g is not None for share in shares):
            g = sum(share.g or 0.0 for share in shares)
            out.append(Said("flour", self.lines.bowl, g, f"{grams(g)} g flour in the bowl"))
        if said.all_flour_g is not None:
            out.append(Said("flour", ALL_FLOUR, said.all_flour_g, f"{grams(said.all_flour_g)} g of all flour"))
        if said.bowl_flour_g is not None:
            name = f"{grams(said.bowl_flour_g)} g flour in the bowl"
            out.append(Said("flour", self.lines.bowl, said.bowl_flour_g, name))
        return out

    def masses(self, dough: DoughSaid, hydration: float) -> list[Said]:
        """Every equation that a mass said gives, flour first. hydration: a share."""
        said, out = self.settled.givens, self.flour()
        if dough.dough_g is not None:
            name = self.dough_name(dough.dough_g, dough.loss_pct)
            out.append(Said("dough", self.lines.dough(hydration), dough.dough_g, name))
        if said.water_g is not None:
            out.append(Said("water", self.lines.poured(hydration), said.water_g, f"{grams(said.water_g)} g water"))
        if said.starter_g is not None and self._starter_scales():
            out.append(Said("starter", self.lines.starter, said.starter_g, f"{grams(said.starter_g)} g starter"))
        if said.salt_g is not None and self.lines.salt.share > 0:
            out.append(Said("salt", self.lines.salt, said.salt_g, f"{grams(said.salt_g)} g salt"))
        for extra in said.extras:
            if extra.g is not None and extra.pct:
                name = short_name(self.kb.ingredients[extra.item])
                out.append(Said(extra.item, ALL_FLOUR * (extra.pct / 100), extra.g, f"{grams(extra.g)} g {name}"))
        return out

    def dough_name(self, dough_g: float, loss_pct: float) -> str:
        """The dough's mass in words, with the pieces it came from."""
        piece = self.piece
        if self.settled.givens.dough_g is not None or piece.pieces is None or piece.piece_g is None:
            return f"{grams(dough_g)} g dough"
        loss = f" and {figure(loss_pct)} % loss" if loss_pct else ""
        return f"{figure(piece.pieces)} x {figure(piece.piece_g)} g{loss} = {grams(dough_g)} g dough"

    def limits(self, parts: tuple[Part, ...], hydration: float) -> list[Said]:
        """Most there is of something, as equations."""
        out = []
        for limit in self.settled.givens.max_g:
            g, item = limit.g, limit.item
            if item == "flour":
                out.append(Said("flour", self.lines.bowl, g, f"{grams(g)} g flour"))
            elif item == "water":
                out.append(Said("water", self.lines.poured(hydration), g, f"{grams(g)} g water"))
            elif item == "starter" and self._starter_scales():
                out.append(Said("starter", self.lines.starter, g, f"{grams(g)} g starter"))
            else:
                part = next((part for part in parts if part.item == item), None)
                if part is not None and part.mass.share > 0:
                    out.append(Said(item, part.mass, g, f"{grams(g)} g {part.name}"))
                elif part is not None and part.mass.fixed_g > g:
                    raise Refused(
                        f"{grams(part.mass.fixed_g)} g {part.name} was asked for and there are only {grams(g)} g",
                        f"{grams(g)} g {part.name}",
                    )
        return out
