"""What a line does to the size of one piece of the dough in hand: another weight, so much heavier, so many times it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.frames import Bound, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_rows import FACTORS

_SIZES = ("cue:larger_piece", "cue:smaller_piece")


@dataclass(frozen=True, slots=True)
class PieceChange:
    """to_g: what one piece is to weigh; by_g: how much heavier (less than nothing: lighter); times: how many times."""

    to_g: float | None = None
    by_g: float | None = None
    times: float | None = None


def piece_changed(bound: Bound) -> PieceChange | None:
    """ "bigger ones, 95", "10 g lighter each", "a third smaller", "half the size"; None where nothing is said of it.

    Needs a dough in hand, one figure, and nothing else that the line could be about.
    """
    words = [phrase for phrase in bound.phrases if phrase.kind in ("label", "amount") and not fits(phrase, _SMALL)]
    amounts = [phrase for phrase in words if phrase.kind == "amount"]
    if not bound.context.has_bake or len(amounts) > 1:
        return None
    size = next((phrase for phrase in words if fits(phrase, _SIZES)), None)
    noun = next((phrase for phrase in words if fits(phrase, ("cue:size",))), None)
    if size is None and noun is None:
        return None
    if any(not fits(phrase, (*_SIZES, *_BESIDE)) for phrase in words if phrase.kind == "label"):
        return None
    if noun is not None and size is None:
        return _times_the_size(words, amounts)
    if size is None or not amounts:
        return None
    behind = bound.phrases[bound.phrases.index(amounts[0]) + 1 :][:1]
    if amounts[0].dim == "num" and behind and fits(behind[0], ("piece:*", "bread:*", "cue:pieces")):
        return None  # "bigger crowd, we need 40 of those" counts them
    sign = -1.0 if fits(size, ("cue:smaller_piece",)) else 1.0
    return _changed(bound, amounts[0], size, sign)


def _changed(bound: Bound, amount: Phrase, size: Phrase, sign: float) -> PieceChange | None:
    value = amount_base(amount) or 0.0
    at, other = bound.phrases.index(amount), bound.phrases.index(size)
    by = at + 1 == other or _by_before(bound.phrases, at)
    if amount.dim in ("share", "pct") and by:
        part = value if amount.dim == "share" else value / 100
        return PieceChange(times=1 + sign * part)
    if amount.dim == "mass":
        return PieceChange(by_g=sign * value) if by else PieceChange(to_g=value)
    counts = at < other and not any(phrase.kind == "sep" for phrase in bound.phrases[at:other])  # "20, but smaller"
    if amount.dim == "num" and not (by or counts) and value >= _LEAST_G:
        return PieceChange(to_g=value)
    return PieceChange(by_g=sign * value) if amount.dim == "num" and _by_before(bound.phrases, at) else None


def _by_before(phrases: Sequence[Phrase], at: int) -> bool:
    return at > 0 and "by" in phrases[at - 1].ids("link")


def _times_the_size(words: Sequence[Phrase], amounts: Sequence[Phrase]) -> PieceChange | None:
    if amounts and amounts[0].dim in ("share", "num"):
        value = amount_base(amounts[0]) or 0.0
        return PieceChange(times=value) if 0 < value <= _MOST_TIMES else None
    factor = next((factor for act, factor in FACTORS.items() if any(fits(word, (act,)) for word in words)), None)
    return PieceChange(times=factor) if factor is not None else None


def counted_not_sized(bound: Bound) -> Bound:
    """ "20 smaller ones, 70 g": where the weight of a piece is said, a bare number beside how large counts them."""
    sized = bound.first("piece_step")
    if sized is None or sized.amount is None or sized.amount.dim != "num" or bound.first("pieces") is not None:
        return bound
    if bound.first("piece_g") is None:
        return bound
    counted = replace(sized, slot="pieces", label=None)
    return replace(bound, hits=tuple(counted if hit is sized else hit for hit in bound.hits))


def of_one_piece(bound: Bound) -> Bound:
    """ "loaves at 800 g of dough", "10 loaves, 800 g of dough each": dough said of each piece is no whole dough; what
    pieces are made from ("12 rolls from 1 kg of dough") is."""
    whole, sized = bound.first("dough_g"), bound.first("piece_g")
    if whole is None and sized is not None and sized.amount is not None and bound.said("cue:dough"):
        made_from = "from" in bound.next_to(sized.amount, -1).ids("link") and bound.first("pieces") is not None
        slot = "dough_g" if made_from else sized.slot
        return replace(bound, hits=tuple(replace(one, slot=slot) if one is sized else one for one in bound.hits))
    pieces = bound.said("piece:*", "bread:*", "cue:pieces") and bound.first("piece_g") is None
    if whole is None or whole.amount is None or whole.label is None or not pieces:
        return bound
    before = bound.next_to(whole.amount, -1).ids("link")
    behind = bound.next_to(whole.label).ids("link")
    if "at" not in before and not {"each", "per"} & set(behind):
        return bound
    return replace(bound, hits=tuple(replace(one, slot="piece_g") if one is whole else one for one in bound.hits))


def weighed_not_counted(bound: Bound) -> Bound:
    """A bare number said, not asked, of what the pieces in hand weigh baked is that weight, in g: it counts nothing."""
    bare = [hit for hit in bound.hits if hit.slot in ("pieces", "piece_g") and hit.amount and hit.amount.dim == "num"]
    weighs = bound.context.has_bake and bound.said("cue:piece_mass", "cue:size") and bound.said("cue:baked")
    if not weighs or len(bare) != 1 or (amount_base(bare[0].amount) or 0) < _LEAST_G or bound.first("baked_g"):
        return bound
    ahead = bound.phrases[: bound.phrases.index(bare[0].amount)]
    if any(phrase.ids("ask") for phrase in ahead):
        return bound
    weighed = replace(bare[0], slot="baked_g", label=None)
    return replace(bound, hits=tuple(weighed if hit is bare[0] else hit for hit in bound.hits))


_SMALL = ("link:*", "filler:*", "tail:*")
_BESIDE = (
    "piece:*", "bread:*", "cue:pieces", "cue:size", "cue:piece_mass", "act:change", "act:make", "act:scale",
    "act:double", "act:halve", "act:triple", "cue:all_of_it", "ask:what_if", "serving:each", "act:use", "tail:*",
)  # fmt: skip
"""Words that may stand beside the size of a piece and leave it the subject of the line."""
_LEAST_G = 15.0
_MOST_TIMES = 10.0
