"""How much something speaks for a reading, in a handful of named levels. No other file holds a weight of its own."""

from __future__ import annotations

LEVELS = {
    "certain": 1.6,
    "sure": 1.0,
    "likely": 0.6,
    "maybe": 0.3,
    "seldom": 0.1,
    "unlikely": -0.4,
    "against": -1.0,
    "hardly": -2.5,
    "never": -4.0,
}
"""From what settles a reading to what rules it out; beside its noun an amount stands 2.5 nearer than alone."""

CERTAIN, SURE, LIKELY, MAYBE, SELDOM = (LEVELS[name] for name in ("certain", "sure", "likely", "maybe", "seldom"))
UNLIKELY, AGAINST, HARDLY, NEVER = (LEVELS[name] for name in ("unlikely", "against", "hardly", "never"))
