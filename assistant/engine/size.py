"""How much dough: the one unknown scale, found from whichever sizes were said and checked against the others.

With F for all flour, h for hydration, W for the water inside the parts and N for everything that is neither flour nor
counted water: dough = F·(1 + h) + N, plain water = h·F - W. Each thing said is one such equation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import floor
from typing import TYPE_CHECKING

from assistant.engine.equations import Lines, Said, lines_of
from assistant.engine.house import Layer
from assistant.engine.linear import ALL_FLOUR
from assistant.engine.naming import figure, grams, short_name
from assistant.engine.parts import Part
from assistant.engine.pieces import PieceSize, piece_size
from assistant.engine.refusal import Refused
from assistant.engine.settled import Settled

if TYPE_CHECKING:
    from knowledge import Knowledge

CLASH_SHARE = 0.01
CLASH_G = 1.0
LOSS_LIMIT_PCT = 10.0
"""A gap up to this between the dough said and the pieces said is taken for bench loss."""


@dataclass(frozen=True, slots=True)
class Size:
    """The scale of one dough. spare_g: dough over after whole pieces. sized_by: what fixed it, in words with figures;
    sized_what: the kind of thing that was (flour, dough, water, starter, an item). parts: the parts it was solved with,
    masses that were said made smaller where something does not reach for them."""

    flour_g: float
    hydration_pct: float
    pieces: float | None
    piece_g: float | None
    baked_g: float | None
    loss_pct: float
    spare_g: float
    sized_by: str
    sized_what: str
    parts: tuple[Part, ...]
    layers: Mapping[str, Layer]
    assumed: tuple[str, ...]
    remarks: tuple[str, ...]


def size_of(settled: Settled, parts: tuple[Part, ...], kb: Knowledge) -> Size:
    """Solve for flour and, where it was not said, for hydration. Refused on a clash, or where nothing gives a size."""
    lines = lines_of(parts)
    return _Sizing(settled, parts, lines, piece_size(settled, kb), kb).size()


class _Sizing:
    def __init__(
        self, settled: Settled, parts: tuple[Part, ...], lines: Lines, piece: PieceSize, kb: Knowledge
    ) -> None:
        self.settled, self.said = settled, settled.givens
        self.parts, self.lines, self.piece, self.kb = parts, lines, piece, kb
        self.layers: dict[str, Layer] = dict(piece.layers)
        self.assumed: list[str] = list(piece.assumed)
        self.remarks: list[str] = list(piece.remarks)
        self.loss_pct = settled.loss_pct

    def size(self) -> Size:
        dough_g = self.dough_said()
        flour_says = self.flour_says()
        h = self.settled.hydration_pct
        hydration = h / 100 if h is not None else self.solved_hydration(dough_g, flour_says)
        says = self.all_says(dough_g, flour_says, hydration)
        limits = self.limits(hydration)
        if not says and not limits:
            raise Refused(
                "there is no size in that: how much dough is it to be?",
                "a number of pieces and their weight, an amount of flour, or the whole dough's weight",
            )
        by = says[0] if says else min(limits, key=self.flour_for)
        flour_g = self.flour_for(by)
        for other in says[1:]:
            self.check(by, other, flour_g)
        passed = [x for x in limits if x.line.at(flour_g) > x.g * 1.0005]
        limit = min(passed, key=lambda x: x.g / x.line.at(flour_g), default=None)
        if limit is not None:
            factor = limit.g / limit.line.at(flour_g)
            flour_g *= factor
            self.parts = tuple(part.shrunk(factor) for part in self.parts)
            self.lines = lines_of(self.parts)
        return self.pieces_made(flour_g, hydration, by, limit)

    def dough_said(self) -> float | None:
        """The dough's mass where pieces, a tin or the whole dough were said; settles bench loss where both were."""
        said, piece = self.said, self.piece
        sized_otherwise = said.dough_g is not None or self.weighed_flour() or self.waterlike()
        from_pieces = None
        if piece.pieces is not None and piece.piece_g is not None and not (piece.piece_assumed and sized_otherwise):
            from_pieces = piece.pieces * piece.piece_g * (1 + self.loss_pct / 100)
        if said.dough_g is None or from_pieces is None:
            return said.dough_g if said.dough_g is not None else from_pieces
        assert piece.pieces is not None and piece.piece_g is not None
        bare = piece.pieces * piece.piece_g
        gap_pct = 100 * (said.dough_g / bare - 1)
        if said.loss_pct is None and -0.5 <= gap_pct <= LOSS_LIMIT_PCT:
            self.loss_pct = gap_pct
            self.layers["loss_pct"] = "solved"
            return said.dough_g
        if abs(from_pieces - said.dough_g) <= max(CLASH_G, CLASH_SHARE * said.dough_g):
            return said.dough_g
        raise Refused(
            f"{figure(piece.pieces)} pieces of {grams(piece.piece_g)} g are {grams(bare)} g, "
            f"and the dough is to be {grams(said.dough_g)} g",
            f"{figure(piece.pieces)} pieces of {grams(said.dough_g / piece.pieces / (1 + self.loss_pct / 100))} g, "
            f"or {floor(said.dough_g / piece.piece_g / (1 + self.loss_pct / 100) + 1e-9)} of {grams(piece.piece_g)} g",
        )

    def weighed_flour(self) -> bool:
        said = self.said
        weighed = bool(said.flours) and all(share.g is not None for share in self.settled.flours)
        return said.bowl_flour_g is not None or said.all_flour_g is not None or weighed

    def waterlike(self) -> bool:
        return self.said.water_g is not None or (self.said.starter_g is not None and self.starter_scales())

    def starter_scales(self) -> bool:
        return self.lines.starter.share > 0

    def flour_says(self) -> list[Said]:
        """The equations a flour mass gives; flours weighed one by one come first, for they are rows already."""
        said, out = self.said, []
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

    def all_says(self, dough_g: float | None, flour_says: list[Said], hydration: float) -> list[Said]:
        said, out = self.said, list(flour_says)
        if dough_g is not None:
            out.append(Said("dough", self.lines.dough(hydration), dough_g, self.dough_name(dough_g)))
        if said.water_g is not None:
            out.append(Said("water", self.lines.poured(hydration), said.water_g, f"{grams(said.water_g)} g water"))
        if said.starter_g is not None and self.starter_scales():
            out.append(Said("starter", self.lines.starter, said.starter_g, f"{grams(said.starter_g)} g starter"))
        if said.salt_g is not None and self.lines.salt.share > 0:
            out.append(Said("salt", self.lines.salt, said.salt_g, f"{grams(said.salt_g)} g salt"))
        for extra in said.extras:
            if extra.g is not None and extra.pct:
                name = short_name(self.kb.ingredients[extra.item])
                out.append(Said(extra.item, ALL_FLOUR * (extra.pct / 100), extra.g, f"{grams(extra.g)} g {name}"))
        return out

    def dough_name(self, dough_g: float) -> str:
        piece = self.piece
        if self.said.dough_g is not None or piece.pieces is None or piece.piece_g is None:
            return f"{grams(dough_g)} g dough"
        loss = f" and {figure(self.loss_pct)} % loss" if self.loss_pct else ""
        return f"{figure(piece.pieces)} x {figure(piece.piece_g)} g{loss} = {grams(dough_g)} g dough"

    def solved_hydration(self, dough_g: float | None, flour_says: list[Said]) -> float:
        """Hydration (a share) from two masses; plain water that was not said counts as none."""
        said = self.said
        flour_g = self.flour_for(flour_says[0]) if flour_says else None
        if flour_g is not None and said.water_g is not None:
            return (said.water_g + self.lines.water.at(flour_g)) / flour_g
        if flour_g is not None and dough_g is not None and not said.from_masses:
            h = (dough_g - self.lines.dry.at(flour_g)) / flour_g - 1
            if h < 0:
                raise Refused(
                    f"{flour_says[0].name} and {self.dough_name(dough_g)} do not fit: that leaves no room for water",
                    f"less than {grams(dough_g / 1.5)} g flour, or more dough",
                )
            return h
        if dough_g is not None and said.water_g is not None:
            # dough - water poured = flour + everything dry + the water inside the parts
            flour = (ALL_FLOUR + self.lines.dry + self.lines.water).flour_for(dough_g - said.water_g)
            if flour is None or flour <= 0:
                raise Refused(f"{grams(said.water_g)} g water is more than {self.dough_name(dough_g)}", "less water")
            return (said.water_g + self.lines.water.at(flour)) / flour
        if flour_g is not None:
            return self.lines.water.at(flour_g) / flour_g
        if said.from_masses:
            raise Refused("there is no flour in that list, and percentages are of the flour", "the weight of the flour")
        if dough_g is not None:
            flour = (ALL_FLOUR + self.lines.dry + self.lines.water).flour_for(dough_g)
            if flour is not None and flour > 0:
                return self.lines.water.at(flour) / flour
        return self.lines.water.share

    def limits(self, hydration: float) -> list[Said]:
        """Most there is of something, as equations."""
        out = []
        for limit in self.said.max_g:
            g, item = limit.g, limit.item
            if item == "flour":
                out.append(Said("flour", self.lines.bowl, g, f"{grams(g)} g flour"))
            elif item == "water":
                out.append(Said("water", self.lines.poured(hydration), g, f"{grams(g)} g water"))
            elif item == "starter" and self.starter_scales():
                out.append(Said("starter", self.lines.starter, g, f"{grams(g)} g starter"))
            else:
                part = next((part for part in self.parts if part.item == item), None)
                if part is not None and part.mass.share > 0:
                    out.append(Said(item, part.mass, g, f"{grams(g)} g {part.name}"))
                elif part is not None and part.mass.fixed_g > g:
                    raise Refused(
                        f"{grams(part.mass.fixed_g)} g {part.name} was asked for and there are only {grams(g)} g",
                        f"{grams(g)} g {part.name}",
                    )
        return out

    def flour_for(self, said: Said) -> float:
        """All flour that this equation asks for."""
        flour = said.line.flour_for(said.g)
        if flour is None or flour <= 0:
            fixed = said.line.fixed_g
            why = f"{grams(fixed)} g of it is there already" if fixed > 0 else "the rest of the dough leaves none of it"
            raise Refused(f"{said.name} does not fit this dough: {why}", "a larger amount, or fewer fixed weights")
        return flour

    def check(self, by: Said, other: Said, flour_g: float) -> None:
        """Refused when two sizes said for one dough contradict each other."""
        implied = other.line.at(flour_g)
        if abs(implied - other.g) <= max(CLASH_G, CLASH_SHARE * other.g):
            return
        flour_other = self.flour_for(other)
        raise Refused(
            f"{by.name} makes {grams(implied)} g {other.what}, and {other.name} was said too",
            f"leave one of them out: {by.name}, or {other.name} with {grams(by.line.at(flour_other))} g {by.what}",
        )

    def pieces_made(self, flour_g: float, hydration: float, by: Said, limit: Said | None) -> Size:
        """Pieces and their mass from the dough that was found; whole pieces where only their mass was said."""
        piece = self.piece
        dough_g = self.lines.dough(hydration).at(flour_g)
        pieces, piece_g, spare_g = piece.pieces, piece.piece_g, 0.0
        if limit is not None:
            asked = f"{figure(pieces)} pieces of {grams(piece_g)} g" if pieces and piece_g else by.name
            self.remarks.append(f"{limit.name} does not reach for {asked}: this is the largest batch it makes")
        if piece_g is not None and (pieces is None or (limit is not None and not piece.piece_assumed)):
            pieces = self.whole_pieces(dough_g, piece_g)
            spare_g = max(0.0, dough_g - pieces * piece_g * (1 + self.loss_pct / 100))
            self.layers["pieces"] = "solved"
        elif pieces is not None:
            fitting_g = dough_g / pieces / (1 + self.loss_pct / 100)
            if piece_g is None or abs(fitting_g - piece_g) > 1e-9 * fitting_g:
                piece_g = fitting_g
                self.layers["piece_g"] = "solved"
                self.assumed = [words for words in self.assumed if not words.startswith("pieces of ")]
        return Size(
            flour_g, 100 * hydration, pieces, piece_g, piece.baked_g, self.loss_pct, spare_g if spare_g > 0.5 else 0.0,
            limit.name if limit is not None else by.name, limit.what if limit is not None else by.what,
            self.parts, self.layers, tuple(self.assumed), tuple(self.remarks),
        )  # fmt: skip

    def whole_pieces(self, dough_g: float, piece_g: float) -> float:
        """As many as the dough makes. A dough said in grams that is an even number of pieces is cut without loss."""
        even = round(dough_g / piece_g)
        if self.said.dough_g is not None and self.said.loss_pct is None and abs(even * piece_g - dough_g) < 0.5:
            self.loss_pct = 0.0
            self.layers["loss_pct"] = "solved"
        pieces = float(floor(dough_g / piece_g / (1 + self.loss_pct / 100) + 1e-6))
        if pieces < 1:
            raise Refused(
                f"{grams(dough_g)} g of dough does not make one piece of {grams(piece_g)} g",
                f"one piece of {grams(dough_g / (1 + self.loss_pct / 100))} g",
            )
        return pieces
