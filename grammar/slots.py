"""What one field of a request takes from a line: an amount, a word, or both.

`dims`: what kind of amount a slot takes and how gladly (pct, mass, num, time, temp, volume, length, each, share,
moment, window, sizes, money). `bare`: how gladly without a word beside it (None: never). `low`, `high`: plausible range
in %, g, min, °C (°F is converted), cm; outside it a labelled amount still fits, but worse. `links`: small words before
it that speak for it. `role`: "count" or "each" of "24 x 80 g". `without`: takes negated words ("no salt"). `meant`: by
aspect ("at_hand", "meant"), what it speaks for that the amount is meant so. `rest`: takes whatever words nothing else
takes, known or not: what a timer is for, what a note is about. What an amount can be, for all kinds of request, stands
in one table: take a slot from it with `take("kitchen_c")` (`grammar/roles.py`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Slot:
    """What one field of a request takes; see the module text."""

    dims: Mapping[str, float] = field(default_factory=dict)
    cues: tuple[str, ...] = ()
    never: tuple[str, ...] = ()  # words that fit `cues` and are still not meant
    term: tuple[str, ...] = ()
    bare: float | None = None
    low: float | None = None
    high: float | None = None
    by_group: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    strict: bool = False  # an amount outside `low` and `high` is none of its, whatever word stands by it
    bare_low: float | None = None  # the least it is without a word beside it
    bare_high: float | None = None  # the most it is without a word beside it, where that is less
    links: Mapping[str, float] = field(default_factory=dict)
    role: str | None = None
    many: bool = False
    without: bool = False
    shares: bool = False  # its word may also serve another slot: "20 % starter at 60 %"
    where: tuple[str, ...] = ()  # the line must have one of these words somewhere
    across: bool = False  # its word may stand behind the next amount: "15 % of a 60 % starter"
    weight: float = 0.0  # added when the slot is filled: a slot that is seldom meant has less than nothing
    rest: bool = False  # free words: every word of the line that no other slot and no cue takes, the unknown too
    whole: bool = False  # a count: a broken number is none of its
    meant: Mapping[str, float] = field(default_factory=dict)  # how the amount is meant, and what that speaks for
