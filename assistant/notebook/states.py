"""The bench's states as they stand in the file: packed, and where it helps as what differs from an earlier one.

A state is some thousand characters of JSON of which a line changes a few. It is kept as four bytes with the number of
the event it leans on (0: none) and a zlib stream that may refer to that event's state. It leans on one event only,
and that one on none, so that any state is had from two rows however long the notebook is.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable

_HEAD_BYTES = 4
_REACH_BYTES = 32_000
"""How far back zlib can refer: of a longer base its end serves."""


def packed(state: str, base: int, base_state: str | None) -> bytes:
    """A state for the file, leaning on event `base` where that at least halves it."""
    plain = state.encode("utf-8")
    alone = zlib.compress(plain)
    if base and base_state is not None:
        packer = zlib.compressobj(zdict=base_state.encode("utf-8")[-_REACH_BYTES:])
        leaning = packer.compress(plain) + packer.flush()
        if len(leaning) * 2 < len(alone):
            return base.to_bytes(_HEAD_BYTES, "big") + leaning
    return bytes(_HEAD_BYTES) + alone


def leans_on(kept: str | bytes) -> int:
    """The event a kept state leans on; 0 for none. Notebooks of the first form hold the JSON as it is."""
    return 0 if isinstance(kept, str) else int.from_bytes(kept[:_HEAD_BYTES], "big")


def unpacked(kept: str | bytes, state_of: Callable[[int], str]) -> str:
    """The JSON of a kept state; `state_of` tells that of the event it leans on. ValueError where it is damaged."""
    if isinstance(kept, str):
        return kept
    base = leans_on(kept)
    reader = zlib.decompressobj(zdict=state_of(base).encode("utf-8")[-_REACH_BYTES:]) if base else zlib.decompressobj()
    try:
        return (reader.decompress(kept[_HEAD_BYTES:]) + reader.flush()).decode("utf-8")
    except zlib.error as error:
        raise ValueError(str(error)) from error
