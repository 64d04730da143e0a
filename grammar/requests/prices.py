"""Prices as they are told: each thing with its price and the amount that is for."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

from grammar.frames import Bound, amount_base
from grammar.phrases import Phrase
from grammar.tokens import Quantity

COSTS = ("money:cost", "money:comes_to")
FLOUR = ("flour_bread",)
"""What a bag of flour holds where nothing more is said."""
GOODS = ("ingredient:*", "cue:flour")
_COINS = {"penny": "GBP", "cent": None}
"""The currency that a coin belongs to, where it is only one."""


@dataclass(frozen=True, slots=True)
class Price:
    """A price as told: readings of the thing, and so many ("g", "ml" or "each") of it for `price`.

    As many as the price kept so far is for where the unit is "same".
    """

    item: tuple[str, ...]
    price: float
    amount: float
    unit: str
    said: str = ""  # the amount as it was said, "5 lb bag"


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


Offers = tuple[tuple[Price, ...], str | None, frozenset[int]]


def offers(bound: Bound) -> Offers | None:
    """Each thing of the line with its price and the amount that is for; the currency; the phrases they were said with.

    None where anything is left over: half a price is no price.
    """
    found: list[_Offer] = []
    now = _Offer()
    for phrase in bound.phrases:
        listed = bool(found) and now.item is not None and (now.price is not None or bool(now.numbers))
        if (listed and _parts(phrase)) or (now.whole and (_parts(phrase) or _adds(phrase))):
            found.append(now)
            now = _Offer()
        if phrase.negated or not _noted(now, phrase):
            return None
    found += [now] if now.used else []
    if len(found) == 1 and found[0].item is None:  # "it's 2.50 a kilo" of the thing just talked of
        found[0].item = bound.context.thing or None
    _carried(found)
    told = tuple(price for one in found if (price := _price(one, bound)) is not None)
    currency = next((one.currency for one in (*found, now) if one.currency is not None), None)
    used = frozenset(id(p) for one in found for p in one.used)
    return (told, currency, used) if told and len(told) == len(found) else None


def _carried(found: list[_Offer]) -> None:
    """ "flour 1.20 a kilo, butter 9": a price without an amount is for the amount of the one before it."""
    for before, now in pairwise(found):
        figures = (now.price is not None) + len(now.numbers)
        if now.item is not None and now.amount is None and figures == 1 and before.amount is not None:
            now.amount = before.amount


def _parts(phrase: Phrase) -> bool:
    """Whether a sign or "and" parts two prices."""
    return phrase.text in (",", ";") or "and" in phrase.ids("link")


def _adds(phrase: Phrase) -> bool:
    """Whether a phrase is more than a price that is whole takes: small words and those of money it does."""
    return bool(goods_of(phrase)) or phrase.kind == "amount"


def goods_of(phrase: Phrase) -> tuple[str, ...]:
    return phrase.ids("ingredient") or (FLOUR if "flour" in phrase.ids("cue") else ())


_UNITS = {"mass": "g", "volume": "ml"}
"""What an amount that a price is for is counted in, by its sort."""


def _noted(offer: _Offer, phrase: Phrase) -> bool:
    """Whether a phrase has its place in the offer; it is noted there."""
    if phrase.kind == "amount":
        plain = phrase.high is None and phrase.role is None
        return _figure_noted(offer, phrase, phrase.quantity) if plain and phrase.quantity else phrase.moment is not None
    offer.currency = offer.currency or next(iter(phrase.ids("currency")), None)
    goods = goods_of(phrase)
    if goods and offer.item not in (None, goods):
        return False
    offer.item = goods or offer.item
    if offer.amount is None and not goods:
        offer.amount = _one_of(phrase, offer)
    if goods or (phrase.ids("unit") and offer.amount is not None):
        offer.used.append(phrase)
    return True


def _one_of(phrase: Phrase, offer: _Offer) -> tuple[float, str] | None:
    """The amount a word alone says a price is for: one of a unit, or one piece."""
    units = [unit for unit in phrase.tokens[0].units if phrase.ids("unit") and unit.dimension in _UNITS]
    each = (1.0, "each") if "each" in phrase.ids("link") and offer.item else None
    return next(((unit.factor, _UNITS[unit.dimension]) for unit in units), each)


def _figure_noted(offer: _Offer, phrase: Phrase, quantity: Quantity) -> bool:
    """Whether a figure is one of the offer's and the first of its sort; of other sorts there may be any."""
    dim = quantity.dim
    if (dim == "money" and offer.price is not None) or (dim in _UNITS and offer.amount is not None):
        return False
    if dim == "money":
        offer.price, offer.currency = quantity.base, _COINS.get(str(quantity.unit), quantity.unit)
    offer.amount = (quantity.base, _UNITS[dim]) if dim in _UNITS else offer.amount
    offer.numbers += [phrase] if dim == "num" else []
    offer.used += [phrase] if dim in ("money", "num", *_UNITS) else []
    return True


