"""The figures of a mistake as they are told: what was meant, what went in, how far it is off, what else is there."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.stance import GENERAL, gap

THING = ("ingredient:*", *GENERAL)
STOPS = ",.;:!("
MEANT = ("mistake:meant", "stance:called_for", "stance:should", "cue:recipe_given")
"""Words that say of an amount that it is what should have been."""


@dataclass(slots=True)
class Told:
    """A mishap's figures. item: place of its word in the line. share: "half" of it, 0 to 1. more: said to be extra.
    counted: its amounts are pieces (eggs).

    meant_pct, poured_pct: said in percent of the flour where the other was a weight.
    """

    item: int | None = None
    meant: float | None = None
    poured: float | None = None
    off: float | None = None
    meant_pct: float | None = None
    poured_pct: float | None = None
    share: float | None = None
    more: bool = False
    in_ml: bool = False
    counted: bool = False


def ids_of(phrase: Phrase) -> tuple[str, ...]:
    """The ingredients a word may mean."""
    named = phrase.ids("ingredient")
    return (*named, *(name for cue, name in GENERAL.items() if fits(phrase, (cue,)) and name not in named))


def of_flour(bound: Bound, hit: Hit) -> bool:
    """Whether an amount taken for that of the dough is of the flour behind it: "the dough was 500 g flour"."""
    place = next((i for i, p in enumerate(bound.phrases) if p is hit.amount), len(bound.phrases))
    after = bound.phrases[place + 1 : place + 2]
    return hit.slot == "dough_g" and bool(after) and fits(after[0], ("cue:flour", "ingredient:flour*"))


def left_out(bound: Bound) -> bool:
    """Whether something is said not to have gone in: "forgot the salt", "the yeast I did not put"."""
    return bound.said("mistake:forgot") or any(
        p.negated and fits(p, ("mistake:poured",)) and not p.ids("ingredient") for p in bound.phrases
    )


def factor_told(bound: Bound) -> float | None:
    """ "i put twice the starter in": how many times a thing went in; None where that is wished, or told of no thing."""
    factors = {"double": 2.0, "triple": 3.0}
    for place, phrase in enumerate(bound.phrases[:-1]):
        named_so = (*phrase.ids("act"), *phrase.ids("cue"))
        factor = next((factors[one] for one in named_so if one in factors), None)
        behind = bound.phrases[place + 1]
        told = "done" in phrase.meant or bound.said("mistake:by_mistake") or _poured_it(bound)
        named = behind.kind == "label" and fits(behind, THING)
        if factor is not None and named and told and not bound.said("ask:what_if"):
            return factor
    return None


_SOMEBODY = re.compile(r"\b(i|we|he|she|they)\b")


def _poured_it(bound: Bound) -> bool:
    """Whether something is said to have gone in; "put double the salt" alone bids it."""
    first = next((i for i, p in enumerate(bound.phrases) if fits(p, ("mistake:poured",)) and not p.negated), None)
    if first is None or first > 0 or bound.phrases[0].text.lower() != "put":
        return first is not None
    return _SOMEBODY.search(gap(bound, 0)) is not None


def things_in(bound: Bound) -> list[int]:
    """Places of the words that name an ingredient."""
    return [i for i, p in enumerate(bound.phrases) if p.kind == "label" and fits(p, THING)]


_NEVER_EXCHANGED = frozenset({"salt", "sugar", "baking", "yeast"})
"""White powders, by the beginning of their ids; a baking powder for yeast is an exchange all the same."""


def never_meant(bound: Bound, things: list[int]) -> bool:
    """Salt, sugar, soda or yeast one for the other, told and not asked: nobody exchanges them on purpose."""
    kinds = {item.split("_")[0] for i in things for item in ids_of(bound.phrases[i])[:1]}
    mixed_up = len(kinds) == 2 and kinds <= _NEVER_EXCHANGED and kinds != {"yeast", "baking"}
    return mixed_up and not bound.asks() and not bound.said("ask:can_i", "ask:what_if", "act:swap")


def told_in(bound: Bound, things: list[int]) -> tuple[Told, list[tuple[str, float]]]:
    """The item gone wrong with its figures, and what else is said to be in the bowl."""
    told = Told()
    inside: list[tuple[str, float]] = []
    loose: list[float] = []
    many_times = bound.said("mistake:twice", "mistake:thrice")
    if many_times:
        told.item = _nearest(bound, things, ("mistake:twice", "mistake:thrice"))
    elif left_out(bound):
        word = "mistake:forgot" if bound.said("mistake:forgot") else "mistake:poured"
        told.item = _nearest(bound, things, (word,))
    for hit in bound.hits:
        if hit.amount is None or not (hit.slot == "mass" or of_flour(bound, hit)):
            continue
        value = amount_base(hit.amount)
        if value is None:
            continue
        place = next(i for i, p in enumerate(bound.phrases) if p is hit.amount)
        _place_amount(bound, told, inside, loose, hit, place, value, many_times)
    _settle_two(bound, told, inside, loose, many_times)
    _settle_shares(bound, told)
    flour = any(item.startswith("flour") for item, _ in inside)
    if left_out(bound) and told.item is not None:
        name = ids_of(bound.phrases[told.item])[0]
        own = next((g for item, g in inside if item == name), told.off)
        if own is not None:  # with the flour said, "20 g salt" is what was to go in; without, what is short
            told.meant, told.off = (own, None) if flour else (None, own)
            inside = [(item, g) for item, g in inside if item != name]
    if loose and told.off is None and (told.poured is None or told.item is None):
        told.off = loose[0]
    if told.item is None and things:
        named_inside = {item for item, _ in inside}
        free = [i for i in things if ids_of(bound.phrases[i])[0] not in named_inside]
        off = ("mistake:over", "mistake:under") if told.off is not None else ()
        told.item = _nearest(bound, free, off) if off else None
        told.item = told.item if told.item is not None else next(iter(free), None)
    _of_which(bound, told, inside)
    water = next((g for item, g in inside if item == "water"), None)
    if told.meant_pct is not None and told.poured is None and told.item is None and water is not None:
        told.item = next(i for i in things if "water" in ids_of(bound.phrases[i]))
        told.poured = water  # "500 g flour, 300 g water, should have been 65 %"
        inside = [(item, g) for item, g in inside if item != "water"]
    if told.item is None and told.off is None and told.poured is None and len(inside) == 1 and things:
        told.item, told.off = things[0], inside.pop()[1]
    return told, inside


def _of_which(bound: Bound, told: Told, inside: list[tuple[str, float]]) -> None:
    """The thing a share that was wanted is of, where it is not said: "1.2 kg flour had 30 g salt, wanted 2 %"."""
    if told.meant_pct is None or told.poured is not None or told.item is not None or told.meant_pct >= _LEAST_WATER_PCT:
        return
    others = [(item, g) for item, g in inside if not item.startswith("flour") and item != "water"]
    if len(others) == 1:
        told.item = next((i for i in things_in(bound) if ids_of(bound.phrases[i])[0] == others[0][0]), None)
        told.poured = others[0][1]
        inside.remove(others[0])


_LEAST_WATER_PCT = 40.0
"""A wanted share of this much and more is of water."""


def _settle_two(
    bound: Bound, told: Told, inside: list[tuple[str, float]], loose: list[float], many_times: bool
) -> None:
    """Two values of one thing where only one is said to be meant, poured or too much: the other is the other one."""
    if told.item is None and told.poured is None and told.off is None and told.meant is not None:
        told.item = _likest(bound, told.meant, inside)
    name = ids_of(bound.phrases[told.item])[0] if told.item is not None else None
    if name is not None and not name.startswith("flour"):
        own = next((g for item, g in inside if item == name), None)
        if own is not None and (told.meant is None or told.poured is None) and told.meant != told.poured:
            inside[:] = [(item, g) for item, g in inside if item != name]
            told.meant, told.poured = (own, told.poured) if told.meant is None else (told.meant, own)
        elif own is not None and told.off is not None and told.meant is None:
            inside[:] = [(item, g) for item, g in inside if item != name]
            told.meant = own  # "60 g too much milk, it was 500 flour, 300 milk"
    if told.meant is not None and told.poured is None and told.off is None:
        other = next((g for g in loose if g != told.meant and _alike(g, told.meant)), None)
        if other is not None:  # "the dough is at 60 %, should be 65"
            told.poured = other
            loose.remove(other)
    if many_times and told.meant is None and loose:
        told.meant = loose.pop(0)  # "salt is in it twice, 20 g each time"


_LIKE = 2.5
"""Two values of one thing, what was meant and what is there, lie within this factor of one another."""


def _alike(first: float, second: float) -> bool:
    """Whether two figures may be two values of one thing."""
    return first > 0 and second > 0 and 1 / _LIKE <= first / second <= _LIKE


def _likest(bound: Bound, meant: float, inside: list[tuple[str, float]]) -> int | None:
    """The place of the thing told whose amount is nearest to what was meant, where no word says which: "supposed to
    be 650" behind flour and 700 g water."""
    in_pct = any(h.amount is not None and h.amount.dim == "pct" and amount_base(h.amount) == meant for h in bound.hits)
    fitting = [
        (abs(math.log(g / meant)), item)
        for item, g in inside
        if _alike(g, meant) and (item == "hydration" or not in_pct)
    ]
    if not fitting:
        return None
    name = min(fitting)[1]
    return next((i for i in things_in(bound) if ids_of(bound.phrases[i])[0] == name), None)


