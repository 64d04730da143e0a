"""Money: prices kept as settings, what a dough costs, and what to buy for it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise

from grammar.frames import Bound, Frame, Slot, fits
from grammar.phrases import Phrase
from grammar.requests.batch import IN_HAND, PIECE, SLOTS, Batch, batch_of
from grammar.requests.formula_asked import IN_EVERY_DOUGH

FLOUR = ("flour_bread",)
"""What a bag of flour holds where nothing more is said."""
GOODS = ("ingredient:*", "cue:flour")
_COSTS = ("money:cost", "money:comes_to")
_COINS = {"penny": "GBP", "cent": None}
"""The currency that a coin belongs to, where it is only one."""


@dataclass(frozen=True, slots=True)
class Price:
    """A price as said: readings of the thing, and so many ("g", "ml" or "each") of it for `price`."""

    item: tuple[str, ...]
    price: float
    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class PriceRequest:
    """flour costs 1.20 a kilo
    butter is 8 per kg
    2 for a 1.5 kg bag of flour

    prices: one or several, none where the amount was left out; currency: its letters, if said. Standing settings.
    """

    prices: tuple[Price, ...] = ()
    currency: str | None = None


@dataclass(frozen=True, slots=True)
class CostRequest:
    """what does this cost
    cost per roll
    shopping list for 30 rings

    shopping: the list of what to buy is asked for rather than the sum; listed: the prices that are kept, or that of
    item. batch: the bread and the size, where they were said; portion_g: of so much dough; day: when it is for, as
    typed; said: prices told in the same breath.
    """

    shopping: bool = False
    listed: bool = False
    item: tuple[str, ...] = ()
    portion_g: float | None = None
    batch: Batch = IN_HAND
    day: str | None = None
    said: PriceRequest | None = None
    unclear: tuple[str, ...] = ()  # a figure that is the price of nothing named: "12 rings cost 5 to make"


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
    return not (_thing(phrase) or phrase.kind == "amount")


def _thing(phrase: Phrase) -> tuple[str, ...]:
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
    if _thing(phrase):
        if offer.item not in (None, _thing(phrase)):
            return False
        offer.item = _thing(phrase)
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
    return (before is not None and "for" in before.ids("link")) or (after is not None and bool(_thing(after)))


def _dear(bound: Bound) -> bool:
    """Whether a line is about money: a coin, a word of it, or a bare figure "a kilo", "per kg", "for a bag"."""
    if bound.said(*_COSTS, "money:asked") or any(p.kind == "amount" and p.dim == "money" for p in bound.phrases):
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


def build_price(bound: Bound) -> PriceRequest | None:
    """Prices to keep; without the amount they are for where a price alone was said."""
    if bound.asks() or bound.said("ask:*", "money:asked"):
        return None
    found = offers(bound)
    if found is not None and (_dear(bound) or _spelled_first(bound)):
        return PriceRequest(found[0], found[1])
    figures = [p for p in bound.phrases if p.kind == "amount"]
    things = [p for p in bound.phrases if _thing(p)]
    figure = figures[0].dim if len(figures) == 1 and len(things) == 1 else None
    one = figure == "money" or (figure == "num" and bound.said(*_COSTS))
    return PriceRequest() if one else None


def _spelled_first(bound: Bound) -> bool:
    """ "a kilo of butter is 9": the amount first, as one of its unit."""
    first, rest = bound.phrases[0], [p for p in bound.phrases if p.kind == "amount"]
    one = first.quantity is not None and first.dim in ("mass", "volume") and first.quantity.spelled
    return one and len(rest) == 2 and bound.phrases[-1].dim == "num" and "for" not in bound.links()


def _priced_part(bound: Bound) -> Bound:
    """The line without what it says of the batch: "what is one roll if flour is 4 for a bag"."""
    sizes = [hit for slot in ("pieces", "piece_g", "batches") for hit in bound.of(slot)]
    gone = {id(p) for hit in sizes if hit.label is not None and fits(hit.label, PIECE) for p in (hit.amount, hit.label)}
    return replace(bound, phrases=tuple(p for p in bound.phrases if id(p) not in gone))


def build_cost(bound: Bound) -> CostRequest | None:
    """What is asked of a dough's cost; None where a price is told and nothing asked."""
    if bound.said("money:comes_to") and bound.context.has_bake and bound.said(*IN_EVERY_DOUGH):
        return None  # "what does the salt come to": in grams
    shopping = bound.said("money:shopping", "money:buy")
    on_top = "on" in bound.links() and any(p.ids("ingredient") for p in bound.phrases)
    if shopping and on_top and bound.said("ask:how_much"):
        return None  # so much of one thing on the pieces
    asks = ("ask:*", "money:asked", "money:prices", "money:split", "act:show", "act:make", "cue:total")
    asked = bound.asks() or bound.said(*asks)
    goes_on = bound.context.focus == "cost" and bound.said("ask:how_much")  # "so one pita is how much"
    dear = (*_COSTS, "money:asked", "money:split", "money:shopping", "money:buy", "money:prices")
    if not bound.said(*dear) and not (goes_on and bound.of("pieces")):
        return None
    found = offers(_priced_part(bound)) if any(_thing(p) for p in bound.phrases) else None
    first = next((p for p in bound.phrases if p.kind in ("label", "amount")), None)
    leads = first is not None and bool({"cost", "split"} & set(first.ids("money")))
    things = [_thing(p) for p in bound.phrases if _thing(p)]
    if things and found is None and not shopping:
        known = (asked or leads) and "with" not in bound.links()
        known = known and not (bound.of("pieces") or bound.of("bag")) and bound.said(*_COSTS)
        return CostRequest(listed=True, item=things[0]) if known and len(things) == 1 else None
    occasion = [hit.label for hit in bound.of("occasion") if hit.label is not None]
    if any(phrase.kind != "junk" for phrase in occasion) or (occasion and not shopping):
        return None
    hit = bound.first("day")
    told = [hit.amount.text] if hit is not None and hit.amount is not None else []
    day = " ".join([*told, *(phrase.text for phrase in occasion)]) or None
    batch = batch_of(bound)
    pieces = bound.first("pieces")
    priced = found is not None and pieces is not None and id(pieces.amount) in found[2]
    if priced or batch.pieces == 1:
        batch = Batch(None, batch.piece_g, batch.piece, batch.bread, batch.times)
    if shopping:
        return CostRequest(True, batch=batch, day=day) if found is None else None
    if bound.said("money:prices"):
        return CostRequest(listed=True)
    if found is not None and not asked:
        return None
    if not (asked or leads or found is None) or not (goes_on or bound.said(*_COSTS, "money:asked", "money:split")):
        return None
    portion_g = bound.base("amount") if found is None and batch.piece_g is None else None
    said = PriceRequest(found[0], found[1]) if found is not None else None
    loose = [hit.amount.text for hit in bound.of("price") if hit.amount is not None] if found is None else []
    return CostRequest(portion_g=portion_g, batch=batch, day=day, said=said, unclear=tuple(loose))


