"""Hands the reader its words: the knowledge's vocabulary and units in the reader's plain form."""

from __future__ import annotations

from functools import lru_cache

from grammar.lexicon import Lexicon, Unit
from knowledge import Knowledge
from knowledge.complaints import complaints
from knowledge.units import units
from knowledge.vocabulary import common_words, slips, vocabulary


@lru_cache(maxsize=2)
def lexicon(kb: Knowledge) -> Lexicon:
    """The reader's lexicon for these trade facts."""
    faults = complaints(kb)
    unit_names = {
        name: tuple(Unit(one.id, one.dimension, one.factor) for one in readings)
        for name, readings in units(kb).names.items()
    }
    said_of_faults = {word for phrase in (*faults.phrases, *faults.cues) for word in phrase.split(" ")}
    return Lexicon(
        phrases=vocabulary(kb),
        units=unit_names,
        common=common_words() | (said_of_faults - unit_names.keys()),
        groups={key: item.group for key, item in kb.ingredients.items()},
        slips=slips(kb),
        complaints=faults.phrases,
        cues=faults.cues,
        trade_of=faults.trade_of,
        denied=faults.denied,
        shows=faults.shows,
        about=faults.about,
        answers=faults.answers,
    )
