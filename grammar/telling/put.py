"""Something put somewhere, in a report: the way and the place behind it, or in and out of where it was."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.telling.gauges import as_warm
from grammar.telling.told import Cut, Item, Made, Told
from grammar.telling.words import step_near

_PUT = {
    ("in", "oven"): "bake", ("on", "oven"): "bake", ("out", "oven"): "cool", ("in", "fridge"): "retard",
    ("out", "fridge"): "warm_up", ("in", "pot"): "boil", ("on", "rack"): "cool", ("in", "tin"): "shape",
    ("on", "tin"): "shape", ("in", "tub"): "bulk", ("under", "cover"): "covered",
}  # fmt: skip
COVERED = "covered"
"""No step of its own: the first thing told of a dough, it is left to rise; later it says nothing new."""
_BEING = frozenset({
    "was", "it was", "were", "been", "its been", "has been", "it has been", "are", "is", "theyre", "its", "all",
    "everything",
})  # fmt: skip


def put(cut: Cut, place: int) -> None:
    """Something put somewhere: the way and the place behind it; without a place it is in, or out, of where it was."""
    items, way = cut.items, cut.items[place]
    here = way.clause
    at = place + 1
    while at < len(items) and items[at].clause == here and _passed(items[at]):
        at += 1
    target = items[at] if at < len(items) and items[at].clause == here else None
    beyond = items[at + 1] if at + 1 < len(items) and items[at + 1].clause == here else None
    part_of = beyond is not None and beyond.amount is None and not beyond.terms  # "in my tin loaf"
    named = target.ids("place") if target is not None and not part_of else []
    if target is not None and not named and target.room and not part_of and _goes_there(cut, way):
        way.used = target.used = True
        cut.made.append(Made(Told("moved", place=target.text), place, here))
        return
    for direction in way.ids("way"):
        step = _PUT.get((direction, named[0])) if named else None
        starter = any("starter" in one.ids("gauge") for one in cut.clause(here))
        if starter and step in ("retard", "warm_up"):
            continue  # the starter lives there too
        if step is not None:
            way.used = target.used = True  # type: ignore[union-attr]
            if step == COVERED:
                again = cut.under_way or any(one.told.what == "mark" for one in cut.made)
                step = "" if again else "bulk"
            if step and not marked_here(cut, step, here):
                cut.made.append(Made(Told("mark", step), place, here))
            return
    if named or way.used:
        return
    word = fold(way.text).split(" ")[-1]
    moved_here = " " in way.text.strip()
    if word not in ("in", "out") and not (word == "off" and any(one.ids("moved") for one in cut.clause(here))):
        return
    gauge = _gauge_behind(cut, place) if word != "in" else None
    if gauge is not None:
        way.terms = (*way.terms, ("gauge", gauge))
        return
    before = cut.clause(here)[: _index(cut, place)]
    moved = any(one.ids("moved") or fold(one.text) in _BEING for one in before)
    behind = items[place + 1] if place + 1 < len(items) and items[place + 1].clause == here else None
    ends = behind is None or behind.amount is not None or bool(behind.ids("time")) or bool(behind.ids("phase"))
    measured = cut.has("gauge", here) and any(
        one.amount is not None and one.amount.dim in ("num", "temperature") for one in cut.clause(here)
    )
    alone = not before and all(one is way or one.ids("time") for one in cut.clause(here))
    if any(one.food for one in cut.clause(here)):
        return  # "the seeds went in": into the bowl
    put_there = moved or moved_here or alone or _is_thing_before(cut, place)
    if put_there and ends and not measured and not cut.has("did", here):
        way.used = True
        cut.made.append(Made(Told("in" if word == "in" else "out"), place, here))


def _goes_there(cut: Cut, way: Item) -> bool:
    """Whether it is put there: a verb of moving, or the way alone at the head of its clause."""
    here = [one for one in cut.clause(way.clause) if one.amount is None]
    before = here[here.index(way) - 1] if here.index(way) else None
    lies = before is not None and fold(before.text) in cut.lexicon.small("tells_of_it") | _BEING
    at = cut.items.index(way)
    ahead = cut.items[at - 1].amount if at and cut.items[at - 1].clause == way.clause else None
    if before is None and ahead is not None and ahead.dim == "num" and cut.items[at - 1].text.isdigit():
        return True  # "35 in the boathouse now"
    return lies or any(one.ids("moved") for one in here) or (before is None and fold(way.text) in ("into", "onto"))


def _gauge_behind(cut: Cut, place: int) -> str | None:
    """What the figure behind "came out at" is read on: pieces where it was divided or shaped, the dough's warmth where
    it can be one; None for an hour."""
    behind = (one for one in cut.items[place + 1 :] if one.clause == cut.items[place].clause)
    amount = next((one.amount for one in behind if one.amount is not None), None)
    if amount is None or amount.quantity is None or amount.dim not in ("num", "temperature"):
        return None
    value = amount.quantity.value
    if amount.dim == "num" and value == int(value):
        warm = "dough_c" if as_warm(value) is not None else None
        return TALLY if step_near(cut, place) in _PARTED else warm
    return "dough_c"


TALLY = "tally"
"""No gauge: what came out is counted."""
_PARTED = frozenset({"divide", "preshape", "shape"})


def _index(cut: Cut, place: int) -> int:
    """Where in its clause an item stands."""
    here = cut.items[place].clause
    return sum(1 for one in cut.items[:place] if one.clause == here)


def _is_thing_before(cut: Cut, place: int) -> bool:
    before = cut.items[place - 1] if place else None
    if before is None or before.clause != cut.items[place].clause or before.food:
        return False
    return not before.terms or fold(before.text).split()[-1] in _LOADED


_LOADED = frozenset({"tray", "trays", "load", "loads", "batch", "lot", "one", "ones", "half", "tin", "tins"})
"""What goes in or comes out: "second tray out", "third one in"."""


def _passed(item: Item) -> bool:
    """Words between a way and its place: "in the hot oven", "into my big pot"."""
    if item.amount is not None:
        return item.amount.dim == "temperature"
    if item.ids("place") or item.room:
        return False
    return not item.terms or (bool(item.ids("small")) and not item.ids("way"))


def marked_here(cut: Cut, step: str, clause: int) -> bool:
    """Whether a step was told in this clause already, or, where it comes once and no other hour is said, before it."""
    again = step in AGAIN or any(
        one.amount is not None and one.amount.dim in ("moment", "time") for one in cut.clause(clause)
    )
    return any(one.told.step == step and (one.clause == clause or not again) for one in cut.made)


AGAIN = frozenset({"fold", "feed_starter", "preheat", "boil", "bake", "cool", "retard", "warm_up"})
