"""Money: prices kept as settings, what the dough in hand costs, and what to buy for it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.requests.recall import plain


@dataclass(frozen=True, slots=True)
class Price:
    """A price as said. unit: "g", "ml" or "each"; amount: so many of them for `price`; item: readings "
    "of the thing."""

    item: tuple[str, ...]
    price: float
    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class PriceRequest:
    """flour costs 1.20 a kilo
    butter is 8 per kg
    2 for a 1.5 kg bag of flour

    prices: one or several; currency: a sign or letters as said. Standing settings, all of them.
    """

    prices: tuple[Price, ...] = ()
    currency: str | None = None


@dataclass(frozen=True, slots=True)
class CostRequest:
    """what does this cost
    cost per roll
    shopping list

    shopping: the list of what to buy is asked for rather than the sum; prices: the prices that are kept.
    """

    shopping: bool = False
    prices: bool = False


CERTAIN = 9.0
"""Stronger than a chance reading of a few words, weaker than a dough that takes every figure."""
PRICED = 16.0
"""A thing and its price: no dough is said with money in it."""
FLOUR = ("flour_bread",)
"""What a bag of flour holds where nothing more is said."""
_BARE = re.compile(r"\bcosts?\s+(?:me\s+)?[£€$]?\s*\d+(?:[.,]\d+)?\s*\w{0,5}\s*$", re.I)
_MONEY = r"(?:£|€|\$|eur|euros?|gbp|usd|dollars?|quid|pence|cents?|chf|francs?|p\b|ct\b|kr\b)"
_SIGNS = {"£": "GBP", "gbp": "GBP", "quid": "GBP", "pence": "GBP", "p": "GBP", "€": "EUR", "eur": "EUR", "euro": "EUR",
          "euros": "EUR", "$": "USD", "usd": "USD", "dollar": "USD", "dollars": "USD", "chf": "CHF", "franc": "CHF",
          "francs": "CHF", "kr": "kr"}  # fmt: skip