def _settle_shares(bound: Bound, told: Told) -> None:
    """Percent said for one side only is kept apart: "wanted 65 %, only put 300 g water in"."""
    amounts = [hit.amount for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim == "pct"]
    pct = {amount_base(amount) for amount in amounts}
    pct |= {amount.old.base for amount in amounts if amount.old is not None}  # "3 % instead of 2"
    whole = bool(told.item is not None and ids_of(bound.phrases[told.item])[:1] == ("hydration",))
    bare = {amount_base(hit.amount) for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim == "num"}
    if told.item is not None and "water" in ids_of(bound.phrases[told.item]):
        bare = set()  # "wanted 65 %, only put 300 water in"
    meant_pct, poured_pct = told.meant in pct, told.poured in pct
    meant_pct = meant_pct or (poured_pct and told.meant in bare)  # "3 % salt instead of 2"
    poured_pct = poured_pct or (meant_pct and told.poured in bare)
    if meant_pct and poured_pct and not whole and told.item is not None:
        told.meant_pct, told.poured_pct = told.meant, told.poured
        told.meant = told.poured = None
        return
    if whole or meant_pct == poured_pct:
        return
    if meant_pct:
        told.meant_pct, told.meant = told.meant, None
    elif told.poured is not None:
        told.poured_pct, told.poured = told.poured, None


