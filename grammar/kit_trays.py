"""How many trays and tins there are, and how much goes on a tray."""

from __future__ import annotations

from grammar.kit_clause import Clause, NotThis, Values
from grammar.kit_habits import only
from grammar.tokens import Quantity

_SINGLE = ("single", "one", "just one", "only one")
_PASSED = frozenset({"small", "habit", "is", "stands", "nearly", "where", "tail", "lead"})


def trays_of(clause: Clause, values: Values) -> None:
    """So many trays of so many: an amount right before its tray counts trays, any other what goes on one."""
    if len(clause.amounts) == 1 and _left(clause):
        values["trays"] = _whole(only(clause.amounts))
        return
    if not (clause.of_kit or clause.says("habit") or len(clause.amounts) > 1 or _of(clause) or _only_so_many(clause)):
        raise NotThis  # "two trays in the oven"
    row = [one for one in clause.row if one.what in ("amount", "kit", "word") and one.id not in _PASSED]
    for at, item in enumerate(row):
        if item.what != "amount" or item.amount is None:
            continue
        if item.amount.dim != "num" or item.amount.value != int(item.amount.value) or item.amount.value <= 0:
            raise NotThis
        after = row[at + 1] if at + 1 < len(row) else None
        on_one = after is not None and after.what == "word" and after.id == "each"
        name = "trays" if after is not None and after.id == "tray" and not on_one else "tray_takes"
        if name in values and values[name] != item.amount.value:
            raise NotThis
        values[name] = float(item.amount.value)
    single = any(one.text in _SINGLE for one in clause.row)
    if "trays" not in values and single and ("tray_takes" in values or not clause.amounts):
        values["trays"] = 1.0


def fridge_trays_of(clause: Clause, values: Values) -> None:
    """ "the fridge takes two trays": its room, not the oven's."""
    amount = only(clause.amounts)
    if not clause.says("holds") or amount.dim != "num" or amount.value != int(amount.value) or amount.value <= 0:
        raise NotThis
    values["fridge_trays"] = float(amount.value)


def tins_of(clause: Clause, values: Values) -> None:
    """How many tins are left, where that is what the line tells."""
    if not _left(clause):
        raise NotThis
    values["tins"] = _whole(only(clause.amounts))


def _left(clause: Clause) -> bool:
    """ "only 3 left", "down to three"."""
    return any(one.text.startswith("left") or "down to" in one.text for one in clause.row)


def _only_so_many(clause: Clause) -> bool:
    """ "only got one tray", "one tray only": what there is to bake on, not what is in the oven."""
    words = [one for one in clause.row if one.what == "word"]
    inside = any(one.id == "where" and one.text != "of" for one in words)
    return not inside and any("only" in one.text.split() or "just" in one.text.split() for one in words)


def _whole(count: Quantity) -> float:
    if count.dim != "num" or count.value != int(count.value):
        raise NotThis
    return float(count.value)


def _of(clause: Clause) -> bool:
    """ "trays of 12": what goes on one stands behind it."""
    tray = next((i for i, one in enumerate(clause.row) if one.id == "tray"), len(clause.row))
    return any(one.text == "of" for one in clause.row[tray + 1 : tray + 2])
