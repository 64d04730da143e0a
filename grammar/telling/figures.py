"""What each figure of a report is of: a warmth, a rise, pieces, an hour."""

from __future__ import annotations

from dataclasses import replace
from itertools import takewhile

from grammar.lexicon import fold
from grammar.moments import hour_said
from grammar.telling.gauges import HOT_F, as_warm, gauge_of, gauge_word_far, possible
from grammar.telling.growth import from_to, grows, near_starter, reading
from grammar.telling.joins import step_measured_at
from grammar.telling.put import TALLY
from grammar.telling.spans import not_hours, spans
from grammar.telling.told import Cut, Made, Told
from grammar.telling.words import step_near, word_before

_ON_THE_DIAL = 12
_COUNTED = frozenset({"divide", "preshape", "shape", "boil", "bake", "cool", "retard", "warm_up"})
"""Steps done piece by piece: a whole number beside them counts pieces."""


def figures(cut: Cut) -> tuple[tuple[float, float, float] | None, float | None]:
    ratio: tuple[float, float, float] | None = None
    starter_pct: float | None = None
    not_hours(cut)
    spans(cut)
    for place, item in enumerate(cut.items):
        for name in item.ids("grown_by"):
            reading(cut, place, "rise_pct", float(name))
    from_to(cut)
    for place, item in enumerate(cut.items):
        phrase = item.amount
        parts = next((t.value for t in phrase.tokens if isinstance(t.value, tuple)), None) if phrase else None
        if parts is not None and len(parts) == 3 and any(o.told.step == "feed_starter" for o in cut.made):
            ratio, item.used = (float(parts[0]), float(parts[1]), float(parts[2])), True
        if phrase is None or item.used or phrase.quantity is None:
            continue
        if _fed_with(cut, place):
            item.used = True
            continue
        dim, value = phrase.dim, phrase.quantity.value
        if dim in ("pct", "share"):
            share = value * 100 if dim == "share" else value
            if grows(cut, place):
                reading(cut, place, "rise_pct", round(share, 1))
            elif dim == "pct" and (near_starter(cut, place) or word_before(cut, place) == "with"):
                starter_pct, item.used = value, True
            elif dim == "share":
                item.used = not cut.has("grown", item.clause)
        elif dim in ("temperature", "num"):
            number(cut, place)
    return ratio, starter_pct


def _fed_with(cut: Cut, place: int) -> bool:
    """ "40 of flour and 40 of water": what a feed was made of."""
    amount = cut.items[place].amount
    behind = list(takewhile(lambda one: one.amount is None, cut.items[place + 1 : place + 3]))
    food = any(one.food for one in behind)
    fed = any(one.told.step == "feed_starter" for one in cut.made)
    if not (fed and food and amount is not None and amount.dim in ("num", "mass")):
        return False
    for one in behind:
        one.used = one.used or one.food
    return True


