"""Numbers in a complaint: which hours, degrees and percentages belong to which stage of the bake.

Each amount takes the steering word that stands best to it: near, before it rather than after, no comma or other amount
of its kind between, and a value the stage can have. A temperature right behind a time belongs to the time's stage.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grammar.complaint_amounts import Placed, placed
from grammar.complaint_degrees import of_count, of_temperature, of_time
from grammar.complaint_near import best_cue, cue_before
from grammar.complaint_stages import LENGTHS, PERCENTS
from grammar.complaint_terms import CueAt, Word
from grammar.complaint_together import together
from grammar.frames import celsius, fits
from grammar.lexicon import Lexicon
from grammar.phrases import Phrase


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures found (id, value), amounts nobody could place, and bare ones that may answer an open question."""

    found: tuple[tuple[str, float], ...]
    left: tuple[Phrase, ...]
    gone: tuple[str, ...] = ()  # figures said not to hold
    bare: tuple[tuple[str, float], ...] = ()  # (dim, value): temperature in °C, time in min, pct, num, length in cm


def figures(
    words: Sequence[Word],
    phrases: Sequence[Phrase],
    cues: Sequence[CueAt],
    of_starter: bool,
    spoken_for: frozenset[int],
    lexicon: Lexicon, of_dough: bool = False,
) -> Figures:
    """Every amount of the line as a figure of the bake. spoken_for: words that are part of a turn of speech."""
    amounts = placed(words, phrases)
    cues = [cue for cue in cues if not any(words[n].amount >= 0 for n in range(cue[0], cue[1] + 1))]
    found: dict[str, float] = {}
    left: list[Phrase] = []
    bare: list[tuple[str, float]] = []
    gone: list[str] = []
    stage_of: dict[int, str] = {}
    taken: set[int] = set()
    for one in together(amounts, words, cues):
        found.update(one[1])
        taken |= one[0]
    if "piece_g" not in found and any(_bare_kilo(n, words, lexicon) for n in range(len(words))):
        found["piece_g"] = 1000.0
    for n, amount in enumerate(amounts):
        if n in taken:
            continue
        dim = amount.dim
        behind = {word.text for word in words[amount.last + 1 : amount.last + 2]}
        if dim == "time" and behind & lexicon.small("still_to_come"):
            continue  # "ten minutes left" is not how long it has baked
        placed_as: tuple[str, float] | None = None
        if dim == "time":
            placed_as = of_time(amount, amounts, words, cues, of_starter, stage_of, n, of_dough)
            if placed_as is None:
                bare.append(("time", amount.middle))
        elif dim == "temperature":
            placed_as = of_temperature(amount, amounts, words, cues, stage_of, n, found)
            if placed_as is None:
                bare.append(("temperature", amount.in_c(300)))
        elif dim == "pct":
            placed_as = _percent(amount, amounts, words, cues)
            if placed_as is None:
                bare.append(("pct", amount.middle))
        elif dim == "length":
            cue = best_cue(
                amount, amounts, words, cues, {k: (v[2] / v[1], v[3] / v[1]) for k, v in LENGTHS.items()}, amount.middle
            )
            if cue is not None:
                placed_as = (LENGTHS[cue][0], amount.middle * LENGTHS[cue][1])
            else:
                bare.append(("length", amount.middle))
        elif dim == "num" and _of_people(amount, phrases):
            continue
        elif dim == "num":  # "half the flour" is no figure of the bake
            placed_as = of_count(amount, amounts, words, cues, stage_of, n, found)
            if placed_as is None:
                bare.append(("num", amount.middle))
        elif dim == "mass":
            placed_as = _piece(amount, words, lexicon)
        if amount.denied:
            gone += [placed_as[0]] if placed_as is not None else []
        elif placed_as is None:
            ratio = ":" in words[amount.first].text
            said_in_words = amount.quantity.spelled and amount.phrase.dim in ("num", "share")
            if not (amount.first in spoken_for or ratio or said_in_words):
                left.append(amount.phrase)
        elif placed_as[0] not in found:
            found[placed_as[0]] = placed_as[1]
            dialled = amount.phrase.old
            if placed_as[0] == "oven_real_c" and dialled is not None and dialled.base >= 110:
                found.setdefault("oven_c", celsius(dialled.value, dialled.unit, 300))  # "actually 175 not 210"
        else:
            left.append(amount.phrase)
    return Figures(tuple(found.items()), tuple(left), tuple(gone), tuple(bare))


def _of_people(amount: Placed, phrases: Sequence[Phrase]) -> bool:
    """Whether a number counts those who are to eat: "twenty people coming"."""
    at = phrases.index(amount.phrase)
    return any(fits(phrase, ("cue:portions", "clocked:ready")) for phrase in phrases[at + 1 : at + 2])


def _piece(amount: Placed, words: Sequence[Word], lexicon: Lexicon) -> tuple[str, float] | None:
    """A weight beside what was baked: "one loaf of 1.1 kg", "a big kilo one", "90 g pieces"."""
    near = {words[n].text for n in range(max(0, amount.first - 4), min(len(words), amount.last + 4))}
    least = _LEAST_LOAF_G if near & lexicon.small("of_loaves") else math.inf
    low = _LEAST_PIECE_G if near & lexicon.small("of_pieces") else least
    return ("piece_g", amount.middle) if low <= amount.middle <= _MOST_PIECE_G else None


def _bare_kilo(n: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a word is a kilo nobody counted, of a loaf: "a kilo loaf", "a big kilo one"."""
    if words[n].text not in ("kilo", "kilogram") or words[n].amount >= 0:
        return False
    return bool({word.text for word in words[n + 1 : n + 3]} & lexicon.small("of_loaves"))


_LEAST_PIECE_G, _LEAST_LOAF_G, _MOST_PIECE_G = 30.0, 250.0, 3000.0


def _percent(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]
) -> tuple[str, float] | None:
    value = amount.middle
    ranges = {name: (low, high) for name, (_, _, low, high) in PERCENTS.items()}
    weights = {"bulk": -2.0, "proof": -2.0, "lye": 0.3, "active_dry": 0.5, "fresh": 0.5, "protein": 0.3}
    cue = best_cue(amount, amounts, words, cues, ranges, value, right=-0.2, weights=weights)
    cue = cue_before(amount, amounts, cues, ranges) or cue
    if cue in ("bulk", "proof") and value <= 115 and value >= 50 and words[amount.first - 1].text in ("at", "of"):
        cue = None
    if cue is None:
        return ("hydration_pct", value) if 45 <= value <= 120 else None
    figure, factor, _, _ = PERCENTS[cue]
    return figure, value * factor
