"""Money: prices kept as settings, what a dough costs, and what to buy for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.frames import NOTHING, Bound, Frame, Line, Own, amount_base, fits, never_by_slots
from grammar.levels import PLAINLY, speaks
from grammar.named import dough_named
from grammar.requests.batch import IN_HAND, PIECE, SLOTS, Batch, batch_of
from grammar.requests.formula_asked import IN_EVERY_DOUGH
from grammar.requests.prices import (
    COSTS,
    GOODS,
    Offers,
    Price,
    about_money,
    goods_of,
    offers,
    price_again,
    spelled_first,
)
from grammar.slots import Slot
from grammar.spoken import fitting, spoken
from grammar.turns import END, LEAD, THIS, is_this


@dataclass(frozen=True, slots=True)
class PriceRequest:
    """flour costs 1.20 a kilo
    butter is 8 per kg
    2 for a 1.5 kg bag of flour

    prices: one or several; currency: its letters, if said. Standing settings.
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


def build_price(bound: Bound) -> PriceRequest | None:
    """Prices to keep; without the amount they are for where a price alone was said."""
    if bound.asks() or bound.said("ask:*"):
        return None
    found = offers(bound)
    if found is None and bound.said("money:asked"):
        return None
    if found is not None and (about_money(bound) or spelled_first(bound)):
        return PriceRequest(found[0], found[1])
    return _price_alone(bound)


def _price_alone(bound: Bound) -> PriceRequest | None:
    """One figure of one thing: for as much of it as the price kept so far, else a price that lacks its amount."""
    figures = [p for p in bound.phrases if p.kind == "amount"]
    goods = [goods_of(p) for p in bound.phrases if goods_of(p)]
    dims = [p.dim for p in figures]
    told = dims == ["money"] or (dims == ["num"] and bound.said(*COSTS)) or price_again(bound) is not None
    figure = amount_base(figures[0]) if told and len(goods) == 1 else None
    return None if figure is None else PriceRequest((Price(goods[0], figure, 0.0, "same"),))


def _priced_part(bound: Bound) -> Bound:
    """The line without what it says of the batch: "what is one roll if flour is 4 for a bag"."""
    sizes = [hit for slot in ("pieces", "piece_g", "batches") for hit in bound.of(slot)]
    gone = {id(p) for hit in sizes if hit.label is not None and fits(hit.label, PIECE) for p in (hit.amount, hit.label)}
    pairs = pairwise(bound.phrases)
    gone |= {id(one) for one, behind in pairs if one.dim == "num" and amount_base(one) == 1 and fits(behind, COSTS)}
    return replace(bound, phrases=tuple(p for p in bound.phrases if id(p) not in gone))


_DEAR = (*COSTS, "money:asked", "money:split", "money:shopping", "money:buy", "money:prices")
_ASKS = ("ask:*", "money:asked", "money:prices", "money:split", "act:show", "act:make", "cue:total")


def build_cost(bound: Bound) -> CostRequest | None:
    """What is asked of a dough's cost; None where a price is told and nothing asked."""
    if _of_a_weight(bound) or not (bound.said(*_DEAR) or (_goes_on(bound) and bound.of("pieces"))):
        return None
    things = [goods_of(p) for p in bound.phrases if goods_of(p)]
    found = offers(_priced_part(bound)) if things or bound.context.thing else None
    shopping = _shops(bound)
    if things and found is None and not shopping:
        return _price_kept(bound, things)
    occasion = [hit.label for hit in bound.of("occasion") if hit.label is not None]
    if any(phrase.kind != "junk" for phrase in occasion) or (occasion and not shopping):
        return None
    day = " ".join(phrase.text for phrase in (*bound.amounts("day")[:1], *occasion)) or None
    if shopping:
        return CostRequest(True, batch=_batch(bound, found), day=day) if found is None else None
    return CostRequest(listed=True) if bound.said("money:prices") else _sum(bound, found, day)


def _of_a_weight(bound: Bound) -> bool:
    """Whether grams are asked after: of what is in every dough, or of one thing on the pieces."""
    on_top = "on" in bound.links() and any(p.ids("ingredient") for p in bound.phrases)
    grams = bound.said("money:comes_to") and bound.context.has_bake and bound.said(*IN_EVERY_DOUGH)
    return grams or (on_top and _shops(bound) and bound.said("ask:how_much"))


def _shops(bound: Bound) -> bool:
    return bound.said("money:shopping", "money:buy")


def _goes_on(bound: Bound) -> bool:
    """Whether it is asked of another size after a cost."""
    return bound.context.focus == "cost" and bound.said("ask:how_much")


