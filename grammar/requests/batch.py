"""A batch that a question is about, by its pieces and its bread: "30 rings", "a brioche bun", "two batches"."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound
from grammar.slots import Slot

PIECE = ("piece:*", "bread:*")


@dataclass(frozen=True, slots=True)
class Batch:
    """pieces: so many; piece_g: of so much raw dough each; piece, bread: what they are called; times: whole batches.

    None: unsaid, and the dough in hand is meant.
    """

    pieces: float | None = None
    piece_g: float | None = None
    piece: str | None = None
    bread: str | None = None
    times: float | None = None


IN_HAND = Batch()
"""Nothing said: the dough in hand."""
SLOTS = {
    "pieces": Slot({"num": 1.0, "share": 0.4}, cues=PIECE, bare=0.1, low=1, high=2000, links={"for": 0.3}),
    "batches": Slot(
        {"num": 1.0, "share": 0.6}, cues=("cue:load", "cue:dough", "ask:batches", "serving:whole"), low=0.25, high=40
    ),
    "piece_g": Slot({"mass": 0.6}, cues=(*PIECE, "cue:piece_mass"), low=15, high=3000, links={"of": 0.3}),
    "piece": Slot(term=PIECE, many=True, weight=-0.6),
}


def batch_of(bound: Bound) -> Batch:
    """What a line says of the batch it is about."""
    labels = [p for p in bound.phrases if not p.negated and (p.ids("piece") or p.ids("bread"))]
    bread = next((i for p in labels for i in p.ids("bread")), None)
    piece = next((i for p in labels for i in p.ids("piece")), None)
    pieces, times = bound.base("pieces"), bound.base("batches")
    if bound.said("act:double"):
        times = 2.0
    elif bound.said("act:triple"):
        times = 3.0
    elif bound.said("act:halve"):
        times = 0.5
    return Batch(pieces, bound.base("piece_g"), piece, bread, times)
