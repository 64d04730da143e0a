"""How much dough: the one unknown scale, found from whichever sizes were said and checked against the others.

With F for all flour, h for hydration, W for the water inside the parts and N for everything that is neither flour nor
counted water: dough = F·(1 + h) + N, plain water = h·F - W. Each thing said (`sizes_said.py`) is one such equation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import floor
from typing import TYPE_CHECKING

from assistant.engine.equations import Said, lines_of
from assistant.engine.house import Layer
from assistant.engine.linear import ALL_FLOUR
from assistant.engine.naming import figure, grams
from assistant.engine.parts import Part
from assistant.engine.pieces import PieceSize, piece_size
from assistant.engine.refusal import Refused
from assistant.engine.settled import Settled
from assistant.engine.sizes_said import DoughSaid, SizesSaid, clashes

if TYPE_CHECKING:
    from knowledge import Knowledge

_LEAST_SPARE_G = 0.5


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
    lines, piece = lines_of(parts), piece_size(settled, kb)
    sizes = SizesSaid(settled, lines, piece, kb)
    dough = sizes.dough()
    h = settled.hydration_pct
    hydration = h / 100 if h is not None else _solved_hydration(sizes, dough)
    said, limits = sizes.masses(dough, hydration), sizes.limits(parts, hydration)
    if not said and not limits:
        raise Refused(
            "there is no size in that: how much dough is it to be?",
            "a number of pieces and their weight, an amount of flour, or the whole dough's weight",
        )
    by = said[0] if said else min(limits, key=_flour_for)
    flour_g = _flour_for(by)
    for other in said[1:]:
        _check(by, other, flour_g)
    passed = [one for one in limits if one.line.at(flour_g) > one.g * 1.0005]
    limit = min(passed, key=lambda one: one.g / one.line.at(flour_g), default=None)
    if limit is not None:
        factor = limit.g / limit.line.at(flour_g)
        flour_g *= factor
        parts = tuple(part.shrunk(factor) for part in parts)
        lines = lines_of(parts)
    cut = _cut(piece, settled, dough, lines.dough(hydration).at(flour_g), limit is not None)
    remarks = list(piece.remarks)
    if limit is not None:
        pieces, piece_g = piece.pieces, piece.piece_g
        asked = f"{figure(pieces)} pieces of {grams(piece_g)} g" if pieces and piece_g else by.name
        remarks.append(f"{limit.name} does not reach for {asked}: this is the largest batch it makes")
    sized = limit if limit is not None else by
    return Size(
        flour_g=flour_g, hydration_pct=100 * hydration, pieces=cut.pieces, piece_g=cut.piece_g, baked_g=piece.baked_g,
        loss_pct=cut.loss_pct, spare_g=cut.spare_g if cut.spare_g > _LEAST_SPARE_G else 0.0, sized_by=sized.name,
        sized_what=sized.what, parts=parts, layers={**piece.layers, **cut.layers}, assumed=cut.assumed,
        remarks=tuple(remarks),
    )  # fmt: skip


def _solved_hydration(sizes: SizesSaid, dough: DoughSaid) -> float:
    """Hydration (a share) from two masses; plain water that was not said counts as none."""
    said, lines, dough_g = sizes.settled.givens, sizes.lines, dough.dough_g
    flour_said = sizes.flour()
    flour_g = _flour_for(flour_said[0]) if flour_said else None
    if flour_g is not None and said.water_g is not None:
        return (said.water_g + lines.water.at(flour_g)) / flour_g
    if flour_g is not None and dough_g is not None and not said.from_masses:
        h = (dough_g - lines.dry.at(flour_g)) / flour_g - 1
        if h < 0:
            whole = sizes.dough_name(dough_g, dough.loss_pct)
            raise Refused(
                f"{flour_said[0].name} and {whole} do not fit: that leaves no room for water",
                f"less than {grams(dough_g / 1.5)} g flour, or more dough",
            )
        return h
    if dough_g is not None and said.water_g is not None:
        # dough - water poured = flour + everything dry + the water inside the parts
        flour = (ALL_FLOUR + lines.dry + lines.water).flour_for(dough_g - said.water_g)
        if flour is None or flour <= 0:
            raise Refused(
                f"{grams(said.water_g)} g water is more than {sizes.dough_name(dough_g, dough.loss_pct)}", "less water"
            )
        return (said.water_g + lines.water.at(flour)) / flour
    if flour_g is not None:
        return lines.water.at(flour_g) / flour_g
    if said.from_masses:
        raise Refused("there is no flour in that list, and percentages are of the flour", "the weight of the flour")
    if dough_g is not None:
        flour = (ALL_FLOUR + lines.dry + lines.water).flour_for(dough_g)
        if flour is not None and flour > 0:
            return lines.water.at(flour) / flour
    return lines.water.share


def _flour_for(said: Said) -> float:
    """All flour that this equation asks for."""
    flour = said.line.flour_for(said.g)
    if flour is None or flour <= 0:
        fixed = said.line.fixed_g
        why = f"{grams(fixed)} g of it is there already" if fixed > 0 else "the rest of the dough leaves none of it"
        raise Refused(f"{said.name} does not fit this dough: {why}", "a larger amount, or fewer fixed weights")
    return flour


def _check(by: Said, other: Said, flour_g: float) -> None:
    """Refused when two sizes said for one dough contradict each other."""
    implied = other.line.at(flour_g)
    if not clashes(implied, other.g):
        return
    flour_other = _flour_for(other)
    raise Refused(
        f"{by.name} makes {grams(implied)} g {other.what}, and {other.name} was said too",
        f"leave one of them out: {by.name}, or {other.name} with {grams(by.line.at(flour_other))} g {by.what}",
    )


@dataclass(frozen=True, slots=True)
class _Cut:
    """The dough in pieces. spare_g: over after whole pieces; layers: figures that were worked out here."""

    pieces: float | None
    piece_g: float | None
    loss_pct: float
    spare_g: float
    layers: Mapping[str, Layer]
    assumed: tuple[str, ...]


def _cut(piece: PieceSize, settled: Settled, dough: DoughSaid, dough_g: float, limited: bool) -> _Cut:
    """Pieces and their mass from the dough that was found; whole pieces where only their mass was said.

    limited: something did not reach for what was asked, so there are as many pieces as there is dough for.
    """
    layers: dict[str, Layer] = {"loss_pct": "solved"} if dough.loss_solved else {}
    pieces, piece_g, loss_pct = piece.pieces, piece.piece_g, dough.loss_pct
    if piece_g is not None and (pieces is None or (limited and not piece.piece_assumed)):
        if _comes_out_even(settled, dough_g, piece_g):
            loss_pct, layers["loss_pct"] = 0.0, "solved"
        pieces = _whole_pieces(dough_g, piece_g, loss_pct)
        spare_g = max(0.0, dough_g - pieces * piece_g * (1 + loss_pct / 100))
        return _Cut(pieces, piece_g, loss_pct, spare_g, {**layers, "pieces": "solved"}, piece.assumed)
    if pieces is not None:
        fitting_g = dough_g / pieces / (1 + loss_pct / 100)
        if piece_g is None or abs(fitting_g - piece_g) > 1e-9 * fitting_g:
            assumed = tuple(words for words in piece.assumed if not words.startswith("pieces of "))
            return _Cut(pieces, fitting_g, loss_pct, 0.0, {**layers, "piece_g": "solved"}, assumed)
    return _Cut(pieces, piece_g, loss_pct, 0.0, layers, piece.assumed)


def _comes_out_even(settled: Settled, dough_g: float, piece_g: float) -> bool:
    """A dough said in grams that is an even number of pieces is cut without loss."""
    even = round(dough_g / piece_g)
    said = settled.givens
    return said.dough_g is not None and said.loss_pct is None and abs(even * piece_g - dough_g) < _LEAST_SPARE_G


def _whole_pieces(dough_g: float, piece_g: float, loss_pct: float) -> float:
    """As many as the dough makes."""
    pieces = float(floor(dough_g / piece_g / (1 + loss_pct / 100) + 1e-6))
    if pieces < 1:
        raise Refused(
            f"{grams(dough_g)} g of dough does not make one piece of {grams(piece_g)} g",
            f"one piece of {grams(dough_g / (1 + loss_pct / 100))} g",
        )
    return pieces
