"""How plausible an amount is as what a slot takes, and which noun before it owns it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.frames import Frame, amount_base, fits
from grammar.phrases import Phrase
from grammar.slots import Slot

PLAUSIBLE, IMPLAUSIBLE, ABSURD = 0.5, -1.5, -3.0
_OWN_ONLY = ("cue:hydration", "cue:prefermented")


def range_score(
    slot: Slot, amount: Phrase, label: Phrase | None, groups: Mapping[str, str], most: float | None = None
) -> float:
    low, high = slot.low, slot.high if most is None else most
    if slot.by_group and label is not None:
        group = next((groups.get(i) for i in label.ids("ingredient")), None) or ""
        low, high = slot.by_group.get(group, (low if low is not None else 0.0, high if high is not None else 1e12))
    value = amount_base(amount, high)
    if value is None or (low is None and high is None):
        return 0.0
    if amount.dim == "share":
        value *= 100
    if (low is None or value >= low) and (high is None or value <= high):
        return PLAUSIBLE
    # far outside is worse than just outside
    if low is not None and value < low:
        return ABSURD if value <= low / 4 else IMPLAUSIBLE
    assert high is not None
    return ABSURD if value >= high * 4 else IMPLAUSIBLE


def named_before(
    frame: Frame, phrases: Sequence[Phrase], place: int, groups: Mapping[str, str]
) -> frozenset[str]:
    """The slots of the noun a bare number stands behind, a comma between ("more butter, 10"), or nothing where the noun
    is a figure's own name ("hydration 230"). A noun that has an amount of its own before it wants none."""
    at = place - 1
    right_behind = at >= 0 and fits(phrases[at], _OWN_ONLY)
    if right_behind:
        at += 1
    elif at < 1 or phrases[at].kind != "sep" or phrases[at].text.strip() != ",":
        return frozenset()
    noun = phrases[at - 1]
    if noun.kind != "label" or noun.negated or (at > 1 and phrases[at - 2].kind == "amount"):
        return frozenset()
    return frozenset(
        name for name, slot in frame.slots.items()
        if "num" in slot.dims and fits(noun, slot.cues) and not (slot.never and fits(noun, slot.never))
        and (right_behind or range_score(slot, phrases[place], noun, groups) >= PLAUSIBLE)
    )  # fmt: skip
