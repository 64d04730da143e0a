"""The deeds a report tells: by their verbs, by a stage begun or over, by a place something was put."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.telling.joins import only_measured
from grammar.telling.words import OF_IT, Cut, Item, Made, Told

BEGUN = {
    "mix": "mix", "autolyse": "autolyse", "bulk": "bulk", "fold": "fold", "divide": "divide", "preshape": "preshape",
    "bench_rest": "preshape", "shape": "shape", "proof": "shape", "retard": "retard", "preheat": "preheat",
    "boil": "boil", "bake": "bake", "cool": "cool", "feed_starter": "feed_starter",
}  # fmt: skip
"""The step that a stage makes when it begins."""
OVER = {
    "mix": "mix", "autolyse": "mix", "bulk": "divide", "fold": "fold", "divide": "divide", "preshape": "preshape",
    "bench_rest": "preshape", "shape": "shape", "proof": "proofed", "retard": "warm_up", "preheat": "preheat",
    "boil": "boil", "bake": "cool", "feed_starter": "feed_starter",
}  # fmt: skip
"""The step that a stage makes when it is over."""
_PUT = {
    ("in", "oven"): "bake", ("on", "oven"): "bake", ("out", "oven"): "cool", ("in", "fridge"): "retard",
    ("out", "fridge"): "warm_up", ("in", "pot"): "boil", ("on", "rack"): "cool", ("in", "tin"): "shape",
    ("on", "tin"): "shape", ("in", "tub"): "bulk",
}  # fmt: skip
_BEING = frozenset({
    "was", "it was", "were", "been", "its been", "has been", "it has been", "are", "is", "theyre", "its", "all",
    "everything",
})  # fmt: skip
_ARTICLES = frozenset({"a", "an", "the", "my", "our", "it", "them"})
_SO_MANY = frozenset({"one", "two", "three", "four", "a couple of", "a few"})
_NTH = frozenset(
    ["first", "second", "third", "fourth", "fifth", "last", "another", "next", "1st", "2nd", "3rd", "4th"]
)


def deeds(cut: Cut) -> None:
    items = cut.items
    for place, item in enumerate(items):
        if item.used or item.amount is not None:
            continue
        if _after(cut, place) or only_measured(items, place):
            continue
        if fold(item.text) == "turned" and any("oven" in one.ids("place") for one in cut.clause(item.clause)):
            continue  # the oven was, no dough
        step = next(iter(item.ids("did")), None) or _going_on(cut, item) or _of_stage(cut, place)
        if item.ids("done_in") and _goes_somewhere(cut, place):
            item.terms = (("way", "in"),)  # "the buns in the fridge"
        step = step or next(iter(item.ids("done_in")), None)
        if step is not None:
            mark(cut, place, step)
            continue
        if item.ids("spot"):
            if any(one.amount is not None and one.amount.dim in ("num", "temperature") for one in items[place + 1 :]):
                cut.made.append(Made(Told("moved", place=item.text), place, item.clause))
        elif item.ids("way"):
            put(cut, place)


def _goes_somewhere(cut: Cut, place: int) -> bool:
    """Whether a place stands behind in its clause."""
    behind = [one for one in cut.items[place + 1 :] if one.clause == cut.items[place].clause]
    return any(one.ids("place") or one.room for one in behind)


def _after(cut: Cut, place: int) -> bool:
    """ "23 after mixing", "24 when shaped": tells when something was measured, not that it was done then."""
    items = cut.items
    while place and items[place - 1].clause == items[place].clause and fold(items[place - 1].text) in _ARTICLES:
        place -= 1
    return place > 0 and fold(items[place - 1].text) in ("after", "following") and not any(
        item.ids("moved") for item in items[:place] if item.clause == items[place].clause
    ) and fold(items[place - 1].text) != "" and not _theyre_after(cut, place - 1)


def _theyre_after(cut: Cut, place: int) -> bool:
    """ "they're after going in": Irish English for having just gone."""
    before = cut.items[place - 1] if place else None
    return before is not None and fold(before.text) in OF_IT | {"im", "is", "are"}


def mark(cut: Cut, place: int, step: str) -> None:
    item = cut.items[place]
    item.used = True
    if step == "proofed":
        cut.made.append(Made(Told("mark", "proofed"), place, item.clause))
        return
    if _marked_here(cut, step, item.clause):
        return
    cut.made.append(Made(Told("mark", step), place, item.clause))


def _going_on(cut: Cut, item: Item) -> str | None:
    """ "they're baking": going on; a stage's bare name is none, and one that is said to be over is over."""
    doing = item.ids("doing")
    if not doing or _names_a_thing(cut, item):
        return None
    if item.ids("stage") and cut.has("phase", item.clause):
        return None
    alone = len([one for one in cut.items if one.amount is None]) == 1
    return None if alone and doing[0] != "cool" else doing[0]


