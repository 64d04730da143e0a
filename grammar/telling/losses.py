"""Pieces that are gone, and how many are left: "lost 12", "2 went on the floor", "only 18 left"."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.telling.told import Cut, Item, Made, Told

_SMALL = frozenset({"of", "of them", "of those", "of these", "the", "only", "just", "about", "still", "have"})
_SCARCE = frozenset({"only", "just", "down to", "still"})
"""Words ahead of a number that is all there is."""


def losses(cut: Cut) -> None:
    """Each number of pieces that a clause says are gone, or left. Where a word may also say that something was put
    somewhere ("12 gone in the oven"), a place in its clause decides for that."""
    for place, item in enumerate(cut.items):
        for what in ("lost", "left"):
            if item.ids(what) and not item.used and not _put(cut, item):
                _counted(cut, place, what)


def _counted(cut: Cut, place: int, what: str) -> None:
    """The number of pieces a word says are gone or left, made a statement of the report."""
    item = cut.items[place]
    number = _number(cut, place, what)
    if number is None:
        _a_tray(cut, place, what)
        return
    behind = cut.items[cut.items.index(number) + 1 :][:1]
    trays = bool(behind) and "tin" in behind[0].ids("place") and behind[0].clause == number.clause
    on_them = next((one for one in cut.items if trays and one is not number and _whole(one)), None)
    if on_them is not None and any(one.ids(what) for one in cut.clause(on_them.clause)):
        item.used = number.used = True  # the pieces that were on it are told beside it
        return
    assert number.amount is not None
    item.used = number.used = True
    part = "share" if number.amount.dim == "share" else "tray" if trays else None
    told = Told(what, value=_value(number), place=part)
    cut.made.append(Made(told, place, item.clause))


def _a_tray(cut: Cut, place: int, what: str) -> None:
    """ "dropped a tray": one of them, where nothing else is counted."""
    item = cut.items[place]
    for beside in (cut.items[place + 1 : place + 3], cut.items[max(0, place - 2) : place]):
        here = [one for one in beside if one.clause == item.clause]
        if len(here) == 2 and fold(here[0].text) in ("a", "an", "one") and "tin" in here[1].ids("place"):
            item.used = here[1].used = True
            if not any(_whole(one) for one in cut.items):
                cut.made.append(Made(Told(what, value=1.0, place="tray"), place, item.clause))
            return


def _number(cut: Cut, place: int, what: str) -> Item | None:
    """The number nearest to the word in its clause, with nothing but small words and the pieces' name between."""
    for step in (1, -1) if what == "lost" else (-1, 1):
        at = place + step
        while 0 <= at < len(cut.items) and cut.items[at].clause == cut.items[place].clause:
            one = cut.items[at]
            if (_whole(one) or _part(one)) and not one.used:
                return None if _of_a_deed(cut, at) else one
            if one.amount is not None or not (one.thing or one.ids("place") or _small(one)):
                break
            at += step
    return None


def _of_a_deed(cut: Cut, at: int) -> bool:
    """ "gave it two folds": so many times something was done to the dough."""
    return any(one.ids("did") or one.ids("stage") for one in cut.items[at + 1 : at + 2])


def _small(item: Item) -> bool:
    return bool(item.ids("small") or item.ids("time")) or fold(item.text) in _SMALL | _SCARCE


def _value(item: Item) -> float | None:
    """The number an item says; "gave away 2" is no hour."""
    amount = item.amount
    if amount is None or amount.old is not None:
        return None
    bare = amount.moment is not None and item.text.isdigit()
    return float(item.text) if bare else amount.quantity.value if amount.quantity is not None else None


def _whole(item: Item) -> bool:
    value = _value(item)
    counts = item.amount is not None and (item.amount.dim == "num" or item.amount.moment is not None)
    return counts and value is not None and value == int(value) and 1 <= value < 5000


def _part(item: Item) -> bool:
    """ "half of them"."""
    return item.amount is not None and item.amount.dim == "share" and _value(item) is not None


def _put(cut: Cut, item: Item) -> bool:
    """Whether the clause says where something was put rather than that it is gone."""
    here = cut.clause(item.clause)
    before = (one for one in cut.items[: cut.items.index(item)] if one.clause == item.clause)
    if any(one.room or one.food or one.ids("gauge") for one in before):
        return True  # "the kitchen fell to 17": of that, and of no pieces
    if not (item.ids("moved") or item.ids("q")):
        return False
    there = any(set(one.ids("place")) - {"tin"} or one.room or one.food or one.ids("did") for one in here)
    return there or any(one.ids("way") and one is not item for one in here)