def number(cut: Cut, place: int) -> None:
    """A bare number or a temperature: of the gauge of its clause, else of the deed, else pieces or an hour."""
    item = cut.items[place]
    assert item.amount is not None and item.amount.quantity is not None
    quantity = item.amount.quantity
    if cut.items[place + 1 :] and fold(cut.items[place + 1].text).split(" ")[0] in ("st", "nd", "rd", "th"):
        item.used = True  # "1st tray"
        return
    if _times_as_big(cut, place) and 1 < quantity.value <= 6:
        reading(cut, place, "rise_pct", round(100 * (quantity.value - 1), 1))
        return
    fahrenheit = quantity.unit == "degF" or (
        item.amount.dim == "num" and gauge_of(cut, place) in ("dough_c", "room_c") and HOT_F <= quantity.value <= 110
    )
    value = (quantity.value - 32) / 1.8 if fahrenheit else quantity.value
    degrees = item.amount.dim == "temperature" or gauge_of(cut, place) == "temp_c"
    step = step_near(cut, place)
    if _begins_as_hours_do(cut, place) and step is not None:
        item.amount = replace(item.amount, quantity=None, moment=hour_said(value))
        return
    counted = step in _COUNTED and not degrees and value == int(value) and 1 <= value < 1000
    of_air = gauge_of(cut, place) == "room_c" and word_before(cut, place) in cut.lexicon.small("got_to")
    if grows(cut, place) and not degrees and not counted and value > 3 and not of_air:
        reading(cut, place, "rise_pct", value)
        return
    gauge = gauge_of(cut, place)
    measured_at = step_measured_at(cut.items, place)
    if measured_at is not None and gauge in (None, "dough_c") and not counted and as_warm(value) is not None:
        cut.made.append(Made(Told("dough_c", measured_at, as_warm(value)), place, item.clause))
        item.used = True
        return
    ahead = word_before(cut, place)
    bare = ahead not in cut.lexicon.small("before_hour") and gauge in (None, "dough_c")
    if counted and (bare or gauge == TALLY):
        _count(cut, place, step, value)
        return
    if _counts_things(cut, place) or _counts_put(cut, place, value):
        return
    if gauge in ("dough_c", "room_c", "core_c") and possible(gauge, value) and (degrees or ahead != "since"):
        hour = not degrees and gauge == "dough_c" and step is not None and gauge_word_far(cut, place)
        if not hour:
            reading(cut, place, gauge, round(value, 2))
            return
    of_dough = any(one.amount is not None and one.amount.dim in ("pct", "share") for one in cut.items)
    warmth = degrees or ahead in cut.lexicon.small("so_warm")  # "starter 30" is a share of it
    if gauge is None and step is None and near_starter(cut, place) and not of_dough and warmth and 4 <= value <= 45:
        reading(cut, place, "starter_c", round(value, 2))
        return
    if gauge == "temp_c" and step is None and possible("dough_c", value):
        reading(cut, place, "dough_c", round(value, 2))
        return
    if gauge in ("fridge_c", "oven_c"):
        item.used = True
        return
    if (warmth or ahead == "") and step is None and _is_moved(cut) and possible("room_c", value):
        reading(cut, place, "room_c", round(value, 2))
        return
    if degrees:
        what = {"mix": "dough_c", "bulk": "room_c", "feed_starter": "room_c", "cool": "core_c", "bake": "core_c",
                "divide": "dough_c"}.get(step or "")  # fmt: skip
        if what is not None and possible(what, value):
            reading(cut, place, what, round(value, 2))
        elif step in ("retard", "bake", "boil", "preheat"):
            item.used = any(one.amount is not None and one.amount.moment is not None for one in cut.items)
        return
    if step == "fold" and value == int(value) and value < 12 and ahead not in ("at", "since", "from"):
        item.used = True  # "fold 2"
        return
    warm = {"mix": "dough_c", "bulk": "room_c", "feed_starter": "room_c"}.get(step or "")
    if ahead in cut.lexicon.small("read_off", "tells_warmth") and warm is not None and as_warm(value) is not None:
        reading(cut, place, warm, as_warm(value) or value)
    elif step and (ahead in cut.lexicon.small("before_hour") or _behind_its_deed(cut, place, value)):
        moment = hour_said(value)
        if moment is not None and not timed(cut, item.clause):
            item.amount = replace(item.amount, quantity=None, moment=moment)
    elif quantity.spelled and value == 1:
        item.used = True  # "the first one"


def _behind_its_deed(cut: Cut, place: int, value: float) -> bool:
    """ "mixed 7": right behind the verb of a step that is not done piece by piece, with nothing more to its clause."""
    here = cut.clause(cut.items[place].clause)
    before = cut.items[place - 1] if place else None
    told = before is not None and before in here and bool(before.ids("did"))
    return told and here[-1] is cut.items[place] and value <= _ON_THE_DIAL


def _is_moved(cut: Cut) -> bool:
    return any(one.told.what == "moved" for one in cut.made)


def _times_as_big(cut: Cut, place: int) -> bool:
    """ "one and a half times as big": so many times what it was."""
    behind = [fold(one.text) for one in cut.items[place + 1 :] if one.clause == cut.items[place].clause]
    sizes = {"big", "as big", "bigger", "the size", "its size", "size", "its volume", "as high", "as tall"}
    return bool(behind) and behind[0].startswith("times") and (bool(sizes & set(behind)) or "size" in behind[0])


def _counts_things(cut: Cut, place: int) -> bool:
    """ "22 rolls": the thing counted stands right behind the number."""
    behind = cut.items[place + 1 :][:1]
    return bool(behind) and behind[0].thing and behind[0].clause == cut.items[place].clause


def _counts_put(cut: Cut, place: int, value: float) -> bool:
    """ "first nine came out": so many of those that were put in or taken out."""
    item = cut.items[place]
    behind = cut.items[place + 1 : place + 2]
    if value != int(value) or not behind or not (behind[0].ids("moved") or behind[0].ids("way") or behind[0].thing):
        return False
    for one in cut.made:
        if one.told.what in ("in", "out") and one.clause == item.clause and one.told.pieces is None:
            one.told = replace(one.told, pieces=value)
            item.used = True
            return True
    return False


def _begins_as_hours_do(cut: Cut, place: int) -> bool:
    """ "9:10 mixed, 9:40 folded, 11 divided": it heads its clause, as hours head the others."""
    item = cut.items[place]
    heads = {one.clause: one for one in reversed(cut.items)}
    if heads[item.clause] is not item or item.amount is None or item.amount.dim != "num":
        return False
    return any(one.amount is not None and one.amount.moment is not None for one in heads.values())


def timed(cut: Cut, clause: int) -> bool:
    return any(one.amount is not None and one.amount.moment is not None for one in cut.clause(clause))


def _count(cut: Cut, place: int, step: str | None, value: float) -> None:
    item = cut.items[place]
    for one in sorted(cut.made, key=lambda made: abs(made.place - place)):
        if one.told.what == "mark" and one.told.step == step and one.told.pieces is None:
            one.told = replace(one.told, pieces=value)
            item.used = True
            return
    item.used = any(one.told.step == step for one in cut.made)


