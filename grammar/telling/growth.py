"""How far something rose, as a report tells it: in per cent, in shares, doubled, from so much to so much."""

from __future__ import annotations

from grammar.frames import amount_base
from grammar.lexicon import fold
from grammar.telling.told import Cut, Item, Made, Told

_FROM = frozenset({"from", "was", "it was", "gone", "went", "been"})
"""Words that tell of a size before: "from 1 litre to 1.5", "it was 4 cm"."""


def reading(cut: Cut, place: int, what: str, value: float) -> None:
    item = cut.items[place]
    item.used = True
    starter = near_starter(cut, place) or any(one.told.step == "feed_starter" for one in cut.made)
    if what == "rise_pct" and starter:
        what = "starter_rise_pct"
    if any(one.told.what == what and one.clause == item.clause for one in cut.made):
        return
    cut.made.append(Made(Told(what, value=value), place, item.clause))


def from_to(cut: Cut) -> None:
    """ "from 1 litre to 1.5", "6 cm, was 4": the growth of what is seen in a straight glass."""
    if not any(item.ids("grown") or fold(item.text) in _FROM for item in cut.items if item.amount is None):
        return
    sizes = [
        (place, item) for place, item in enumerate(cut.items)
        if item.amount is not None and item.amount.quantity is not None and item.amount.dim in ("volume", "length")
    ]  # fmt: skip
    if not sizes:
        return
    first_place, first = sizes[0]
    assert first.amount is not None and first.amount.quantity is not None
    start = first.amount.quantity.base
    if first.amount.high is not None:
        same_unit = first.amount.high.dim != "num"
        factor = 1.0 if same_unit else start / (first.amount.quantity.value or 1.0)
        end_item, end = first, first.amount.high.base * factor
    elif len(sizes) > 1 and sizes[1][1].amount is not None and sizes[1][1].amount.quantity is not None:
        end_item, end = sizes[1][1], sizes[1][1].amount.quantity.base
    else:
        beside = [
            item for item in cut.items
            if item.amount is not None and item.amount.dim == "num" and item.amount.quantity is not None
        ]  # fmt: skip
        if not beside:
            return
        end_item = beside[0]
        assert end_item.amount is not None and end_item.amount.quantity is not None
        factor = first.amount.quantity.base / (first.amount.quantity.value or 1.0)
        other = end_item.amount.quantity.value * factor
        before = cut.items.index(end_item) < first_place
        start, end = (other, start) if before else (start, other)
    if 0 < start < end <= 6 * start:
        first.used = end_item.used = True
        reading(cut, first_place, "rise_pct", round(100 * (end / start - 1), 1))
        end_item.used = True


def grows(cut: Cut, place: int) -> bool:
    """Whether the clause says that something rose, right beside the figure or with a plus before it."""
    item = cut.items[place]
    own = cut.clause(item.clause)
    bare = all(other is item or other.ids("small") for other in own)  # "hardly moved, maybe 10 %"
    beside = [
        other for other in (*own, *(cut.clause(item.clause - 1) if bare else ()))
        if other.ids("grown") and abs(cut.items.index(other) - place) <= 4
    ]  # fmt: skip
    plus = place > 0 and cut.items[place - 1].text == "+" and not _too_little(item)
    from_to_said = " to " in item.text  # "3 litres to 4", turned into what it comes to
    return bool(beside) or plus or from_to_said


_LEAST_BARE = 10.0
"""A bare figure below this behind a plus is no growth anybody reads off: degrees, or pieces more."""


def _too_little(item: Item) -> bool:
    amount = item.amount
    return amount is not None and amount.dim == "num" and (amount_base(amount) or 0.0) < _LEAST_BARE


def near_starter(cut: Cut, place: int) -> bool:
    clause = cut.items[place].clause
    return any("starter" in one.ids("gauge") for one in cut.clause(clause))