def _leads(bound: Bound) -> bool:
    """Whether the line opens with the cost itself."""
    first = next((p for p in bound.phrases if p.kind in ("label", "amount")), NOTHING)
    return bool({"cost", "split"} & set(first.ids("money")))


def _asked(bound: Bound) -> bool:
    return bound.asks() or bound.said(*_ASKS)


def _price_kept(bound: Bound, things: list[tuple[str, ...]]) -> CostRequest | None:
    """The price of the one thing named that is asked after."""
    known = (_asked(bound) or _leads(bound)) and "with" not in bound.links() and bound.said(*COSTS)
    sized = bound.of("pieces") or bound.of("bag")
    return CostRequest(listed=True, item=things[0]) if known and not sized and len(things) == 1 else None


def _batch(bound: Bound, found: Offers | None) -> Batch:
    """What is to be paid for; a number of pieces that is one, or a price's own, sizes nothing."""
    batch = batch_of(bound)
    priced = found is not None and id(bound.amount("pieces")) in found[2]
    return replace(batch, pieces=None) if priced or batch.pieces == 1 else batch


def _sum(bound: Bound, found: Offers | None, day: str | None) -> CostRequest | None:
    """The sum of a dough, with the prices told beside it."""
    asked, leads = _asked(bound), _leads(bound)
    about = _goes_on(bound) or bound.said(*COSTS, "money:asked", "money:split")
    batch = _batch(bound, found)
    if found is not None:
        said = PriceRequest(found[0], found[1])
        wanted = asked or (leads and bound.said(*PIECE))
        return CostRequest(batch=batch, day=day, said=said) if wanted and about else None
    portion_g = bound.base("amount") if batch.piece_g is None else None
    loose = tuple(one.text for one in bound.amounts("price"))
    return CostRequest(portion_g=portion_g, batch=batch, day=day, unclear=loose) if about else None


_GOING = r"(?:(?:<hand:going>)[ ,]+)*(?:<hand:to_shop>)(?: (?:<hand:then>|<hand:polite>|later|soon|after))*"
_FOR_IT = rf"(?: (?:for|in for|to make|to bake|of for) (?P<of>{THIS}|(?:<hand:both>)|(?:<hand:those>) [a-z ]+?))"
_GOODS = (
    rf"{LEAD}(?:{_GOING}[ ,.;:]+)?{LEAD}(?:<hand:asks_goods>) (?:<hand:get_in>){_FOR_IT}?{END}",
    rf"{LEAD}(?:<hand:asks_goods>) (?:<hand:get_in>){_FOR_IT}?[ ,.;:]+{_GOING}{END}",
    rf"{LEAD}(?:<hand:asks_goods>) (?:<hand:get_in>)[ ,.;:]+{_GOING}{_FOR_IT}{END}",
    rf"{LEAD}{_GOING}[ ,.;:]+{LEAD}(?:what|anything|what else|something)(?: do| that)? (?:i|we) need{_FOR_IT}?{END}",
)


def _goods(line: Line) -> Own | None:
    """What to buy for the dough in hand, asked by what somebody goes out to do."""
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_GOODS, said, line.lexicon) if line.context.has_bake else ():
        of = hit["of"] or ""
        if not of or is_this(of, line.lexicon) or dough_named(of, line.context.known) is not None:
            return Own(CostRequest(shopping=True), PLAINLY)
    return None


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
    Frame(CostRequest, "cost", never_by_slots, reads=_goods, settles=True),
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
        cues=speaks(
            alone="money:cost money:comes_to money:asked money:shopping money:buy money:prices",
            certain="money:split money:rest",
            sure="ask:how_much",
            likely="ask:what",
            maybe=(
                "ask:what_if ask:how_many ask:is_it cue:total act:show serving:* ask:can_i act:double "
                "act:triple act:halve"
            ),
            seldom="cue:dough cue:load cue:formula act:make",
            heard=(
                "ask:when act:same cue:all_of_it ask:plan* cue:piece_mass clock:list span:now look:came_out "
                "link:if ask:batches ask:how_to ask:convert card:write"
            ),
            against="cue:percentages",
        ),
        needs=(
            *COSTS, "money:asked", "money:shopping", "money:buy", "money:prices", "money:split", "ask:how_much",
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
        cues=speaks(
            telling="money:cost money:comes_to",
            sure="money:prices",
            maybe="money:bag pack:* money:rest money:shopping money:receipt",
            heard=(
                "act:always span:now act:change act:use away:out shift:* link:to currency:* hazard:sell stance:at_hand"
            ),
        ),
        needs=("slot:price",),
        rules_out=("symptom:*", "mistake:forgot", *PIECE, "cue:hydration"),
        base=9.0,
        wholly=True,
        settles=True,
    ),
)  # fmt: skip
