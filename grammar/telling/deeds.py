"""The deeds a report tells: by their verbs, by a stage begun or over, by a place something was put."""

from __future__ import annotations

from grammar.lexicon import fold
from grammar.telling.joins import only_measured
from grammar.telling.put import COVERED, marked_here, put
from grammar.telling.told import Cut, Item, Made, Told

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
        if fold(item.text) == "turned" and _switched(cut, item.clause):
            continue
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
        elif item.ids("way") and not _of_the_lost(cut, item):
            put(cut, place)


def _of_the_lost(cut: Cut, item: Item) -> bool:
    """ "4 were squashed in the fridge": where they came to grief."""
    return any(one.told.what in ("lost", "left") and one.clause == item.clause for one in cut.made)


def _switched(cut: Cut, clause: int) -> bool:
    """Whether "turned" is said of the oven: by its name, or on, off, up, down."""
    return any("oven" in one.ids("place") or fold(one.text) in _SWITCH for one in cut.clause(clause))


_SWITCH = frozenset({"on", "off", "up", "down"})


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
    return before is not None and fold(before.text) in cut.lexicon.small("tells_of_it") | {"im", "is", "are"}


def mark(cut: Cut, place: int, step: str) -> None:
    item = cut.items[place]
    item.used = True
    if step == COVERED and (cut.under_way or any(one.told.what == "mark" for one in cut.made)):
        return  # whatever it is, it lies under its cloth
    step = "bulk" if step == COVERED else step
    if step == "proofed":
        cut.made.append(Made(Told("mark", "proofed"), place, item.clause))
        return
    if marked_here(cut, step, item.clause):
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
    """ "proofing box", "baking paper": the word is of the noun behind it; "baking for it" is what somebody does."""
    behind = [one for one in cut.items[cut.items.index(item) + 1 :][:2] if one.clause == item.clause]
    for_it = [fold(one.text) for one in behind[:1]] == ["for"] and all(one.amount is None for one in behind)
    return for_it or (bool(behind) and behind[0].amount is None and not behind[0].terms)


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
