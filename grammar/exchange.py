"""Two things in a line, one to go and one to come, with the amounts that were said of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.frames import Bound, amount_base, fits
from grammar.phrases import Phrase
from grammar.stance import CLAUSE_ENDS, Thing, ids_of, is_thing, things_told

_WITH = frozenset({"and", "with"})
_PARTS = frozenset({"instead_of", "for", "to", "into", "than", "as"})
"""Small words between an amount and a thing that say the amount is not the thing's."""
_ENDS = ("cue:only_this", "stance:at_hand", "cue:missing", "stance:will_take")
"""Words behind which an amount's thing is not looked for: they begin another thought."""
_FOR_SURE = 0.3


@dataclass(frozen=True, slots=True)
class Sides:
    """What is taken out, what goes in, and what goes in with it ("milk with butter")."""

    out: Thing | None = None
    into: Thing | None = None
    beside: tuple[Thing, ...] = ()


@dataclass(frozen=True, slots=True)
class Weighed:
    """An amount said. dim: "mass", "volume" (a pack too), "pct", "share" or "count"; value in g, ml, %, or pieces; unit
    as said."""

    dim: str
    value: float
    unit: str | None
    said: float


def place_of(bound: Bound, phrase: Phrase) -> int:
    """The place of a phrase in the line."""
    return next(i for i, one in enumerate(bound.phrases) if one is phrase)


def sides_of(bound: Bound, places: Sequence[int]) -> Sides:
    """Which of the named things goes and which comes."""
    things = things_told(bound, places)
    if not things:
        return Sides()
    if len(things) == 1:
        only = things[0]
        return Sides(into=only) if only.net < -_FOR_SURE else Sides(out=only)
    out = max(things, key=lambda one: (one.net, -one.place))
    rest = [one for one in things if one is not out]
    into = min(rest, key=lambda one: (one.net, one.place))
    if all(abs(one.net) <= _FOR_SURE for one in things):
        return Sides(things[0], things[1])
    if into.net > _FOR_SURE:
        return Sides(out)
    beside = tuple(
        one for one in rest if one is not into and one.net <= _FOR_SURE and _joined(bound, into.place, one.place)
    )
    return Sides(out, into if into.net < out.net else None, beside)


def _joined(bound: Bound, first: int, last: int) -> bool:
    """Whether two things are named together: "milk with butter", "butter and milk"."""
    low, high = sorted((first, last))
    between = bound.phrases[low + 1 : high]
    return all(p.kind in ("link", "amount") for p in between) and any(_WITH & set(p.ids("link")) for p in between)


def amounts_of(bound: Bound, places: Sequence[int]) -> tuple[dict[int, Weighed], tuple[Weighed, ...]]:
    """The amounts by the place of the thing they are of, and those that stand beside none."""
    of: dict[int, Weighed] = {}
    loose: list[Weighed] = []
    for i, phrase in enumerate(bound.phrases):
        weighed = weight_of(phrase)
        if weighed is None and phrase.ids("pack") and (i == 0 or bound.phrases[i - 1].kind != "amount"):
            weighed = Weighed("volume", 1.0, phrase.ids("pack")[0].rpartition("_")[2], 1.0)  # "cube of yeast"
        if weighed is None or _holds_so_much(bound, i):
            continue
        place = _owner(bound, i, places, of)
        pack = _packed(bound, i)
        if weighed.dim in ("num", "share") and pack is not None:
            value = weighed.value / 100 if weighed.dim == "share" else weighed.value
            weighed = Weighed("volume", value, pack.rpartition("_")[2], value)  # "heaped_tbsp" is a tbsp
        if weighed.dim == "num":
            if place is None or not ids_of(bound.phrases[place])[0].startswith("egg"):
                continue
            weighed = Weighed("count", weighed.value, None, weighed.said)
        if place is None:
            loose.append(weighed)
        else:
            of.setdefault(place, weighed)
    return of, tuple(loose)


