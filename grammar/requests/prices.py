"""Prices as they are told: each thing with its price and the amount that is for."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

from grammar.frames import Bound
from grammar.phrases import Phrase

COSTS = ("money:cost", "money:comes_to")
FLOUR = ("flour_bread",)
"""What a bag of flour holds where nothing more is said."""
GOODS = ("ingredient:*", "cue:flour")
_COINS = {"penny": "GBP", "cent": None}
"""The currency that a coin belongs to, where it is only one."""


@dataclass(frozen=True, slots=True)
class Price:
    """A price as said: readings of the thing, and so many ("g", "ml" or "each") of it for `price`."""

    item: tuple[str, ...]
    price: float
    amount: float
    unit: str


@dataclass(slots=True)
class _Offer:
    """One thing with its price while the line is walked through."""

    item: tuple[str, ...] | None = None
    price: float | None = None
    currency: str | None = None
    amount: tuple[float, str] | None = None
    numbers: list[Phrase] = field(default_factory=list)
    used: list[Phrase] = field(default_factory=list)

    @property
    def whole(self) -> bool:
        figures = (self.price is not None) + (self.amount is not None) + len(self.numbers)
        return self.item is not None and figures == 2


def offers(bound: Bound) -> tuple[tuple[Price, ...], str | None, frozenset[int]] | None:
    """Each thing of the line with its price and the amount that is for; the currency; the phrases they were said with.

    None where anything is left over: half a price is no price.
    """
    found: list[_Offer] = []
    now = _Offer()
    for place, phrase in enumerate(bound.phrases):
        listed = bool(found) and now.item is not None and (now.price is not None or bool(now.numbers))
        if (listed and _parts(phrase)) or (now.whole and (_parts(phrase) or not _goes_on(now, phrase))):
            found.append(now)
            now = _Offer()
        if phrase.negated or not _noted(now, phrase, bound.phrases[place - 1] if place else None):
            return None
    if now.used:
        found.append(now)
    _carried(found)
    told = [_price(one, bound) for one in found]
    if not told or any(one is None for one in told):
        return None
    currency = next((one.currency for one in found if one.currency is not None), None)
    return tuple(one for one in told if one is not None), currency, frozenset(id(p) for o in found for p in o.used)


def _carried(found: list[_Offer]) -> None:
    """ "flour 1.20 a kilo, butter 9": a price without an amount is for the amount of the one before it."""
    for before, now in pairwise(found):
        figures = (now.price is not None) + len(now.numbers)
        if now.item is not None and now.amount is None and figures == 1 and before.amount is not None:
            now.amount = before.amount


def _parts(phrase: Phrase) -> bool:
    """Whether a sign or "and" parts two prices."""
    return phrase.text in (",", ";") or "and" in phrase.ids("link")


def _goes_on(offer: _Offer, phrase: Phrase) -> bool:
    """Whether a phrase adds to a price that is whole: nothing does but small words and those of money."""
    return not (goods_of(phrase) or phrase.kind == "amount")


def goods_of(phrase: Phrase) -> tuple[str, ...]:
    return phrase.ids("ingredient") or (FLOUR if "flour" in phrase.ids("cue") else ())


def _noted(offer: _Offer, phrase: Phrase, before: Phrase | None) -> bool:
    """Whether a phrase has its place in the offer; it is noted there."""
    quantity = phrase.quantity
    if phrase.kind == "amount":
        if quantity is None or phrase.high is not None or phrase.role is not None:
            return phrase.moment is not None
        offer.used.append(phrase)
        if quantity.dim == "money":
            if offer.price is not None:
                return False
            offer.price, offer.currency = quantity.base, _COINS.get(str(quantity.unit), quantity.unit)
        elif quantity.dim in ("mass", "volume"):
            if offer.amount is not None:
                return False
            offer.amount = (quantity.base, "g" if quantity.dim == "mass" else "ml")
        elif quantity.dim == "num":
            offer.numbers.append(phrase)
        else:
            offer.used.pop()
        return True
    if goods_of(phrase):
        if offer.item not in (None, goods_of(phrase)):
            return False
        offer.item = goods_of(phrase)
        offer.used.append(phrase)
    elif phrase.ids("unit") and offer.amount is None:
        unit = next((u for u in phrase.tokens[0].units if u.dimension in ("mass", "volume")), None)
        if unit is not None:
            offer.amount = (unit.factor, "g" if unit.dimension == "mass" else "ml")
            offer.used.append(phrase)
    elif "each" in phrase.ids("link") and offer.item and offer.amount is None:
        offer.amount = (1.0, "each")
    return True


def _price(offer: _Offer, bound: Bound) -> Price | None:
    """The offer settled: of two bare numbers the one said with "for" or right before the thing counts it."""
    if offer.item is None:
        return None
    price, amount, numbers = offer.price, offer.amount, list(offer.numbers)
    if amount is None and len(numbers) == (2 if price is None else 1):
        counting = next((p for p in numbers if _counts(p, offer, bound)), numbers[0] if price is not None else None)
        if counting is None or counting.quantity is None:
            return None
        numbers.remove(counting)
        amount = (counting.quantity.value, "each")
    if price is None and len(numbers) == 1 and numbers[0].quantity is not None:
        price = numbers.pop().quantity.value  # type: ignore[union-attr]
    if price is None or amount is None or numbers or amount[0] <= 0:
        return None
    return Price(offer.item, price, *amount)


def _counts(phrase: Phrase, offer: _Offer, bound: Bound) -> bool:
    """Whether a bare number counts the thing rather than being its price: "12 eggs", "for 12", "a dozen"."""
    place = bound.phrases.index(phrase)
    before = bound.phrases[place - 1] if place else None
    after = bound.phrases[place + 1] if place + 1 < len(bound.phrases) else None
    if phrase.quantity is not None and phrase.quantity.spelled:
        return True
    return (before is not None and "for" in before.ids("link")) or (after is not None and bool(goods_of(after)))


def about_money(bound: Bound) -> bool:
    """Whether a line is about money: a coin, a word of it, or a bare figure "a kilo", "per kg", "for a bag"."""
    if bound.said(*COSTS, "money:asked") or any(p.kind == "amount" and p.dim == "money" for p in bound.phrases):
        return True
    if bound.said("money:bag") and any(_to_the_penny(p) for p in bound.phrases if p.kind == "amount"):
        return True
    for place, phrase in enumerate(bound.phrases[1:], start=1):
        before = bound.phrases[place - 1]
        counts = phrase.kind == "amount" and phrase.dim == "num"
        figure = bound.phrases[place - 2] if place > 1 and "for" in before.ids("link") else before
        if counts and (figure is not before or phrase.text.startswith("a ")) and _to_the_penny(figure):
            return True
        mass = phrase.kind == "amount" and phrase.dim in ("mass", "volume")
        bagged = bool(phrase.ids("money")) and "bag" in phrase.ids("money")
        figures = any(p.kind == "amount" and p.dim == "num" for p in bound.phrases[:place])
        if not figures or not (mass or bagged or phrase.ids("unit")):
            continue
        article = bound.text[before.tokens[-1].end : phrase.tokens[0].start].split()[-1:]
        spelled = phrase.text.split()[:1]
        if before.text == "/" or {"a", "an", "the"} & {*article, *spelled} or {"per", "each"} & set(before.ids("link")):
            return True
    return False


def _to_the_penny(phrase: Phrase) -> bool:
    """Whether a bare figure was typed as money is: "2.40"."""
    return phrase.dim == "num" and len(phrase.text.replace(",", ".").partition(".")[2]) == 2


def spelled_first(bound: Bound) -> bool:
    """ "a kilo of butter is 9": the amount first, as one of its unit."""
    first, rest = bound.phrases[0], [p for p in bound.phrases if p.kind == "amount"]
    one = first.quantity is not None and first.dim in ("mass", "volume") and first.quantity.spelled
    return one and len(rest) == 2 and bound.phrases[-1].dim == "num" and "for" not in bound.links()
