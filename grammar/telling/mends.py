"""What is put right in a report: a figure given up left out, the last one told anew, a deed done to another dough."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Line
from grammar.lexicon import fold
from grammar.moments import Moment, hour_said
from grammar.phrases import Phrase
from grammar.telling.told import Cut, Item, Telling, Told
from grammar.tokens import Quantity


def without_old(items: list[Item]) -> list[Item]:
    """ "at 9:30, not 9:40": the figure that is put right is left out, where the right one of its sort stands before."""
    out: list[Item] = []
    for item in items:
        before = [one for one in out if one.amount is not None]
        denied = out[-2] if len(out) > 1 else None
        if (
            item.amount is None and fold(item.text) in _INSTEAD and before == out[-1:] and denied is not None
            and fold(denied.text) in _RATHER
        ):  # fmt: skip
            out[-2:] = [Item(item.clause, item.text, (("mends", "mends"),))]  # "not 40, only 30"
            continue
        if (
            item.amount is not None and len(out) == 2 and len(before) == 1 and out[-1] is before[0]
            and fold(out[0].text) in _RATHER and _of_a_sort(item.amount, before[0].amount or item.amount)
        ):  # fmt: skip
            out = [Item(item.clause, out[0].text, (("mends", "mends"),))]  # "not 40, 30"
        if (
            item.amount is not None and before and len(out) > 1 and out[-1].amount is None
            and fold(out[-1].text) in _RATHER and _of_a_sort(before[-1].amount, item.amount)
        ):  # fmt: skip
            out.pop()
            before[-1].old = item.amount
        else:
            out.append(item)
    return out


def _of_a_sort(new: Phrase | None, old: Phrase) -> bool:
    """Whether a figure may be the one put right; a bare number may be an hour."""
    bare_hour = new is not None and "num" in (new.dim, old.dim) and (new.moment or old.moment) is not None
    return bare_hour or (new is not None and new.dim == old.dim)


_INSTEAD = frozenset({"only", "just", "but", "rather", "its", "it is", "it was", "more like", "but only"})
_RATHER = frozenset({"not", "instead of", "rather than", "and not"})


def mended(cut: Cut, line: Line) -> Telling | None:
    """ "no, it was 7": the last one told, with another hour or figure."""
    if line.context.focus != "progress":
        return None
    words = [item for item in cut.items if item.amount is None]
    amounts = [item for item in cut.items if item.amount is not None]
    if len(amounts) != 1 or amounts[0].amount is None:
        return None
    was = _old_of(amounts[0])
    small = _RATHER | _INSTEAD | {"no"}
    replaced = was is not None and all(
        item.ids("small") or item.ids("mends") or fold(item.text) in small for item in words
    )
    if replaced:
        words = []
    elif not any(item.ids("mends") or (item.ids("mends_hour") and amounts[0].amount.moment) for item in words[:3]):
        return None
    if any(item.ids(kind) for item in words for kind in ("did", "place", "gauge", "stage", "bids", "asks", "denies")):
        return None
    if any(not item.terms for item in words):
        return None
    phrase = amounts[0].amount
    ago = any("ago" in item.ids("time") and fold(item.text) == "ago" for item in words)
    if ago and phrase.dim == "time" and phrase.quantity is not None:
        return Telling((Told("mend", ago_min=phrase.quantity.base),), amounts=1)
    new = _figure(phrase.quantity, phrase.moment)
    return None if new is None else Telling((replace(new, old=was),), amounts=1)


def _old_of(item: Item) -> Told | None:
    """What a figure is said in the place of: "3 not 2", "3, not 2:30"."""
    if item.old is not None:
        return _figure(item.old.quantity, item.old.moment)
    return _figure(item.amount.old, None) if item.amount is not None else None


def _figure(quantity: Quantity | None, moment: Moment | None) -> Told | None:
    """A figure as it may put right or be put right: an hour, or a bare number that may be one too."""
    if moment is not None:
        return Told("mend", at=moment)
    if quantity is None or quantity.dim not in ("num", "pct", "temperature", "share"):
        return None
    value = quantity.value * (100 if quantity.dim == "share" else 1)
    return Told("mend", value=value, at=hour_said(value) if quantity.dim == "num" else None)


def again(cut: Cut, line: Line) -> Telling | None:
    """ "the loaves too, 6:50": done to another dough as well, at an hour of its own."""
    if line.context.focus != "progress":
        return None
    hours = [item.amount.moment for item in cut.items if item.amount is not None]
    words = [item for item in cut.items if item.amount is None]
    also = any(fold(item.text) in _ALSO for item in words)
    if not also or len(hours) > 1 or any(one is None for one in hours):
        return None
    if any(not (item.thing or fold(item.text) in _ALSO or item.ids("small") or item.ids("time")) for item in words):
        return None
    return Telling((Told("again", at=hours[0] if hours else None),), amounts=len(hours))


_ALSO = frozenset({"too", "also", "as well", "same", "likewise", "ditto", "the same", "same again"})
