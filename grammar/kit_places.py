"""Which words of a clause name a place: any noun phrase of which a warmth is told, "the cupboard over the boiler".

The words of a name are those up to the verb, or those behind "it is 14 in". A word of the trade in them makes them no
place; a name no word of which is known for a place needs a verb of standing ("stays at", "runs"), a degree, or a place
told of beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.kit_items import Item
from grammar.lexicon import Lexicon

_COLDEST, _HOTTEST = -30.0, 115.0
"""Bare figures past these are no warmth of a place, in °C or °F."""
_OTHERWISE = frozenset({"holds", "each", "adds", "heats", "broken", "taken", "full", "trade", "tops"})
"""Words that say what is told is no warmth."""
_THINGS = ("kit", "place", "?", "named")
_STANDING_KITS = frozenset({"kitchen", "fridge", "freezer"})
_WHERE_IT_IS = frozenset({"tray", "oven", "pot"})
"""Kit that is a place only with where it is: "the bottom shelf of the fridge", "the oven with the light on"."""
_LEAST_THINGS = 2


def gathered(row: Sequence[Item], lexicon: Lexicon) -> list[Item]:
    """The items with the words of each place's name as one item."""
    parts = _parts(row)
    sure = any(
        any(one.what == "amount" for one in part)
        and any(one.what == "place" or one.id in _STANDING_KITS for one in part)
        for part in parts
    )
    sure = sure or sum(map(_by_its_article, parts)) >= _LEAST_THINGS
    named = [_named(part, sure, lexicon) for part in parts]
    fridges = [one for part in named for one in part if one.what == "kit" and one.id == "fridge"]
    if len({one.text for one in fridges}) > 1:
        named = [[_own_fridge(one) for one in part] for part in named]
    return [one for part in named for one in part]


def _by_its_article(part: Sequence[Item]) -> bool:
    """ "the cave is 12": with another of its kind beside it, no other thing is told of so."""
    shape = ["the" if one.text == "the" else one.what if one.what in ("?", "amount") else one.id for one in part]
    kept = [one for one in shape if one not in (",", ".", ";", "and", "is", "nearly", "tail")]
    return bool(kept) and (kept[0], kept[-1]) == ("the", "amount") and set(kept[1:-1]) == {"?"}


def _own_fridge(item: Item) -> Item:
    """One of several fridges by its own name."""
    own = item.what == "kit" and item.id == "fridge" and item.text != "fridge"
    return replace(item, what="place", id="own") if own else item


def _parts(row: Sequence[Item]) -> list[list[Item]]:
    """The row after each cut; a dash that joins no two amounts cuts too."""
    parts: list[list[Item]] = [[]]
    for at, item in enumerate(row):
        around = row[at - 1 : at] and row[at + 1 : at + 2] and {row[at - 1].what, row[at + 1].what}
        cut = item.what == "cut" or (item.what == "range" and not (around or set()) <= {"amount", "clock"})
        parts[-1].append(replace(item, what="cut") if cut else item)
        if cut:
            parts.append([])
    return parts


def _named(part: list[Item], sure: bool, lexicon: Lexicon) -> list[Item]:
    amounts = [at for at, one in enumerate(part) if one.what == "amount"]
    if not amounts:
        return _where_it_stands(_joined(part), lexicon)
    if not all(_warmth(part[at]) for at in amounts) or _speaks_of_trade(part):
        return _joined(part)
    first = amounts[0]
    things = [at for at in range(first) if part[at].what in _THINGS and not _cried(part, at)]
    if things:
        verb = next((at for at in range(things[0] + 1, first) if part[at].id in ("is", "stands")), first)
        last = max(at for at in things if at < verb) + 1
        start, end = _from_its_article(part, things[0], last, lexicon), last
        part = [one for at, one in enumerate(part) if not (at in things and at > verb)]  # "is a toasty 27": how it is
        kept, told = [one for one in part[:start] if one.what == "word"], part[end:verb + 1]
    else:
        where = next((at for at in range(first + 1, len(part)) if part[at].id == "where"), None)
        behind = [] if where is None else [at for at in range(where, len(part)) if part[at].what in _THINGS]
        if not behind or any(at > behind[0] for at in amounts):
            return _joined(part)
        start, end = behind[0], behind[-1] + 1
        kept, told = part[:start], part[:first]
    degree = any(one.amount is not None and one.amount.dim == "temperature" for one in part)
    name = _name(part[start:end], sure or degree or any(one.id == "stands" for one in told), lexicon)
    if name is None:
        return _joined(part)
    return [*kept, name, *part[end:]]


