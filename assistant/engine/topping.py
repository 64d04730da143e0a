"""What goes on top: grams a piece and for the batch, and in which order so that nothing travels to the wrong piece."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from assistant.engine.bowl import Foods
from assistant.engine.composition import Portion
from assistant.engine.refusal import Refused
from knowledge.records.toppings import Topping

REFERENCE_PIECE_G = 100.0
SURFACE_POWER = 2 / 3
HEAVIEST_PIECE_G = 5000.0


@dataclass(frozen=True, slots=True)
class Topped:
    """One topping on so many pieces: grams a piece (usual, low and high), grams in all, what it is made of."""

    topping: Topping
    pieces: int
    per_piece_g: float
    low_g: float
    high_g: float
    g: float
    parts: tuple[Portion, ...]


@dataclass(frozen=True, slots=True)
class Batch:
    """Pieces that share a topping; None is left plain."""

    pieces: int
    topping: str | None


def per_piece_g(topping: Topping, piece_g: float) -> tuple[float, float, float]:
    """Low, usual and high grams on a piece of `piece_g` raw dough.

    By surface (the power 2/3 of the mass) from a piece of 100 g; a filling by mass. Refused for a piece of no weight.
    """
    if not 0 < piece_g <= HEAVIEST_PIECE_G:
        raise Refused(f"A piece of {piece_g:g} g cannot be topped.", "Say the piece in grams of raw dough.")
    ratio = piece_g / REFERENCE_PIECE_G
    factor = ratio if topping.cover == "filling" else ratio**SURFACE_POWER
    return topping.low_g * factor, topping.usual_g * factor, topping.high_g * factor


def topped(topping: Topping, pieces: int, piece_g: float, *, each_g: float | None = None) -> Topped:
    """The topping for a batch. `each_g`: grams a piece, where the baker said so."""
    if pieces < 1:
        raise Refused(f"{pieces} pieces need no topping.", "Say how many pieces.")
    low, usual, high = per_piece_g(topping, piece_g)
    each = each_g if each_g is not None else usual
    if each <= 0:
        raise Refused(f"{each:g} g a piece is no topping.", f"Usual: {usual:.0f} g a piece.")
    whole = each * pieces
    parts = tuple(Portion(part.item, part.share * whole) for part in topping.parts)
    return Topped(topping, pieces, each, low, high, whole, parts)


def split(total: int, batches: Sequence[Batch]) -> tuple[Batch, ...]:
    """The batches with the rest left plain. Refused when they need more pieces than there are."""
    used = sum(batch.pieces for batch in batches)
    if used > total:
        raise Refused(f"{used} topped pieces out of {total}.", f"Say a split that adds up to {total}.")
    rest = total - used
    return (*batches, Batch(rest, None)) if rest else tuple(batches)


def safe_order(
    batches: Sequence[Batch], toppings: Mapping[str, Topping], foods: Foods, avoid: frozenset[str]
) -> tuple[Batch, ...]:
    """The batches in the order to top and bake them: free of the allergens to avoid first, the fewest tags earlier."""

    def key(batch: Batch) -> tuple[bool, int, bool]:
        tags = tags_of(batch.topping, toppings, foods)
        return bool(tags & avoid), len(tags), batch.topping is not None

    return tuple(sorted(batches, key=key))


def tags_of(topping: str | None, toppings: Mapping[str, Topping], foods: Foods) -> frozenset[str]:
    """Allergen tags of a topping; none for a plain piece."""
    if topping is None:
        return frozenset()
    return frozenset(tag for part in toppings[topping].parts for tag in foods[part.item].allergens)


def topping_with(item: str, toppings: Mapping[str, Topping]) -> Topping | None:
    """The topping that is this ingredient alone, else the first it is part of."""
    alone = next((each for each in toppings.values() if [part.item for part in each.parts] == [item]), None)
    return alone or next((each for each in toppings.values() if any(part.item == item for part in each.parts)), None)
