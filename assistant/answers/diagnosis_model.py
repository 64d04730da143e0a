"""The evidence model over the knowledge at hand, made once."""

from __future__ import annotations

from functools import lru_cache

from assistant.engine.diagnosis.evidence import Tables, tables
from knowledge import Knowledge


@lru_cache(maxsize=4)
def model_of(kb: Knowledge) -> Tables:
    """The evidence model over this knowledge."""
    return tables(kb)
