"""From one clause about the kitchen to the settings it tells: each amount goes to the thing it is said of."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.frames import celsius
from grammar.kit_clause import Clause, NotThis, Values
from grammar.kit_habits import BY_HABIT, by_habit, cup_of, named_of, only
from grammar.kit_hours import hours_of
from grammar.kit_items import Item
from grammar.kit_trays import fridge_trays_of, tins_of, trays_of
from grammar.tokens import Quantity

_HOTTEST_FRIDGE_C = 25.0
"""A bare figure above this, said of a fridge, is in Fahrenheit."""
_HOTTEST_PLACE_C = 45.0
"""A bare figure above this, said of a room, is in Fahrenheit."""
_COOLEST_TOP = 130.0
"""The most an oven does is no less than this, °C or °F; a smaller figure is what goes in."""
_HOTTEST_OVEN_C = 330.0
"""A bare figure above this, said of an oven, is in Fahrenheit."""
_MOST_PIECES = 150.0
_COUNTED = frozenset({"piece", "pieces"})
_HOLDERS = {"oven": "oven_takes", "pot": "pot_takes", "fridge": "fridge_takes", "freezer": "freezer_takes"}


def settings_of(clause: Clause, values: Values, habit: bool) -> None:
    """The settings of one clause put into `values`. Raises NotThis where something of it stays over."""
    kits, amounts, clocks = clause.kits, clause.amounts, clause.clocks
    if clause.says("trade") and not (clause.of_kit or clause.says("adds") or _OF_TRADE & set(kits)):
        raise NotThis
    named = [one for one in clause.things if one.what == "named"]
    on_trays = any(_on_trays(one.text, values) for one in clause.row if one.id == "each")
    places = [one for one in clause.things if one.what == "place"]
    if clocks:
        hours_of(clause, values)
    elif named:
        named_of(clause, named, values, habit)
    elif "cup" in kits:
        cup_of(amounts, values)
    elif "altitude" in kits:
        if amounts or "altitude_m" not in values:  # named once more, it only says what the metres were
            values["altitude_m"] = _metres(only(amounts))
    elif kits == ["pieces"]:
        raise NotThis
    elif set(kits) & set(BY_HABIT) and not (on_trays or {"tray", "pot", "oven", "fridge", "freezer"} & set(kits)):
        by_habit(clause, values, habit)
    elif kits == ["bell"] and not amounts:
        values["bell"] = "off" if clause.says("none") or clause.says("hushed") or _says_off(clause) else "on"
    elif {"stone", "fan"} & set(kits) and not amounts:
        for name in kits:
            if name == "fan":
                values["oven_fan"] = "no" if clause.says("none") or clause.says("broken") else "yes"
            elif name == "stone":
                values["stone"] = "none" if clause.says("none") or clause.says("broken") else "yes"
    elif "mixer" in kits:
        _mixer(clause, values)
    elif {"tray", "fridge"} <= set(kits) and "oven" not in kits:
        fridge_trays_of(clause, values)
    elif "tray" in kits or on_trays:
        trays_of(clause, values)
    elif "tin" in kits:
        tins_of(clause, values)
    elif amounts and (kits or places):
        _plain(clause, places, values)
    elif amounts or {"asleep", "awake", "away"} & set(kits):
        raise NotThis


def _on_trays(words: str, values: Values) -> bool:
    """Whether words for "each" mean each tray: by name, or where trays were told of just before."""
    return "tray" in words or "sheet" in words or ("each" in words and "trays" in values)


def _says_off(clause: Clause) -> bool:
    return any({"off", "stop", "mute", "without"} & set(one.text.split()) for one in clause.row)


def _plain(clause: Clause, places: Sequence[Item], values: Values) -> None:
    """Temperatures and how many go in: each thing with its own amount, or one thing with one by day and by night."""
    things = [one for one in clause.things if one.what != "kit" or one.id not in ("asleep", "awake", "away", *_COUNTED)]
    firm = [one for one in things if not (one.what == "kit" and one.id == "kitchen")]
    things = firm or things[-1:]  # "the kitchen thermostat" is one
    amounts = clause.amounts
    if len(things) == len(amounts):
        pairs = list(zip(things, amounts, strict=True))
    elif len(things) == 1:
        pairs = [(things[0], one) for one in amounts]
    elif len(amounts) == 1 and places and any(one.id == "tap" for one in things):
        pairs = [(next(one for one in things if one.id == "tap"), amounts[0])]
    else:
        raise NotThis
    if any(one.id in _COUNTED for one in clause.things) and not (clause.says("holds") or clause.says("each")):
        raise NotThis  # "12 rolls in the fridge"
    if clause.says("each") and any(one.text in _PUTS for one in clause.row):
        raise NotThis  # "put two of them in the fridge"
    for thing, amount in pairs:
        if not _said_of(thing, amount, clause):
            raise NotThis
        name, value = _one(thing, amount, clause, len(pairs) > 1 and len(things) == 1)
        if name in values:
            raise NotThis
        values[name] = value


_PUTS = frozenset({"put", "into", "stuck", "popped", "took", "left"})
_TELLING = frozenset({"is", "stands", "tops"})
_LIGHT = frozenset({"nearly", "habit"})
_OF_TRADE = frozenset({"mixer", "tap", "cup", "tray", "salt", "hydration", "starter", "loss", "starter_hydration"})


def _said_of(thing: Item, amount: Item, clause: Clause) -> bool:
    """Whether a bare figure is said of the thing: behind it, or "it is 9 in …".

    "12 in the fridge" counts what is there, "in the oven at 8" tells an hour.
    """
    if any(map(clause.says, ("holds", "each", "tops"))) or (amount.amount is not None and amount.amount.dim != "num"):
        return True
    row = clause.row
    at, of = row.index(amount), next((i for i, one in enumerate(row) if one is thing), None)
    if of is None:
        return True  # the thing was named in the clause before
    before = at - 1
    while before >= 0 and row[before].id in _LIGHT:
        before -= 1
    if before >= 0 and row[before].id == "gets":
        return True
    linked = row[before] if before >= 0 else None
    telling = linked is not None and (linked.id in _TELLING or linked.text == "holds")
    ahead = of - 1
    while ahead >= 0 and row[ahead].text in ("the", "my", "a", "our", "this", "there"):
        ahead -= 1
    if at < of or (ahead >= 0 and row[ahead].id == "where"):
        return telling or (clause.led and (linked is None or linked is thing))
    named = linked is not None and linked.text == "has"
    return not named and not (thing.id in ("oven", "pot") and (telling or (linked is not None and linked.text == "at")))


def _one(thing: Item, item: Item, clause: Clause, several: bool) -> tuple[str, float]:
    amount = item.amount
    assert amount is not None
    if amount.dim not in ("num", "temperature", "time", "volume") or amount.fraction:
        raise NotThis
    if thing.what == "kit" and thing.id == "oven" and amount.dim == "time":
        if not clause.says("heats"):
            raise NotThis
        return "oven_heat_min", amount.base
    if thing.what == "kit" and thing.id == "oven" and clause.says("tops") and amount.value >= _COOLEST_TOP:
        if amount.dim not in ("num", "temperature"):
            raise NotThis
        return "oven_max_c", _degrees(amount, _HOTTEST_OVEN_C)
    if thing.what == "kit" and thing.id == "pot" and amount.dim == "volume":
        return "pot_l", amount.base / 1000
    if thing.what == "kit" and thing.id == "fridge" and amount.dim == "volume":
        return "fridge_l", amount.base / 1000
    counted = amount.dim == "num" and amount.value == int(amount.value) and amount.value > 0
    holder = _HOLDERS.get(thing.id) if thing.what == "kit" else None
    bare = thing.id in ("oven", "pot") and any(one is thing for one in clause.row)
    if holder is not None and counted and (bare or any(map(clause.says, ("holds", "each", "tops")))):
        if amount.value > _MOST_PIECES:
            raise NotThis  # degrees of an oven
        return holder, float(amount.value)
    if amount.dim not in ("num", "temperature") or (clause.says("holds") and holder is None):
        raise NotThis
    if thing.what == "kit" and thing.id not in ("kitchen", "fridge", "freezer", "tap"):
        raise NotThis
    hottest_c = _HOTTEST_FRIDGE_C if thing.id == "fridge" else _HOTTEST_PLACE_C
    name = thing.id if thing.what == "kit" else thing.text.replace(" ", "_")
    return f"{name}{_of_night(item, clause, several)}_c", _degrees(amount, hottest_c)


def _of_night(item: Item, clause: Clause, several: bool) -> str:
    """"_night" where the word for it stands nearest to the amount."""
    if not clause.says("night"):
        return ""
    if not several:
        return "" if clause.says("day") else "_night"
    at = next(i for i, one in enumerate(clause.row) if one is item)
    near = sorted(
        (abs(i - at) + (0.1 if i < at else 0.0), one.id)  # "16 at night" before "by day 16"
        for i, one in enumerate(clause.row) if one.what == "word" and one.id in ("night", "day")
    )  # fmt: skip
    return "_night" if near[0][1] == "night" else ""


def _degrees(amount: Quantity, hottest_c: float) -> float:
    return round(celsius(amount.value, amount.unit, hottest_c), 4)


def _metres(amount: Quantity) -> float:
    if amount.dim == "length":
        return round(amount.base / 100, 2)
    if amount.dim != "num":
        raise NotThis
    return amount.value


def _mixer(clause: Clause, values: Values) -> None:
    amount = only(clause.amounts)
    thing = next(one for one in clause.things if one.id == "mixer")
    if amount.dim == "mass":
        values["mixer_flour_g"] = amount.base
    elif amount.dim in ("num", "temperature", "warming") and (
        clause.says("adds") or clause.row.index(thing) < clause.row.index(clause.amounts[0])
    ):
        # a difference of degrees: no offset between the two scales
        values["friction_c"] = round(amount.value / 1.8 if amount.unit == "degF" else amount.value, 4)
    else:
        raise NotThis