def _place_amount(
    bound: Bound, told: Told, inside: list[tuple[str, float]], loose: list[float], hit: Hit, place: int, value: float,
    many_times: bool,
) -> None:  # fmt: skip
    """Put one amount where it belongs."""
    phrases, amount = bound.phrases, hit.amount
    assert amount is not None
    thing = _thing_beside(bound, place)
    role = _role(bound, place)
    if role == "meant" and thing is not None and thing < place and fits(phrases[place - 1], ("link:instead_of",)):
        thing = None  # "into 800 g flour instead of 520": the 520 is of what went wrong, not of the flour
    if amount.dim == "num" and thing is not None and ids_of(phrases[thing])[0].startswith("egg"):
        told.counted = True
    same = told.item is None or thing is None or ids_of(phrases[thing])[:1] == ids_of(phrases[told.item])[:1]
    if amount.dim == "share":
        told.share = value
        told.item = thing if thing is not None else told.item
        return
    if many_times and thing is not None:
        if same:
            told.meant = value
        else:
            inside.append((ids_of(phrases[thing])[0], value))
        return
    if amount.old is not None:  # "300 instead of 250"
        told.poured, told.meant = value, amount.old.base
        told.item = thing if thing is not None else told.item
    elif role == "bowl" and thing is not None:
        inside.append((ids_of(phrases[thing])[0], value))
        return
    elif (
        role is None
        and same
        and thing is not None
        and told.poured is not None
        and told.meant is None
        and (bound.said("mistake:only_in"))
    ):  # "only 500 of the 620 water"
        told.meant, told.item = value, thing
    elif role in ("meant", "poured", "over", "under") and same:
        if role == "meant":
            told.meant = value
        elif role == "poured":
            told.poured = value
        else:
            told.off, told.more = value, role == "over"
        told.item = thing if thing is not None and told.item is None else told.item
    elif thing is not None:
        inside.append((ids_of(phrases[thing])[0], value))
        return
    else:
        loose.append(value)
    told.in_ml = told.in_ml or amount.dim == "volume"