_PRICES = {
    "price": Slot({"money": 1.6, "num": 0.4}, cues=("money:cost", *GOODS, "unit:*"), bare=0.2, many=True),
    "amount": Slot(
        {"mass": 1.0, "volume": 1.0}, cues=(*GOODS, "money:bag", "pack:*"), bare=0.5, many=True, links={"for": 0.2}
    ),
    "thing": Slot(term=GOODS, many=True, weight=-0.3),
    "unit": Slot(term=("unit:*",), many=True, weight=-0.3),
    "bag": Slot(term=("money:bag", "pack:*"), many=True, weight=-0.4),
}

FRAMES = (
    Frame(
        CostRequest,
        "cost",
        build_cost,
        slots={
            **SLOTS,
            **_PRICES,
            "price": Slot({"money": 1.6, "num": 0.4}, cues=(*GOODS, "unit:*"), bare=0.2, many=True),
            "occasion": Slot(rest=True, weight=-0.8),
            "day": Slot({"moment": 0.8}, bare=0.4, links={"for": 0.3, "on": 0.3}),
        },
        cues={
            "money:cost": 4.0, "money:comes_to": 4.0, "money:asked": 4.0, "ask:when": 0.0, "act:same": 0.0,
            "ask:what_if": 0.2,
            "cue:all_of_it": 0.0, "money:shopping": 6.0, "money:buy": 4.0, "money:prices": 5.0, "money:split": 2.0,
            "ask:how_much": 0.8, "ask:what": 0.6, "ask:how_many": 0.2, "ask:is_it": 0.2, "ask:plan*": 0.0,
            "cue:total": 0.2, "cue:dough": 0.1, "cue:load": 0.1, "cue:formula": 0.1, "cue:piece_mass": 0.0,
            "act:make": 0.1, "act:show": 0.2, "serving:*": 0.2, "clock:list": 0.0, "span:now": 0.0,
            "look:came_out": 0.0, "link:if": 0.0, "ask:can_i": 0.2, "ask:batches": 0.0,
            "act:double": 0.2, "act:triple": 0.2, "act:halve": 0.2, "ask:how_to": 0.0, "ask:convert": 0.0,
            "card:write": 0.0, "cue:percentages": -2.0,
        },
        needs=(
            *_COSTS, "money:asked", "money:shopping", "money:buy", "money:prices", "money:split", "ask:how_much",
        ),
        rules_out=("symptom:*", "mistake:forgot", "cue:missing", "hazard:sell", "food:kcal", "clock:timer"),
        base=3.0,
        wholly=True,
        settles=True,
    ),
    Frame(
        PriceRequest,
        "cost",
        build_price,
        slots=_PRICES,
        cues={
            "money:cost": 3.0, "money:comes_to": 3.0, "money:prices": 1.0,
            "act:always": 0.0, "span:now": 0.0, "act:change": 0.0, "money:bag": 0.4, "pack:*": 0.2,
            "act:use": 0.0, "away:out": 0.0, "shift:*": 0.0,
        },
        needs=("slot:price",),
        rules_out=("symptom:*", "mistake:forgot", *PIECE, "cue:hydration"),
        base=9.0,
        wholly=True,
        settles=True,
    ),
)  # fmt: skip