_HUNDREDTHS = frozenset({"p", "pence", "cent", "cents", "ct"})
_UNITS = {
    "kg": ("g", 1000.0), "kilo": ("g", 1000.0), "kilos": ("g", 1000.0), "kilogram": ("g", 1000.0),
    "kilograms": ("g", 1000.0), "kgs": ("g", 1000.0), "g": ("g", 1.0), "gr": ("g", 1.0), "gram": ("g", 1.0),
    "grams": ("g", 1.0), "lb": ("g", 453.59237), "lbs": ("g", 453.59237), "oz": ("g", 28.349523125),
    "l": ("ml", 1000.0), "litre": ("ml", 1000.0), "litres": ("ml", 1000.0), "liter": ("ml", 1000.0), "ml": ("ml", 1.0),
    "cl": ("ml", 10.0), "dozen": ("each", 12.0), "each": ("each", 1.0), "piece": ("each", 1.0), "apiece": ("each", 1.0),
}  # fmt: skip
_UNIT = "(?:" + "|".join(sorted(_UNITS, key=len, reverse=True)) + ")"
_PRICE = re.compile(
    rf"(?P<before>£|€|\$)\s*(?P<a>\d+(?:[.,]\d+)?)|(?P<b>\d+(?:[.,]\d+)?)\s*(?P<after>{_MONEY})|"
    rf"(?P<c>\d+(?:[.,]\d+)?)(?!\s*(?:{_UNIT}\b|%|-|\d|°))(?=\s|$|/|,)",
    re.I,
)
_AMOUNT = re.compile(
    rf"(?:(?P<n>\d+(?:[.,]\d+)?|half an?|a|an|per|each|the)\s*)?\b(?P<unit>{_UNIT})\b|/\s*(?P<slash>{_UNIT})\b", re.I
)
_GLUED = re.compile(rf"(?P<n>\d+(?:[.,]\d+)?)(?P<unit>{_UNIT})\b", re.I)
_SAYS = re.compile(
    r"\b(?:costs?|costing|priced?|prices|paid|pay|paying|charges?|sells? for|for sale)\b|[£€$]|\d\s*(?:p|"
    r"pence|euros?|eur|gbp|usd|quid|dollars?|cents?)\b|"
    r"\bfor (?:a|an|the|one) (?:\d[\d.,]*\s*(?:kg|g|kilo|l|ml|lb|oz)s?)?\s*(?:bag|sack|block|pack|packet|"
    r"box|tub|jar|tin|bottle|carton|stick)\b",
    re.I,
)
_IS_PER = re.compile(
    rf"\b(?:is|are|was|at|=|now)\s+\d+(?:[.,]\d+)?\s*(?:/|per|an?|each|the)\s*(?:\d+\s*)?{_UNIT}\b|"
    rf"\d\s*/\s*(?:kg|kilo|l|litre|100\s*g|lb|dozen)\b|\d[.,]\d\d\s*(?:/|per|an?)\s*(?:\d+\s*)?{_UNIT}\b|"
    r"\d\s+an?\s+(?:kg|kilo|litre|dozen)\b|^\s*(?:an?\s+)?(?:kg|kilo|litre|"
    r"dozen)\s+(?:of\s+)?\w+(?:\s+\w+)?\s+(?:is|are)\s+\d",
    re.I,
)
_ASKS = re.compile(
    r"(?:so |and |ok )*(?:(?:the )?ingredients? costs?|costs? (?:breakdown|split)|"
    r"(?:what|how much)(?: does| do| will| would| did| is| are| s|s)?(?: it| this| "
    r"that| they| them| the| a| an| one| each| my| all| of| these| those| whole| batch| dough| "
    r"rolls?| rings?| pieces?| bun| buns| loaf| loaves| breads?| lot| bake| ingredients?| total| \d+)*(?: "
    r"going to| come out at| add up to| to make| to)? (?:costs?|price|expense|worth|cost me|cost to make|"
    r"cost in total|set me back)"
    r"(?: to make| in total| me| us| altogether| of (?:the|this|it|one|a|each|all|ingredients|\w+ \w+|"
    r"\w+)| per (?:\w+)| each| apiece| for (?:one|each|a \w+|the \w+|all))*"
    r"|(?:the |total |ingredient |material |whats the |what is the |give me the |show me the |work out "
    r"the |show |calculate )*(?:costs?|price|costing)(?: of| per| for| each| to make| in total| a| an| "
    r"the| this| it| one| all| whole| batch| dough| "
    r"roll| rolls| ring| rings| piece| pieces| loaf| loaves| bun| buns| bread| breads| ingredients| head| "
    r"person| slice| bake| apiece| total| please)*"
    r"|how (?:expensive|cheap|dear) (?:is|are) (?:it|this|they|the \w+|a \w+|one)|how much is (?:one|a|"
    r"each|it per|this per) (?:roll|ring|piece|loaf|bun)|how much per (?:roll|ring|piece|loaf|bun))"
)
_SHOPPING = re.compile(
    r"(?:(?:make|give|show|write|print|get|list|the|my|a|me|us|whats|what is|what|on|can you|please|i "
    r"need|need|do|out|of|for) )*"
    r"(?:shopping(?: list)?|groceries|grocery list|buying list|list (?:of (?:what|things|stuff|"
    r"everything) )?to buy|things to buy|stuff to buy)"
    r"(?: for .*| please| list)?"
    r"|what (?:do|should|must|shall|will|would) (?:i|we) (?:need to |have to )?(?:buy|get|shop for|pick "
    r"up)(?: in)?(?: for .*| from the shop| at the shop)?"
    r"|(?:list )?what to buy|(?:the )?ingredients to buy|what (?:to|do i need to|ingredients to|else to) "
    r"buy(?: for .*)?|what (?:ingredients )?do (?:i|we) "
    r"need (?:to buy|from the (?:shop|store|mill|market))(?: for .*)?"
    r"|(?:i am |im )?going shopping(?: .*)?|shop for (?:this|it|the .*)"
)
_LIST = re.compile(
    r"(?:(?:show|list|see|what|which|the|my|all|are|me|do|have|i|got) )*prices(?: (?:have|do|are) .*)?|price list|"
    r"what do you know of prices"
)


