"""What everyday words make of hours and lengths of time: bed is in the evening, "3 hours from now" is "in 3 hours"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.lexicon import fold
from grammar.moments import Moment
from grammar.tokens import Token

_FROM_NOW = frozenset({"from now", "from right now", "hence"})
_TO_BED = frozenset({"asleep", "to_bed", "bed_now"})
_AM_TO_MIN, _PM_FROM_MIN = 5 * 60, 7 * 60
"""Bed before five on the dial is after midnight, from seven on in the evening; between them it is not told."""
_UP_FROM_MIN, _UP_TO_MIN = 3 * 60, 12 * 60


def told_by_the_day(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with the half of the day their words tell, and lengths of time counted from now as such."""
    return _halved(_from_now(tokens))


def _from_now(tokens: Sequence[Token]) -> list[Token]:
    out: list[Token] = []
    for token in tokens:
        behind = bool(out) and out[-1].kind == "TIME" and fold(token.text) in _FROM_NOW
        if behind:
            length = out.pop()
            if not (out and "in" in out[-1].ids("link")):
                out.append(Token("LINK", "in", length.start, length.start, terms=(("link", "in"),)))
            out.extend((length, replace(token, kind="FILL", terms=(("filler", "filler"),))))
        else:
            out.append(token)
    return out


def _halved(tokens: list[Token]) -> list[Token]:
    owner: Token | None = None
    out: list[Token] = []
    for at, token in enumerate(tokens):
        if token.kind in ("MARK", "TERM"):
            owner = token if token.kind == "TERM" else None
        said = token.value if isinstance(token.value, Moment) else None
        behind = tokens[at + 1 : at + 3]  # the other end of a stretch, or the half said itself
        dated = any(one.kind in ("PART", "DAY", "CLOCK") or one.ids("past") for one in behind)
        half = _half(owner, said) if said is not None and not dated else None
        halved = replace(said, half=half) if said is not None and half is not None else None
        out.append(replace(token, value=halved) if halved is not None else token)
        if token.kind == "CLOCK":
            owner = None
    return out


def _half(owner: Token | None, said: Moment) -> str | None:
    """The half of the day that the word before an hour tells; None where it tells none, or it was said."""
    if owner is None or said.minute is None or said.sure or said.part is not None or said.minute >= 720:
        return None
    if {*owner.ids("away"), *owner.ids("clocked"), *owner.ids("bedtime")} & _TO_BED:
        return "am" if said.minute < _AM_TO_MIN else "pm" if said.minute >= _PM_FROM_MIN else None
    up = "up" in owner.ids("clocked")
    return "am" if up and _UP_FROM_MIN <= said.minute < _UP_TO_MIN else None
