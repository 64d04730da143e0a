"""Whether a line is so plainly something else that it is not heard as a complaint as well."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from grammar.lexicon import Lexicon, fold
from grammar.tokens import Token

if TYPE_CHECKING:
    from grammar.reader import Reading

PLAIN = 5.0
"""A reading by slots that leaves nothing and scores this much is not heard as a complaint as well."""


def plainly_said(readings: Sequence[Reading]) -> bool:
    """Whether a frame that settles a line took every word and figure of it, well over the mark.

    It spares most lines the much larger vocabulary of faults.
    """
    return any(r.frame.settles and r.score >= PLAIN and not r.unread for r in readings)


def corrected(readings: Sequence[Reading]) -> bool:
    """Whether one puts a figure in the place of another of the dough in hand, and leaves nothing over: what was found
    wrong with that one ("65 is too stiff, 68") is no complaint."""
    return any(
        r.bound.context.has_bake and not r.unread and any(hit.amount and hit.amount.ids("turn") for hit in r.bound.hits)
        for r in readings if r.frame.settles and r.score >= PLAIN
    )  # fmt: skip


def of_faults(tokens: Sequence[Token], lexicon: Lexicon) -> bool:
    """Whether a word that was passed over may belong to the telling of a fault."""
    return any(token.idle and fold(token.text) in lexicon.common for token in tokens)
