"""What is left in the house, told or asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grammar.exchange import Weighed, amounts_of
from grammar.frames import Bound, Frame, fits
from grammar.levels import MAYBE, SELDOM, SURE, UNLIKELY, speaks
from grammar.phrases import Phrase
from grammar.roles import take
from grammar.slots import Slot
from grammar.stance import THING, ids_of, is_thing


@dataclass(frozen=True, slots=True)
class Held:
    """So much of one thing: ids it may mean, likeliest first; g, or an amount and unit by the cup, spoon or pack, or a
    count of pieces, or a share of a bag."""

    ids: tuple[str, ...]
    g: float | None = None
    measure: tuple[float, str] | None = None
    count: float | None = None
    share: float | None = None


@dataclass(frozen=True, slots=True)
class StockRequest:
    """only 1.2 kg bread flour left
    there's 400 g rye flour left in the cupboard
    what's left in the cupboard

    held: what is there. listed: the stock is asked for, of one thing where its ids are told. makes: what can be made of
    it is asked.
    """

    held: tuple[Held, ...] = ()
    listed: bool = False
    makes: bool = False
    item: tuple[str, ...] = ()


def build(bound: Bound) -> StockRequest | None:
    """The request; None where nothing is weighed as being in the house, or something else is wanted of it."""
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    amounts, loose = amounts_of(bound, places)
    goes_on = bound.context.focus == "stock" and bound.said("stock:stretches")
    makes = bound.said("stock:makes") or goes_on
    asked = bound.asks() or bound.said(*_ASKED)
    bags = [one.value for one in loose if one.dim == "mass"]
    rows: tuple[tuple[bool, StockRequest | None], ...] = (
        (bound.said("stock:stretches") and not goes_on, None),  # of the dough in hand, or of what the line says
        (makes and not amounts, StockRequest(makes=True)),
        (asked and not makes, _asked_for(bound, places, bool(amounts))),
        (not _told(bound, places, amounts, makes) or not _weighed(amounts, loose, bags), None),
        (True, StockRequest(held_of(bound, amounts, bags[0] if bags else None), makes=makes)),
    )
    return next(request for is_so, request in rows if is_so)


_ASKED = ("ask:what", "ask:how_much", "stock:list")
_WANTED = ("stance:called_for", "stance:will_take", "mistake:*", "piece:*", "bread:*")


def _asked_for(bound: Bound, places: Sequence[int], weighed: bool) -> StockRequest | None:
    """The stock asked for, all of it or that of one thing: "how much rye is left"."""
    one = len(places) == 1 and bound.said("ask:how_much") and bound.said("stock:left")
    if weighed or not (one or bound.said("stock:list")):
        return None
    return StockRequest(listed=True, item=ids_of(bound.phrases[places[0]]) if len(places) == 1 else ())


def _told(bound: Bound, places: Sequence[int], amounts: Mapping[int, Weighed], makes: bool) -> bool:
    """Whether the line tells so much of each thing it names, and wishes for nothing else; what was left out is no
    stock."""
    each = bool(amounts) and all(i in amounts and not bound.phrases[i].negated for i in places)
    wished = bound.said(*_WANTED) or (bound.said("act:*", "ask:*") and not makes)
    said = [i for i, p in enumerate(bound.phrases) if fits(p, ("stock:*",))]
    return each and not wished and any(bound.phrases[i].text.lower() != "left" or i > min(amounts) for i in said)


def _weighed(amounts: Mapping[int, Weighed], loose: Sequence[Weighed], bags: Sequence[float]) -> bool:
    """Whether each amount is of a sort that a stock is told in; a weight of no thing is what a full bag holds."""
    dims = [one.dim for one in amounts.values()]
    return set(dims) <= _HELD and len(loose) <= len(bags) and len(bags) <= ("share" in dims)


_HELD = frozenset({"mass", "volume", "count", "share"})
"""Sorts of amount in which what is there is told: by weight, spoon, piece, or part of a bag."""


def held_of(bound: Bound, amounts: Mapping[int, Weighed], bag_g: float | None = None) -> tuple[Held, ...]:
    """The things at these places with so much of each; bag_g: what a full bag holds, where that was said."""
    return tuple(held_thing(bound.phrases[place], one, bag_g) for place, one in amounts.items())


def held_thing(thing: Phrase, much: Weighed, bag_g: float | None = None) -> Held:
    """So much of one thing."""
    share = much.value / 100 if much.dim == "share" else None
    return Held(
        ids_of(thing),
        much.value if much.dim == "mass" else bag_g * share if bag_g and share is not None else None,
        (much.said, much.unit) if much.dim == "volume" and much.unit is not None else None,
        much.value if much.dim == "count" else None,
        share if bag_g is None else None,
    )


def only_left(bound: Bound) -> bool:
    """Whether a line tells what is left in the house rather than what is lacking."""
    return any(fits(p, ("stock:*",)) and not p.negated for p in bound.phrases)


FRAME = Frame(
    StockRequest,
    "stock",
    build,
    slots={
        "mass": take("thing_g", bare=UNLIKELY, weight=MAYBE, many=True),
        "volume": take("thing_volume", many=True),
        "count": take("thing_count", weight=SURE, many=True),
        "part": take("thing_pct", bare=MAYBE, weight=SURE, many=True),
        "thing": Slot(term=THING, many=True),
        "bag": Slot(term=("money:bag", "pack:*"), many=True, weight=-SELDOM),
    },
    cues=speaks(
        alone="stock:* stock:makes",
        sure="stance:at_hand",
        likely="cue:limit ask:what ask:how_many",
        maybe="cue:missing cue:only_this ask:how_much card:write act:add cue:all_of_it act:show ask:plan",
        heard="piece:* bread:* clock:running cue:kitchen tail:* cue:fridge state:moved",
    ),
    needs=("stock:*",),
    rules_out=("symptom:*", "mistake:*", "feeding:*", "ingredient:starter*", "clock:timer"),
    help_topic="cost",
)  # fmt: skip