def _holds_so_much(bound: Bound, place: int) -> bool:
    """Whether an amount is what a pot holds: "4 l pot"."""
    behind = bound.phrases[place + 1 : place + 2]
    return bool(behind) and fits(behind[0], ("cue:pot", "holds:pot"))


def _packed(bound: Bound, place: int) -> str | None:
    """The pack a number counts: "2 packets"."""
    return next(iter(bound.phrases[place + 1].ids("pack")), None) if place + 1 < len(bound.phrases) else None


def weight_of(phrase: Phrase) -> Weighed | None:
    """What an amount weighs or measures; None where it is of another sort."""
    value = amount_base(phrase) if phrase.kind == "amount" else None
    if value is None or phrase.quantity is None or phrase.dim not in ("mass", "volume", "pct", "share", "num"):
        return None
    if phrase.dim == "share":
        value *= 100
    high = phrase.high.value if phrase.high is not None else phrase.quantity.value
    return Weighed(phrase.dim, value, phrase.quantity.unit, (phrase.quantity.value + high) / 2)


def _owner(bound: Bound, place: int, places: Sequence[int], taken: dict[int, Weighed]) -> int | None:
    """The thing an amount is of: itself, the next one ("80 g of butter"), or the one before it ("butter 80 g")."""
    if place in places:
        return place
    right = _next_thing(bound, place, 1)
    left = _next_thing(bound, place, -1)
    left = left if left in places and left not in taken else None
    right = right if right in places else None
    if right is not None and left is not None:
        follows = right + 1 < len(bound.phrases) and bound.phrases[right + 1].kind == "amount"
        far = any(p.kind != "link" for p in bound.phrases[place + 1 : right])
        return left if left == place - 1 and (follows or far) else right
    return right if right is not None else left


def _next_thing(bound: Bound, place: int, step: int) -> int | None:
    i = place + step
    seen = 0
    while 0 <= i < len(bound.phrases) and seen < 4:
        phrase = bound.phrases[i]
        if is_thing(phrase) and phrase.kind == "label":
            return i
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in CLAUSE_ENDS):
            return None
        if _PARTS & set(phrase.ids("link")) or fits(phrase, ("link:instead_of", "act:swap", "stance:serves")):
            return None
        packed = phrase.text.lower().endswith(" of")  # "a bag of" stands between the amount and its thing
        if step > 0 and not packed and fits(phrase, _ENDS):
            return None
        i += step
        seen += 1
    return None


def one_for_other(bound: Bound, places: Sequence[int]) -> bool:
    """Two kinds of one thing, one of them weighed: "dried yeast for 42 g fresh", "kosher salt for 18 g table salt"."""
    weighed = [
        p for i, p in enumerate(bound.phrases)
        if p.kind == "amount" and (p.dim in ("mass", "volume") or _packed(bound, i) is not None)
    ]  # fmt: skip
    if len(places) != 2 or len(weighed) != 1 or sum(p.kind == "amount" and p.dim != "num" for p in bound.phrases) > 1:
        return False
    asked = any(fits(p, ("ask:how_much", "ask:how_many")) for p in bound.phrases[places[0] : places[1]])
    if not asked and not {"for", "to", "in", "into", "as", "with"} & bound.links():
        return False
    first, second = (ids_of(bound.phrases[i]) for i in places)
    between = bound.phrases[places[0] + 1 : places[1]]
    plainly = len(bound.phrases) == 4 and len(between) == 1 and bool({"to", "for"} & set(between[0].ids("link")))
    return first != second and (plainly or bool(set(first[0].split("_")) & set(second[0].split("_"))))


def to_other_kind(bound: Bound) -> bool:
    """ "1 sachet of dried yeast, how much fresh is that": so much of one sort asked for in another."""
    places = [i for i, p in enumerate(bound.phrases) if p.kind == "label" and is_thing(p) and not p.ids("pack")]
    sorts = any(bound.phrases[i].ids("yeast_kind") for i in places)
    return sorts and one_for_other(bound, places)
