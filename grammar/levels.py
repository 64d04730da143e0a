"""How much something speaks for a reading, in a handful of named levels.

The words of every kind of request stand at one of them; slots and frames that settle a line still hold numbers of their
own, to be brought to levels.
"""

from __future__ import annotations

LEVELS = {
    "alone": 4.2,
    "telling": 2.5,
    "certain": 1.6,
    "sure": 1.0,
    "likely": 0.6,
    "maybe": 0.3,
    "seldom": 0.1,
    "unlikely": -0.4,
    "against": -1.0,
    "hardly": -2.5,
    "never": -4.0,
    "heard": 0.0,
}
"""From what names a kind of request by itself to what rules it out; "heard" is known and says nothing. Beside its noun
an amount stands 2.5 nearer than alone."""

ALONE, TELLING, HEARD = LEVELS["alone"], LEVELS["telling"], LEVELS["heard"]
CERTAIN, SURE, LIKELY, MAYBE, SELDOM = (LEVELS[name] for name in ("certain", "sure", "likely", "maybe", "seldom"))
UNLIKELY, AGAINST, HARDLY, NEVER = (LEVELS[name] for name in ("unlikely", "against", "hardly", "never"))

PLAINLY = 30.0
"""What a line scores of which a turn of speech takes every word: above whatever words and slots add up to."""


UNCLAIMED_AMOUNT, UNCLAIMED_WORD, UNCLAIMED_WITHOUT = NEVER, AGAINST, -3.0
"""What it costs to leave over an amount, a word, and a word that is denied ("no salt")."""
OWNED_ELSEWHERE = -4.5
"""What a number costs that stands behind a noun of another."""
FOR_ITS_ROLE = 2.0
"""What "24 x 80 g" speaks for the number of pieces and for the weight of each, and against the other way round."""
LESS_AS_SHARE = LIKELY
"""How much less gladly a share is taken where a bare number is looked for."""
FILLED = 0.8
"""What a word speaks for that fills a slot by itself."""
OF_THE_TALK = 0.8
"""What it speaks for a kind of request that the talk is of it already."""
LEANING = UNLIKELY
"""What a line costs that names no kind of request and only leans on what was said before."""
SAME_SIDE = MAYBE
"""A line that puts its words before the numbers goes on doing so."""


def speaks(**words: str) -> dict[str, float]:
    """The words a kind of request listens for ("kind:id", * at the end for more), by how much they speak for it."""
    return {word: LEVELS[level] for level, said in words.items() for word in said.split()}
