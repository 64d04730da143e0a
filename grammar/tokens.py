"""What the scanner makes of a line: typed tokens that keep their place in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from grammar.lexicon import Term, Unit


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with what was said of its unit.

    value: the number as said; unit: None for a bare number; dim: "num", "pct", "mass", "volume", "length", "time",
    "temperature", "warming" (a difference in K), "each", "money", "ratio" (flour to one of seed); base: value in %, g,
    ml (US), cm, min, whole coins; temperatures stay in their own degree, with unit "degC", "degF" or "deg" (not said
    which). spelled: said in words ("eighteen"); fraction: a share of something ("half", "1/3", "two thirds").
    """

    value: float
    dim: str
    unit: str | None = None
    base: float = 0.0
    spelled: bool = False
    fraction: bool = False


@dataclass(frozen=True, slots=True)
class Token:
    """A stretch of the line.

    kind: NUM PCT MASS VOLUME LENGTH TIME TEMP EACH MONEY (quantities), CLOCK DAY PART (parts of a moment), TERM
    (vocabulary), LINK FILL NEG (small words), MARK (punctuation), JUNK (not known).
    text: as typed; start, end: place in the line; terms: every reading of a vocabulary word; repaired: the word a
    slip was read as.
    """

    kind: str
    text: str
    start: int
    end: int
    quantity: Quantity | None = None
    terms: tuple[Term, ...] = ()
    units: tuple[Unit, ...] = ()
    value: object = None
    phrase: str = ""  # the vocabulary phrase it was found by, folded
    repaired: str | None = None
    taken_back: bool = False  # what a baker took back, and the words that did so: read, and meaning nothing now
    glued: bool = field(default=False, compare=False)  # no space before it
    beyond: bool = False  # all that follows where a line is longer than any that is read
    idle: bool = False  # not known, and yet harmless: plain English that can change nothing here

    def ids(self, kind: str) -> tuple[str, ...]:
        """The ids under which this word is known as a `kind`."""
        return tuple(i for k, i in self.terms if k == kind)


def still_said(text: str, tokens: Sequence[Token]) -> str:
    """The line with what was taken back in it blanked, every other sign in its place."""
    for token in tokens:
        if token.taken_back:
            text = text[: token.start] + " " * (token.end - token.start) + text[token.end :]
    return text
