"""What a line tells of the kitchen: "boathouse 9, warm cupboard 26", "oven takes two trays of 12, pot 5".

Clause by clause: each amount belongs to the thing named in its clause, else to the one before. A line of which any
amount or any word stays over is none of this.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.clause_begins import turned
from grammar.kit_clause import Clause, NotThis, Values
from grammar.kit_hours import as_hours, both_ends
from grammar.kit_items import Item, items
from grammar.kit_places import gathered
from grammar.kit_settings import settings_of
from grammar.lexicon import Lexicon
from grammar.tokens import Token

_LOWEST_CM = 20_000.0
"""A height above the sea is more than any room's, in cm."""


@dataclass(frozen=True, slots=True)
class Told:
    """What was told. values: (setting, value) in °C, g, m, %, minutes; fewer: (setting, so many less than before);
    habit: said as a rule; own: said of what is one's own; now: holds for this bake only."""

    values: tuple[tuple[str, float | str], ...]
    fewer: tuple[tuple[str, float | str], ...] = ()
    habit: bool = False
    own: bool = False
    now: bool = False


def told(text: str, tokens: Sequence[Token], lexicon: Lexicon) -> Told | None:
    """What the line tells of the kitchen; None where it is about something else."""
    if "?" in text or len(text) > 400 or turned(text, lexicon):
        return None
    row = gathered(items(text, tokens, lexicon), lexicon)
    warm = any(one.amount is not None and one.amount.dim == "temperature" for one in row)
    if not any(_may_tell(one, warm) for one in row):
        return None
    words = {one.id for one in row if one.what == "word"}
    habits = [one for one in row if one.what == "word" and one.id == "habit"]
    habit = any(one.text not in lexicon.small("one_has") for one in habits)
    try:
        values, fewer = _values(_clauses(row), habit)
    except NotThis:
        return None
    if not values and not fewer:
        return None
    errand = "away" in values and not habits
    own = bool(habits) or "mended" in words
    return Told(tuple(values.items()), tuple(fewer.items()), habit, own, "now" in words or errand)


def _may_tell(item: Item, warm: bool) -> bool:
    """Whether an item may be what is told of; strange words only beside a temperature."""
    return item.what in ("kit", "place", "named") or item.id == "length" or (item.what == "?" and warm)


def _clauses(row: Sequence[Item]) -> list[Clause]:
    """The line cut where a new thing or amount follows a sign or an "and"."""
    out = [Clause()]
    for item in row:
        if item.what == "cut":
            if item.id == ":" and not (out[-1].amounts or out[-1].clocks or out[-1].things):
                out.pop()  # what leads the line in
            if not out or out[-1].row:
                out.append(Clause())
            continue
        out[-1].row.append(item)
        if item.what in ("kit", "place", "named"):
            out[-1].things.append(item)
    for clause in out:
        _drop_denied(clause)
    return [one for one in out if one.row]


def _drop_denied(clause: Clause) -> None:
    """ "5 not 3": the figure that is not so goes out."""
    at = next((at for at, one in enumerate(clause.row) if one.id == "denied"), None)
    if at is None or not any(one.what == "amount" for one in clause.row[:at]):
        return
    if [one.what for one in clause.row[at + 1 : at + 2]] == ["amount"]:
        del clause.row[at : at + 2]


