"""How far a denial reaches over things named one after another: "no milk, egg or butter", "leave out seeds and salt".

It reaches to the end of the list, and no further than the first thing with an amount of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from grammar.phrases import Phrase

_THINGS = ("ingredient", "food", "diet")
_EITHER, _BOTH = frozenset({"or", "nor"}), frozenset({"and"})


def denied_on(phrases: Sequence[Phrase]) -> tuple[Phrase, ...]:
    """The phrases of a line, the things denied with the one before them marked so."""
    out = list(phrases)
    at = 0
    while at < len(out):
        first = _denied_at(out, at)
        listed = _listed(out, first) if first is not None else ()
        for place in listed:
            out[place] = replace(out[place], negated=True)
        at = max(at + 1, *listed) if listed else at + 1
    return tuple(out)


def hours_not_meant(phrases: Sequence[Phrase]) -> tuple[Phrase, ...]:
    """The phrases of a line, each hour said not to be meant made part of the one that is: "at 7, not 6"."""
    out: list[Phrase] = []
    at = 0
    while at < len(phrases):
        last = next((one for one in reversed(out) if one.kind != "sep"), None)
        told = last is not None and last.moment is not None and last.moment.minute is not None
        if last is not None and told and _is_hour_denied(phrases, at):
            while out[-1] is not last:
                out.pop()
            out[-1] = replace(last, tokens=(*last.tokens, *phrases[at].tokens, *phrases[at + 1].tokens))
            at += 2
        else:
            out.append(phrases[at])
            at += 1
    return tuple(out)


def _is_hour_denied(phrases: Sequence[Phrase], at: int) -> bool:
    """Whether a "not" stands there before a bare number that may be an hour and is of nothing else."""
    if "no" not in phrases[at].ids("negation") or at + 1 >= len(phrases):
        return False
    number, behind = phrases[at + 1], phrases[at + 2] if at + 2 < len(phrases) else None
    value = number.quantity.value if number.kind == "amount" and number.dim == "num" and number.quantity else None
    return value in range(25) and (behind is None or behind.kind != "label")


def _denied_at(phrases: Sequence[Phrase], at: int) -> int | None:
    """The place of a thing denied by the phrase at a place: itself, or the one behind a "leave out"."""
    if phrases[at].negated:
        return at if _is_thing(phrases[at]) else None
    leaves_out = "no" in phrases[at].ids("negation") and at + 1 < len(phrases)
    return at + 1 if leaves_out and _is_thing(phrases[at + 1]) else None


def _listed(phrases: Sequence[Phrase], first: int) -> tuple[int, ...]:
    """The places of what is listed with the thing at `first`; none where it is no list of things without amounts."""
    found: list[int] = []
    certain = 0
    at = first + 1
    while at + 1 < len(phrases):
        joint, thing = phrases[at], phrases[at + 1]
        behind = phrases[at + 2] if at + 2 < len(phrases) else None
        either = bool(_EITHER & set(joint.ids("link")))
        both = bool(_BOTH & set(joint.ids("link"))) and (behind is None or behind.kind == "sep")
        comma = joint.kind == "sep" and joint.text.strip() == ","
        measured = behind is not None and behind.kind == "amount"
        if not (either or both or comma) or not _is_thing(thing) or thing.negated or measured:
            break
        found.append(at + 1)
        certain = len(found) if either or both else certain
        at += 2
    return tuple(found[:certain])


def _is_thing(phrase: Phrase) -> bool:
    return phrase.kind == "label" and any(phrase.ids(kind) for kind in _THINGS)
