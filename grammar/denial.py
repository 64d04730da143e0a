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