def _read(line: Line) -> Own | None:
    if len(line.text) > 300 or "\n" in line.text.strip():
        return None
    said = plain(line.text)
    if _SHOPPING.fullmatch(said):
        return Own(CostRequest(shopping=True), CERTAIN)
    if _LIST.fullmatch(said):
        return Own(CostRequest(prices=True), CERTAIN)
    if _ASKS.fullmatch(said) and not re.search(r"\b(?:time|water|flour)s? (?:cost|worth)", said):
        return Own(CostRequest(), CERTAIN)
    if line.text.rstrip().endswith("?"):
        return None
    return _prices(line)


def _prices(line: Line) -> Own | None:
    """Every price said in the line; None unless each part of it holds one thing, one price and one amount."""
    if not (_SAYS.search(line.text) or _IS_PER.search(line.text)):
        return None
    found, currency = [], None
    parts = [part for part in re.split(r"(?<!\d),|,(?!\d)|;|\band\b", line.text) if part.strip()]
    start = 0
    for part in parts:
        start = line.text.index(part, start)
        inside = [p for p in line.phrases if start <= p.tokens[0].start < start + len(part) and not p.negated]
        ids = [p.ids("ingredient") or FLOUR for p in inside if p.ids("ingredient") or "flour" in p.ids("cue")]
        one, sign = _one(part)
        start += len(part)
        if one is None or len(ids) != 1:
            bare = len(ids) == 1 and len(parts) == 1 and _BARE.search(part) is not None
            return Own(PriceRequest(), CERTAIN) if bare else None
        currency = currency or sign
        found.append(Price(ids[0], *one))
    return Own(PriceRequest(tuple(found), currency), PRICED) if found else None


def _one(part: str) -> tuple[tuple[float, float, str] | None, str | None]:
    """(price, amount, unit) of one part, and its currency."""
    amounts = list(_GLUED.finditer(part)) or list(_AMOUNT.finditer(part))
    held = [(one.start(), one.end()) for one in _GLUED.finditer(part)]
    prices = [one for one in _PRICE.finditer(part) if not any(low <= one.start() < high for low, high in held)]
    with_sign = [one for one in prices if one["c"] is None]
    prices = with_sign or [one for one in prices if not any(_counts(a, one, part) for a in amounts)]
    if len(prices) != 1 or len(amounts) != 1:
        return None, None
    price, amount = prices[0], amounts[0]
    value = _number(price["a"] or price["b"] or price["c"])
    word = (price["before"] or price["after"] or "").lower()
    if word in _HUNDREDTHS:
        value /= 100
    groups = amount.groupdict()
    unit, size = _UNITS[(groups["unit"] or groups.get("slash") or "").lower()]
    said = (groups.get("n") or "").lower()
    number = _number(said) if said[:1].isdigit() else 0.5 if said.startswith("half") else 1.0
    return (value, number * size, unit), _SIGNS.get(word)


def _counts(amount: re.Match[str], price: re.Match[str], part: str) -> bool:
    """Whether a bare number is the amount's own ("250 g")."""
    return amount.start() <= price.start() < amount.end() and amount.start("n") == price.start()


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _build_price(bound: Bound) -> PriceRequest | None:
    """Never from single words."""
    return None


def _build_cost(bound: Bound) -> CostRequest | None:
    """Never from single words."""
    return None


FRAMES = (
    Frame(CostRequest, "cost", _build_cost, reads=_read, always=True),
    Frame(PriceRequest, "cost", _build_price),
)
