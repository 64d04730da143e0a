"""The amounts of a complaint with the places of their words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grammar.complaint_stages import DAY
from grammar.complaint_terms import Word
from grammar.frames import celsius
from grammar.phrases import Phrase
from grammar.tokens import Quantity

_UNDER, _OVER = frozenset({"under", "below", "less"}), frozenset({"over", "above", "beyond", "more"})
_A_LITTLE = 0.03
"""How far "under" or "over" a figure is taken to be, as a share of it (one degree for temperatures)."""
_COUNTED: Mapping[str, tuple[float, float]] = {
    "night": (DAY, DAY / 2), "month": (30.4 * DAY, 0.0), "year": (365 * DAY, 0.0),
}  # fmt: skip
"""Minutes of each, less what the first falls short: three nights are two days and a night of half a day."""


@dataclass(frozen=True, slots=True)
class Placed:
    """An amount with the places of its words. side: -1 for "under 21", +1 for "over 28", else 0."""

    phrase: Phrase
    first: int
    last: int
    side: int = 0
    denied: bool = False  # "the next morning, not at 25 min"
    counted: str = ""  # "night" or "month" where the number counts them

    @property
    def dim(self) -> str | None:
        """What the amount measures; a count of nights or months is a time."""
        return "time" if self.counted else self.phrase.dim

    @property
    def quantity(self) -> Quantity:
        assert self.phrase.quantity is not None
        return self.phrase.quantity

    @property
    def middle(self) -> float:
        """The amount in %, g, ml, cm, min or as a number; the middle of a range."""
        ends = [q for q in (self.phrase.quantity, self.phrase.high) if q is not None]
        if self.counted:
            each, first = _COUNTED[self.counted]
            return sum(q.value * each - first for q in ends) / len(ends)
        return sum(q.base for q in ends) / len(ends) * (1 + _A_LITTLE * self.side)

    def in_c(self, high: float) -> float:
        ends = [q for q in (self.phrase.quantity, self.phrase.high) if q is not None]
        return sum(celsius(q.value, q.unit, high) for q in ends) / len(ends) + self.side


def placed(words: Sequence[Word], phrases: Sequence[Phrase]) -> tuple[Placed, ...]:
    """The amounts of a line with the places of their words."""
    out = []
    for phrase in phrases:
        if phrase.kind != "amount" or phrase.quantity is None or _says_none(phrase):
            continue
        start, end = phrase.tokens[0].start, phrase.tokens[-1].end
        places = [n for n, w in enumerate(words) if start <= w.start < end]
        if places:
            side = _side(words, places[0])
            after = words[places[-1] + 1].text.removesuffix("s") if places[-1] + 1 < len(words) else ""
            counted = after if after in _COUNTED and phrase.dim == "num" else ""
            out.append(Placed(phrase, places[0], places[-1], side, _denied(words, places[0]), counted))
    return tuple(out)


def _says_none(phrase: Phrase) -> bool:
    """Whether a number only denies the thing behind it: "zero holes"."""
    return phrase.dim == "num" and phrase.quantity is not None and not phrase.quantity.value and phrase.text.isalpha()


_AT = frozenset({"at", "after", "the", "just", "about", "only", "of"})


def _denied(words: Sequence[Word], first: int) -> bool:
    """Whether an amount is set against what holds: behind a mark or a word a "not" before it."""
    at = first - 1
    while at >= 0 and words[at].text in _AT and not words[at + 1].after_mark:
        at -= 1
    return at > 0 and words[at].text == "not" and (words[at].after_mark or words[at - 1].text in ("and", "but", "so"))


def _side(words: Sequence[Word], first: int) -> int:
    """-1 for "under 21" or "less than 21", +1 for "over 28", else 0; "over proofed, 6 hours" is neither."""
    at = first - 1
    if at < 0 or words[first].after_mark:
        return 0
    if words[at].text == "than" and at:
        at -= 1
    return -1 if words[at].text in _UNDER else 1 if words[at].text in _OVER else 0