def _nearest(bound: Bound, things: list[int], words: tuple[str, ...]) -> int | None:
    place = next((i for i, p in enumerate(bound.phrases) if fits(p, words)), None)
    if place is None or not things:
        return None
    return min(things, key=lambda i: abs(i - place) + (0.5 if i > place else 0.0))


def _role(bound: Bound, place: int) -> str | None:
    """What an amount is, from the words beside it: meant, poured, over, under, bowl."""
    phrases = bound.phrases
    for i in range(place - 1, -1, -1):
        phrase = phrases[i]
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in STOPS):
            break
        if fits(phrase, ("link:instead_of",)):
            return "meant"
        if fits(phrase, ("mistake:only_in",)):
            return "poured"
        if fits(phrase, ("cue:greater",)) and bound.said("mistake:poured"):
            return "over"  # "i added an extra 100 g"
        if fits(phrase, ("mistake:in_bowl",)) and all(p.kind == "link" for p in phrases[i + 1 : place]):
            return _after(bound, place) or "poured"  # "recipe 100 g, in the bowl 150 g"
        if fits(phrase, ("cue:formula",)) and i == place - 1 and "recipe" in phrase.text.lower():
            return "meant"
        for role in ("meant", "over", "under", "poured"):
            if not phrase.negated and fits(phrase, MEANT if role == "meant" else (f"mistake:{role}",)):
                behind = _after(bound, place)
                near = all(p.kind == "link" for p in phrases[i + 1 : place])
                return role if near and role == "meant" and behind == "poured" else behind or role
    return _after(bound, place)


def _after(bound: Bound, place: int) -> str | None:
    """The role said behind an amount: "50 g too much", "700 went in", "650 g planned", "1100 g flour in the bowl"."""
    phrases = bound.phrases
    for i in range(place + 1, len(phrases)):
        phrase = phrases[i]
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in STOPS):
            break
        if fits(phrase, ("cue:greater", "link:over", "mistake:over")):
            return "over"
        if fits(phrase, ("mistake:under", "cue:fewer", "link:under")):
            return "under"
        if fits(phrase, ("mistake:in_bowl",)):
            return "bowl"
        if fits(phrase, ("link:instead_of",)):
            return "poured"
        if fits(phrase, ("mistake:poured",)) and not _leads_on(bound, i):
            return "poured"
        if fits(phrase, MEANT):  # "30, should have been 20" against "650 planned"
            return "poured" if i + 1 < len(phrases) and phrases[i + 1].kind == "amount" else "meant"
    return None


def _leads_on(bound: Bound, i: int) -> bool:
    """Whether the word belongs to the amount behind it: "put 21 g in" against "went into 800 g flour"."""
    for phrase in bound.phrases[i + 1 :]:
        if phrase.kind == "amount":
            return True
        if phrase.kind != "link" or "into" in phrase.ids("link"):
            return False
    return False


def _thing_beside(bound: Bound, place: int) -> int | None:
    """The word an amount weighs: right behind it ("80 g of salt"), else right before it."""
    phrases = bound.phrases
    for i in range(place + 1, min(place + 4, len(phrases))):
        if phrases[i].kind == "amount" or (phrases[i].kind == "sep" and phrases[i].text.strip() in STOPS):
            break
        if fits(phrases[i], THING):
            return i
    for i in range(place - 1, max(place - 4, -1), -1):
        if phrases[i].kind == "amount" or (phrases[i].kind == "sep" and phrases[i].text.strip() in STOPS):
            break
        if fits(phrases[i], THING):
            weighed = i > 0 and phrases[i - 1].kind == "amount"  # "800 g flour but want 2 percent"
            return None if weighed and any(fits(p, MEANT) for p in phrases[i + 1 : place]) else i
    return None
