"""A line that sets several timers, one over and over, or another one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from grammar.frames import Line
from grammar.lexicon import fold
from grammar.moments import Moment
from grammar.telling.told import Cut, Item
from grammar.telling.words import items_of

_MOST = 24
"""No baker wants to be called more often in one bake."""


@dataclass(frozen=True, slots=True)
class Call:
    """One call: after so many minutes, or at an hour; what for, as typed."""

    minutes: float | None = None
    at: Moment | None = None
    label: str | None = None


@dataclass(frozen=True, slots=True)
class Calls:
    """every_min: over and over, `times` so often or for `span_min` or until `till`; else each call once."""

    calls: tuple[Call, ...] = ()
    every_min: float | None = None
    times: int | None = None
    span_min: float | None = None
    till: Moment | None = None
    label: str | None = None


def calls_of(line: Line, running: bool) -> Calls | None:
    """The timers a line sets, where it sets more than one plain one; None else. running: some run already."""
    cut = Cut([_no_number(item) for item in items_of(line)], lexicon=line.lexicon)
    if not cut.items or line.text.rstrip().endswith("?"):
        return None
    called = any("call" in item.ids("timer") and not _of_a_name(cut.items, n) for n, item in enumerate(cut.items))
    again = running and bool(cut.items[0].amount is None and "again" in cut.items[0].ids("timer"))
    if not called and not again and not (running and _begins_again(cut.items)):
        return None
    cut.items = [item for place, item in enumerate(cut.items) if not _counts_timers(cut.items, place)]
    _counts_into_labels(cut.items)
    _meals_into_labels(cut.items, line)
    if all(item.amount is None for item in cut.items):
        return None
    if _has(cut.items, "every"):
        return _repeated(cut)
    calls = _each(cut)
    return Calls(calls) if calls and (len(calls) > 1 or not called) else None


def _no_number(item: Item) -> Item:
    """ "one": a word for one more timer, no length."""
    return replace(item, amount=None) if item.amount is not None and item.text.lower() == "one" else item


def _counts_timers(items: Sequence[Item], place: int) -> bool:
    """ "two alarms": how many there are to be, no length."""
    item, behind = items[place], items[place + 1 : place + 2]
    return item.amount is not None and item.amount.dim == "num" and bool(behind) and "call" in behind[0].ids("timer")


_CALLED = frozenset({"me", "us", "the", "a", "an", "when", "every", "for", "to", "once", "again"})


def _of_a_name(items: Sequence[Item], place: int) -> bool:
    """ "24 ring rolls", "ring holes vanished": a ring that nobody is given one by is a shape, no call."""
    item, behind = items[place], items[place + 1 : place + 2]
    if item.amount is not None:
        return True
    if not behind or behind[0].amount is not None:
        return False
    return behind[0].thing or (fold(item.text) == "ring" and fold(behind[0].text).split()[0] not in _CALLED)


def _counts_into_labels(items: list[Item]) -> None:
    """ "for 24 rolls": a number of things is part of what it is for."""
    for place, item in enumerate(items[:-1]):
        if item.amount is not None and item.amount.dim == "num" and items[place + 1].thing:
            item.amount = None


def _meals_into_labels(items: list[Item], line: Line) -> None:
    """ "for the breakfast eggs, 6 min": a meal beside a length is what it is for, and no hour."""
    lengths = any(_minutes(item) is not None for item in items)
    for item in items if lengths else ():
        if ("hand", "meal") in line.lexicon.asides.get(fold(item.text), ()):
            item.amount = None


def _has(items: Sequence[Item], name: str) -> bool:
    return any(name in item.ids("timer") for item in items if item.amount is None)


def _begins_again(items: Sequence[Item]) -> bool:
    """ "and another at twenty past", "and a 6 minute one": words about the first figure that ask for one more, and no
    others before it."""
    words = [fold(item.text) for item in takewhile(lambda item: item.amount is None, items)]
    behind = [fold(item.text) for item in items[len(words) + 1 : len(words) + 2]]
    led = bool(words) and {*words} <= {"and", "another", "one", "at", "in", "also", "more", "then", "a"}
    return led and bool({*words, *behind} & {"another", "one", "also"})


def _minutes(item: Item) -> float | None:
    if item.amount is None or item.amount.quantity is None:
        return None
    quantity = item.amount.quantity
    if item.amount.dim == "time":
        return quantity.base
    return None


def _repeated(cut: Cut) -> Calls | None:
    """ "every half hour for the next two hours", "every 20 min, 4 times", "every half hour until 11"."""
    items = cut.items
    at = next(place for place, item in enumerate(items) if "every" in item.ids("timer"))
    every = next((_minutes(item) for item in items[at:] if _minutes(item)), None)
    if every is None and any(fold(item.text).startswith("hour") for item in items[at : at + 2]):
        every = 60.0
    if every is None:
        return None
    used = next((item for item in items[at:] if _minutes(item) == every), None)
    span: float | None = None
    times: int | None = None
    till: Moment | None = None
    rest: list[Item] = []
    for place, item in enumerate(items):
        if item is used:
            continue
        minutes = _minutes(item)
        ahead = items[place - 1] if place else None
        behind = items[place + 1] if place + 1 < len(items) else None
        if minutes is not None:
            span = minutes
        elif item.amount is not None and item.amount.moment is not None:
            till = item.amount.moment
        elif item.amount is not None and item.amount.dim == "num" and item.amount.quantity is not None:
            if behind is not None and "times" in behind.ids("timer"):
                times = int(item.amount.quantity.value)
            elif ahead is not None and fold(ahead.text) in ("until", "till", "til"):
                till = Moment(minute=int(item.amount.quantity.value) * 60)
        else:
            rest.append(item)
    label = _label([item for item in rest if item.amount is None and item.clause == items[at].clause])
    return Calls(every_min=every, times=times, span_min=span, till=till, label=label or _fold_word(rest))


def _fold_word(items: Sequence[Item]) -> str | None:
    """ "that's four folds": what they are, said behind."""
    return next((item.text for item in items if item.ids("stage")), None)


def _each(cut: Cut) -> tuple[Call, ...]:
    """A call for each figure: with the words of its own stretch, else with those said for all of them."""
    stretches: list[list[Item]] = []
    for place, item in enumerate(cut.items):
        new = not stretches or item.clause != cut.items[place - 1].clause
        timed = bool(stretches) and any(one.amount is not None for one in stretches[-1])
        joins = item.amount is None and (fold(item.text) == "and" or "call" in item.ids("timer"))
        if new or (joins and timed):
            stretches.append([])
        stretches[-1].append(item)
    found: list[Call] = []
    shared: str | None = None
    for stretch in stretches:
        times = [item for item in stretch if item.amount is not None]
        label = _label([item for item in stretch if item.amount is None])
        if not times:
            if found and label and found[-1].label is None:
                found[-1] = replace(found[-1], label=label)
            else:
                shared = shared or label
            continue
        for item in times:
            call = _call(item, label)
            if call is None:
                return ()
            found.append(call)
        shared = shared or label
    alike = len(found) == 1 or all(call.at is not None for call in found)
    return tuple(replace(call, label=call.label or (shared if alike else None)) for call in found)[:_MOST]


def _call(item: Item, label: str | None) -> Call | None:
    assert item.amount is not None
    if item.amount.moment is not None:
        moment = item.amount.moment
        return Call(moment.in_min, None, label) if moment.in_min is not None else Call(None, moment, label)
    if item.amount.quantity is None:
        return None
    if item.amount.dim == "time":
        return Call(item.amount.quantity.base, None, label)
    if item.amount.dim == "num":
        return Call(item.amount.quantity.value, None, label)  # bare numbers of a timer are minutes
    return None


def _label(items: Sequence[Item]) -> str | None:
    """What it is for: the words between those that only set a timer."""
    words = [item for item in items if item.amount is None and not _sets(item) and item.text[:1].isalnum()]
    while words and fold(words[0].text) in _EDGES:
        words = words[1:]
    while words and fold(words[-1].text) in _EDGES - {"on", "in", "out"}:
        words = words[:-1]
    text = " ".join(item.text for item in words).strip()
    return text or None


_EDGES = frozenset(
    {"in", "at", "to", "for", "the", "a", "an", "my", "and", "then", "on", "of", "that", "thats", "now", "from",
     "please", "set", "it", "one", "me", "us", "so", "by", "from now", "minutes", "next", "when"}
)  # fmt: skip


def _sets(item: Item) -> bool:
    return bool({"call", "again", "every", "for_so_long", "until"} & set(item.ids("timer")))