def _names_a_thing(cut: Cut, item: Item) -> bool:
    """ "proofing box", "baking paper": the word belongs to the noun behind it."""
    behind = cut.items[cut.items.index(item) + 1 :][:1]
    return bool(behind) and behind[0].amount is None and not behind[0].terms and behind[0].clause == item.clause


def _of_stage(cut: Cut, place: int) -> str | None:
    """A stage by its name, begun or over, gone into or out of."""
    item = cut.items[place]
    stages = item.ids("stage")
    if not stages:
        return None
    stage = stages[0]
    beside = [one for one in cut.clause(item.clause) if one is not item]
    phases = [name for one in beside for name in one.ids("phase")]
    here = place
    before = cut.items[place - 1] if place else None
    while before is not None and before.ids("small") and not before.ids("way") and before.clause == item.clause:
        place -= 1
        before = cut.items[place - 1] if place else None
    ways = before.ids("way") if before is not None and before.clause == item.clause else []
    if "out" in ways:
        return OVER.get(stage)
    if "over" in phases and stage not in ("fold",):
        for one in beside:
            one.used = one.used or bool(one.ids("phase"))
        return OVER.get(stage)
    since = any(fold(one.text) == "since" for one in beside)
    if "begun" in phases or since or (ways and stage in ("bulk", "proof", "retard", "autolyse")):
        return BEGUN.get(stage)
    if stage == "fold" and (phases or _numbered(cut, here, item.clause)):
        return "fold"
    return None


def _numbered(cut: Cut, place: int, clause: int) -> bool:
    """ "second fold", "third set of folds at 10:05"."""
    before = cut.items[place - 1] if place else None
    if before is not None and before.amount is not None and before.amount.dim == "num" and before.clause == clause:
        before.used = True
        return True  # "did one fold", "2 folds done"
    if before is not None and before.clause == clause and fold(before.text) in _SO_MANY:
        return True
    return any(fold(one.text).split(" ")[-1] in _NTH for one in cut.clause(clause) if one.amount is None)


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
            if not _marked_here(cut, step, here):
                cut.made.append(Made(Told("mark", step), place, here))
            return
    if named or way.used:
        return
    word = fold(way.text).split(" ")[-1]
    moved_here = " " in way.text.strip()
    if word not in ("in", "out") and not (word == "off" and any(one.ids("moved") for one in cut.clause(here))):
        return
    if word != "in" and _warm_behind(cut, place):
        way.terms = (*way.terms, ("gauge", "dough_c"))
        return
    before = cut.clause(here)[: _index(cut, place)]
    moved = any(one.ids("moved") or fold(one.text) in _BEING for one in before)
    behind = items[place + 1] if place + 1 < len(items) and items[place + 1].clause == here else None
    ends = behind is None or behind.amount is not None or bool(behind.ids("time")) or bool(behind.ids("phase"))
    gauge = cut.has("gauge", here) and any(
        one.amount is not None and one.amount.dim in ("num", "temperature") for one in cut.clause(here)
    )
    alone = not before and all(one is way or one.ids("time") for one in cut.clause(here))
    if any(one.food for one in cut.clause(here)):
        return  # "the seeds went in": into the bowl
    put_there = moved or moved_here or alone or _is_thing_before(cut, place)
    if put_there and ends and not gauge and not cut.has("did", here):
        way.used = True
        cut.made.append(Made(Told("in" if word == "in" else "out"), place, here))


def _goes_there(cut: Cut, way: Item) -> bool:
    """Whether it is put there: a verb of moving, or the way alone at the head of its clause."""
    here = [one for one in cut.clause(way.clause) if one.amount is None]
    before = here[here.index(way) - 1] if here.index(way) else None
    lies = before is not None and fold(before.text) in OF_IT | _BEING
    return lies or any(one.ids("moved") for one in here) or (before is None and fold(way.text) in ("into", "onto"))


def _warm_behind(cut: Cut, place: int) -> bool:
    """ "came out at 25.5": a warmth behind it, no hour."""
    for item in cut.items[place + 1 :]:
        if item.clause != cut.items[place].clause:
            return False
        if item.amount is not None:
            return item.amount.dim in ("num", "temperature")
    return False


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


def _marked_here(cut: Cut, step: str, clause: int) -> bool:
    """Whether a step was told in this clause already, or, where it comes once and no other hour is said, before it."""
    again = step in _AGAIN or any(
        one.amount is not None and one.amount.dim in ("moment", "time") for one in cut.clause(clause)
    )
    return any(one.told.step == step and (one.clause == clause or not again) for one in cut.made)


_AGAIN = frozenset({"fold", "feed_starter", "preheat", "boil", "bake", "cool", "retard", "warm_up"})