def _values(clauses: Sequence[Clause], habit: bool) -> tuple[Values, Values]:
    values: Values = {}
    fewer: Values = {}
    before: Clause | None = None
    last: Clause | None = None
    of_kit = any(clause.says("holds") or clause.says("each") for clause in clauses)
    for clause in clauses:
        if (last is not None or any(one.things for one in clauses)) and _only_a_reason(clause):
            continue
        clause.of_kit = of_kit
        if last is not None and last.says("holds") and _so_many_in(clause):
            clause.row.append(Item("word", "holds", ""))
        clause.led = last is not None and last.says("is") and (
            not last.amounts or (last.led or not last.says("holds"))
        )
        last = clause
        if habit and _only_why(clause):
            continue
        _settle_strange(clause, habit)
        as_hours(clause, before)
        amounts = [one for one in clause.row if one.what in ("amount", "clock")]
        if _height(clause) and all(one.id in ("awake", "kitchen") or one.what == "place" for one in clause.things):
            clause.things = [Item("kit", "altitude", "")]
        only_counted = all(one.id in ("piece", "pieces") for one in clause.things)
        if only_counted and amounts and (not clause.things or (before is not None and clause.of_kit)):
            if before is None and not any("tray" in one.text for one in clause.row if one.id == "each"):
                raise NotThis
            clause.things = list(before.things) if before is not None else [Item("kit", "tray", "")]
            if before is not None and before.says("holds") and not clause.says("holds"):
                clause.row.append(Item("word", "holds", ""))
        if clause.kits == ["starter"] and clause.says("wetness") and not amounts:
            before = clause  # its figure follows: "a stiff one, 55 hydration"
            continue
        if clause.kits == ["hydration"] and before is not None and before.says("wetness"):
            clause.things += before.things
        if clause.says("broken") and "tin" in clause.kits:
            fewer["tins"] = next((one.amount.value for one in clause.amounts if one.amount is not None), 1.0)
        elif clause.says("broken") and "tray" in clause.kits:
            fewer["trays"] = next((one.amount.value for one in clause.amounts if one.amount is not None), 1.0)
        elif clause.things:
            settings_of(clause, values, habit)
        if clause.things:
            before = clause
    for name in ("trays", "tins"):
        if name in values:
            fewer.pop(name, None)
    both_ends(values)
    if any(clause.says("wetness") for clause in clauses) and "starter_hydration_pct" not in values:
        raise NotThis
    if isinstance(values.get("trays"), float) and isinstance(values.get("tray_takes"), float):
        values["oven_takes"] = float(values["trays"]) * float(values["tray_takes"])
    return values, fewer


def _only_a_reason(clause: Clause) -> bool:
    """Whether a later clause names nothing of kitchen or trade: why it is so, or what it is said for."""
    if clause.things or clause.amounts or clause.clocks:
        return False
    return all(one.what in ("word", "?") and one.id not in _TELLS for one in clause.row)


_TELLS = frozenset({"?", "of the trade", "near the trade", "holds", "broken", "none"})


def _only_why(clause: Clause) -> bool:
    """Whether a clause of a rule only tells why: strange words, nothing of the trade, no thing and no figure."""
    strange = [one for one in clause.row if one.what == "?"]
    plain = all(one.id == one.text and one.id.isalpha() for one in strange)
    told = clause.things or clause.amounts or clause.clocks
    return bool(strange) and plain and not told and all(one.id != "trade" for one in clause.row if one.what == "word")


def _settle_strange(clause: Clause, habit: bool) -> None:
    """Strange words are a place where a temperature with its degree is said of them, or "in the …"; beside a thing with
    its figure they say no more of what is told as a rule; else it is no kitchen."""
    strange = [one for one in clause.row if one.what == "?"]
    if not strange:
        return
    only_how = clause.things and clause.says("is") and not (clause.amounts or clause.clocks)
    if only_how and all(one.id not in ("?", "of the trade") for one in strange):
        clause.row = [one for one in clause.row if one.what != "?"]  # "the oven is tiny": how it is
        return
    plain = all(one.id == one.text and one.id.isalpha() for one in strange)
    if clause.things and clause.amounts and plain and (habit or _behind_a_word(clause, strange[0])):
        clause.row = [one for one in clause.row if one.what != "?"]
        return
    degrees = any(one.amount is not None and one.amount.dim == "temperature" for one in clause.row)
    together = [i for i, one in enumerate(clause.row) if one.what == "?"]
    in_row = together == list(range(together[0], together[-1] + 1))
    unit = len(strange) == 1 and strange[0].id == "k" and "mixer" in clause.kits
    if unit:
        return
    names = in_row and len(strange) <= 3 and all(one.id.isalpha() for one in strange)
    if clause.says("adds") or clause.things or not degrees or not names:
        raise NotThis
    clause.things.append(Item("place", "own", " ".join(one.text for one in strange)))


def _so_many_in(clause: Clause) -> bool:
    """ "and 4 in the pot": a count and where it goes, the verb said in the clause before."""
    shape = [one.what if one.what in ("amount", "kit") else one.id for one in clause.row if one.id != "nearly"]
    return shape == ["amount", "where", "kit"]


def _behind_a_word(clause: Clause, strange: Item) -> bool:
    """Whether strange words stand behind the figure and are not what it counts: "18 since the boiler went"."""
    at = clause.row.index(strange)
    return clause.row[at - 1].what == "word" and any(one.what == "amount" for one in clause.row[:at])


def _height(clause: Clause) -> bool:
    """ "we are at 900 metres": a height, where it is more than any room's."""
    lengths = [one.amount for one in clause.amounts if one.amount is not None and one.id == "length"]
    return len(lengths) == len(clause.amounts) == 1 and lengths[0].unit == "m" and lengths[0].base >= _LOWEST_CM