def _cried(part: Sequence[Item], at: int) -> bool:
    """Whether a strange word is no name but an outcry before what is told: "ugh it's 18 in here"."""
    return part[at].what == "?" and at + 1 < len(part) and part[at + 1].text in _IT


_IT = frozenset({"it", "its", "it is", "it's"})


def _where_it_stands(part: list[Item], lexicon: Lexicon) -> list[Item]:
    """A place said without its figure, with where it is: "a warm corner by the stove"."""
    first = next((at for at, one in enumerate(part) if one.what == "place"), len(part))
    last = max((at for at, one in enumerate(part) if one.what in ("place", "kit")), default=0)
    if not any(one.id == "where" for one in part[first:last]) or _speaks_of_trade(part):
        return part
    name = _name(part[first : last + 1], False, lexicon)
    return part if name is None else [*part[:first], name, *part[last + 1 :]]


def _warmth(item: Item) -> bool:
    amount = item.amount
    plain = amount is not None and amount.dim in ("num", "temperature") and not amount.fraction
    return plain and amount is not None and _COLDEST <= amount.value <= _HOTTEST


def _speaks_of_trade(part: Sequence[Item]) -> bool:
    return any(
        one.what in ("clock", "named")
        or (one.what == "?" and one.id in ("of the trade", "?"))
        or (one.what == "word" and one.id in _OTHERWISE)
        for one in part
    )


def _from_its_article(part: Sequence[Item], start: int, end: int, lexicon: Lexicon) -> int:
    """Where the name begins: behind the last article that no "over the", "in my" leads."""
    for at in range(end - 1, start, -1):
        if part[at].text in lexicon.small("before_own_place") and part[at - 1].id != "where":
            return at + 1
    return start


def _name(phrase: Sequence[Item], sure: bool, lexicon: Lexicon) -> Item | None:
    """The phrase as one thing; None where it names no place."""
    things = [one for one in phrase if one.what in _THINGS]
    known = any(one.what in ("place", "kit") for one in things)
    if len(things) == 1 and known:
        return things[0]
    if not (known or sure) or any(one.what == "kit" and one.id in _NOWHERE for one in things):
        return None
    if {(one.what, one.id) for one in things} == {("kit", "kitchen")}:
        return things[-1]
    if any(one.what == "word" and one.id in ("small", "holds") for one in phrase):
        return None  # "the fridge will swallow 20": no name goes on so
    text = " ".join(one.text for one in phrase)
    where = next((at for at, one in enumerate(phrase) if at and one.id == "where"), None)
    front = [one for one in phrase[:where] if one.what in _THINGS]
    head = front[-1] if front else things[-1]
    if head.what == "kit" and head.id in ("fridge", "freezer"):
        return replace(head, text=text)
    if head.what == "kit" and where is None and head.id in _WHERE_IT_IS and head.text not in lexicon.small("fitting"):
        return None
    return Item("place", "own", text)


_NOWHERE = frozenset({
    "salt", "hydration", "starter", "starter_hydration", "loss", "piece", "pieces", "asleep", "awake", "away", "cup",
    "altitude", "mixer", "bell", "tin",
})  # fmt: skip
"""Things that stand in no name of a place."""


def _joined(part: list[Item]) -> list[Item]:
    """A place with the strange words before it as one place: "garden shed", "mums kitchen"."""
    out: list[Item] = []
    for item in part:
        strange: list[str] = []
        if item.what == "place" or (item.what == "kit" and item.id == "kitchen" and item.text in ("kitchen", "room")):
            while out and out[-1].what == "?" and out[-1].id.isalpha():
                strange.insert(0, out.pop().text)
        out.append(Item("place", "own", " ".join((*strange, item.text))) if strange else item)
    return out
