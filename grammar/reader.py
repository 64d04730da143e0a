"""The reader: text in, the readings that fit it out, best first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from grammar.binder import Fit, bind
from grammar.frames import Bound, Context, Frame
from grammar.lexicon import Lexicon
from grammar.phrases import Phrase, phrases
from grammar.scanner import scan
from grammar.tokens import Token

LONGEST = 10_000
"""Characters a request may have; a pasted recipe has its own, larger bound."""
CLEAR = 0.35
"""Two readings closer than this are a tie, and the baker is asked."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to take a line: the request, how well it fits, and what it leaves unread (as typed)."""

    request: Any
    frame: Frame
    score: float
    unread: tuple[str, ...]
    bound: Bound


@dataclass(frozen=True, slots=True)
class Read:
    """All that was made of a line. readings: best first; repairs: (as typed, as read); unknown: words nobody knows."""

    text: str
    readings: tuple[Reading, ...]
    tokens: tuple[Token, ...]
    repairs: tuple[tuple[str, str], ...] = ()
    unknown: tuple[str, ...] = ()
    phrases: tuple[Phrase, ...] = field(default=())

    @property
    def best(self) -> Reading | None:
        return self.readings[0] if self.readings else None

    @property
    def margin(self) -> float:
        """How clearly the best reading leads; infinite where it is the only one."""
        return self.readings[0].score - self.readings[1].score if len(self.readings) > 1 else float("inf")


def read(text: str, lexicon: Lexicon, frames: Sequence[Frame], context: Context | None = None) -> Read:
    """Every reading of a line by the frames given. Never raises for any text."""
    context = context or Context()
    tokens = scan(text, lexicon)
    pieces = phrases(tokens)
    unknown = tuple(p.text for p in pieces if p.kind == "junk" and any(c.isalnum() for c in p.text))
    repairs = tuple((t.text, t.repaired) for t in tokens if t.repaired)
    readings: list[Reading] = []
    for frame in frames:
        fit = bind(frame, pieces, context, text, lexicon.groups)
        if fit is None:
            continue
        request = frame.build(fit.bound)
        if request is None:
            continue
        readings.append(Reading(request, frame, fit.score, _unread(fit, unknown), fit.bound))
    readings.sort(key=lambda r: -r.score)
    distinct: list[Reading] = []
    for reading in readings:
        if all(reading.request != other.request for other in distinct):
            distinct.append(reading)
    return Read(text, tuple(distinct), tokens, repairs, unknown, pieces)


def _unread(fit: Fit, unknown: Sequence[str]) -> tuple[str, ...]:
    out = list(unknown)
    out.extend(phrase.text for phrase in fit.unclaimed)
    return tuple(dict.fromkeys(word for word in out if word.strip()))
