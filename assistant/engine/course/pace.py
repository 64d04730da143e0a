"""How fast this starter runs, from the bakes in which a rise was measured."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

_LIKE_SO_MANY = 1.5
"""The model weighs as much as so many bakes: one odd evening does not move the kitchen."""
_MOST = 2.5


@dataclass(frozen=True, slots=True)
class Pace:
    """value: times as fast as the usual culture; count: bakes it was seen in, 0 for the model alone."""

    value: float = 1.0
    count: int = 0


def fitted(seen: Sequence[float]) -> Pace:
    """The pace of a starter from what each bake showed: their geometric mean, shrunk toward 1.

    The mean of the logarithms is shrunk by n / (n + 1.5), as a normal prior of that weight does.
    """
    good = [one for one in seen if 1 / _MOST <= one <= _MOST]
    if not good:
        return Pace()
    mean = sum(math.log(one) for one in good) / (len(good) + _LIKE_SO_MANY)
    return Pace(math.exp(mean), len(good))