def _price(offer: _Offer, bound: Bound) -> Price | None:
    """The offer settled: of two bare numbers the one said with "for" or right before the thing counts it."""
    price, amount, numbers = offer.price, offer.amount, list(offer.numbers)
    figures = (price is not None) + (amount is not None) + len(numbers)
    if offer.item is None or figures != 2:
        return None
    counting = [p for p in numbers if price is not None or _counts(p, bound)][:1] if amount is None else []
    for phrase in counting:
        numbers.remove(phrase)
        amount = (amount_base(phrase) or 0.0, "each")
    price = amount_base(numbers[0]) if numbers else price
    words = next((p.text for p in offer.used if p.dim in _UNITS), "")
    told = price is not None and amount is not None and amount[0] > 0
    return Price(offer.item, price, *amount, words) if told and price is not None and amount is not None else None


def _counts(phrase: Phrase, bound: Bound) -> bool:
    """Whether a bare number counts the thing rather than being its price: "12 eggs", "for 12", "a dozen"."""
    spelled = phrase.quantity is not None and phrase.quantity.spelled
    led = "for" in bound.next_to(phrase, -1).ids("link")
    return spelled or led or bool(goods_of(bound.next_to(phrase)))


def about_money(bound: Bound) -> bool:
    """Whether a line is about money: a coin, a word of it, or a bare figure "a kilo", "per kg", "for a bag"."""
    amounts = [p for p in bound.phrases if p.kind == "amount"]
    told = bound.said(*COSTS, "money:asked") or any(p.dim == "money" for p in amounts)
    bagged = bound.said("money:bag") and any(_to_the_penny(p) for p in amounts)
    return told or bagged or any(counts_goods(bound, p) or _by_the_unit(bound, p) for p in bound.phrases[1:])


def counts_goods(bound: Bound, phrase: Phrase) -> bool:
    """Whether a number, an amount or a bag is what a figure typed as money pays for: "2.40 for 12", "for 250 g"."""
    led = "for" in bound.next_to(phrase, -1).ids("link")
    figure = bound.next_to(phrase, -2 if led else -1)
    counted = phrase.kind == "amount" and phrase.dim == "num" and (led or phrase.text.startswith("a "))
    weighed = led and (phrase.dim in _UNITS or "bag" in phrase.ids("money"))
    return (counted or weighed) and _to_the_penny(figure)


def _so_for(bound: Bound, phrase: Phrase) -> bool:
    """Whether a mass that ends the line is what a bare figure told of one thing is for: "butter was 2 for 250 g"."""
    figure, last = bound.next_to(phrase, -2), phrase is bound.phrases[-1]
    told = "so" in figure.meant and figure.dim == "num" and "for" in bound.next_to(phrase, -1).ids("link")
    return told and last and phrase.dim in _UNITS and sum(bool(goods_of(p)) for p in bound.phrases) == 1


def pays(bound: Bound) -> bool:
    """Whether a figure of the line can only be what so much of a thing, or the one whose price is kept, costs."""
    priced = (counts_goods(bound, p) or _so_for(bound, p) for p in bound.phrases if p.dim != "num")
    return price_again(bound) is not None or any(priced)


def price_again(bound: Bound) -> Phrase | None:
    """The figure, typed as money is, that is said to be so of one thing whose price is kept: "butter is 2.50"."""
    goods = [p for p in bound.phrases if goods_of(p)]
    figures = [p for p in bound.phrases if p.kind == "amount"]
    if len(goods) != 1 or len(figures) != 1 or not _to_the_penny(figures[0]):
        return None
    kept = any(f"price_{item}" in bound.context.known.settings for item in goods_of(goods[0]))
    copula = "so" in figures[0].meant or goods[0].text.endswith("'s")
    return figures[0] if kept and copula else None


def _by_the_unit(bound: Bound, phrase: Phrase) -> bool:
    """Whether a mass, a unit or a bag is what a bare figure before it is for: "1.20 a kilo", "4 for the bag"."""
    before = bound.next_to(phrase, -1)
    mass = phrase.kind == "amount" and phrase.dim in _UNITS
    figures = any(p.kind == "amount" and p.dim == "num" for p in bound.phrases[: bound.phrases.index(phrase)])
    if not figures or not (mass or "bag" in phrase.ids("money") or phrase.ids("unit")):
        return False
    article = bound.text[before.tokens[-1].end : phrase.tokens[0].start].split()[-1:]
    spelled = {*article, *phrase.text.split()[:1]} & {"a", "an", "the"}
    return before.text == "/" or bool(spelled or {"per", "each"} & set(before.ids("link")))


def _to_the_penny(phrase: Phrase) -> bool:
    """Whether a bare figure was typed as money is: "2.40"."""
    return phrase.kind == "amount" and phrase.dim == "num" and len(phrase.text.replace(",", ".").partition(".")[2]) == 2


def spelled_first(bound: Bound) -> bool:
    """ "a kilo of butter is 9": the amount first, as one of its unit."""
    first, rest = bound.phrases[0], [p for p in bound.phrases if p.kind == "amount"]
    one = first.quantity is not None and first.dim in _UNITS and first.quantity.spelled
    coined = first.dim in _UNITS and _to_the_penny(bound.phrases[-1])
    return (one or coined) and len(rest) == 2 and bound.phrases[-1].dim == "num" and "for" not in bound.links()
