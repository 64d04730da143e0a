"""The doughs on the bench: another one taken in hand."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame


@dataclass(frozen=True, slots=True)
class BackRequest:
    """back to the first one
    go back to the last dough
    """

    which: str = "last"  # "first", "last" or a bread id
    bread: str | None = None


def _back(bound: Bound) -> BackRequest | None:
    if any(p.kind == "amount" for p in bound.phrases):
        return None
    first = bound.said("ask:first")
    bread = next((p.ids("bread")[0] for p in bound.phrases if p.ids("bread")), None)
    return BackRequest("first" if first else "bread" if bread else "last", bread)


FRAME = Frame(
    BackRequest,
    "back",
    _back,
    cues={"act:back": 3.0, "ask:first": 0.6, "cue:dough": 0.4, "bread:*": 0.4, "piece:*": 0.4},
    needs=("act:back",),
)
