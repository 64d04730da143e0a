"""What is left in the house, told or asked for."""

from __future__ import annotations

from collections.abc import Mapping
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

    held: what is there. listed: the stock is asked for. makes: what can be made of it is asked.
    """

    held: tuple[Held, ...] = ()
    listed: bool = False
    makes: bool = False


def build(bound: Bound) -> StockRequest | None:
    """The request; None where nothing is weighed as being in the house, or something else is wanted of it."""
    asks = bound.said("ask:what", "ask:how_much", "stock:list")
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    amounts, loose = amounts_of(bound, places)
    goes_on = bound.context.focus == "stock" and bound.said("stock:stretches")
    if bound.said("stock:stretches") and not goes_on:
        return None  # of the dough in hand, or of what the line says
    makes = bound.said("stock:makes") or goes_on
    if makes and not amounts:
        return StockRequest(makes=True)
    if (asks or bound.asks()) and not makes:
        return StockRequest(listed=True) if bound.said("stock:list") and not amounts else None
    if not amounts or any(bound.phrases[i].negated or i not in amounts for i in places):
        return None
    wanted = ("stance:called_for", "stance:will_take", "mistake:*", "piece:*", "bread:*")
    if bound.said(*wanted) or (bound.said("act:*", "ask:*") and not makes):
        return None
    shares = any(one.dim == "share" for one in amounts.values())
    bags = [one.value for one in loose if one.dim == "mass"]
    if {one.dim for one in amounts.values()} - _HELD or len(loose) > len(bags) or len(bags) > shares:
        return None
    said = [i for i, p in enumerate(bound.phrases) if fits(p, ("stock:*",))]
    if not any(bound.phrases[i].text.lower() != "left" or i > min(amounts) for i in said):
        return None  # what was left out is no stock
    return StockRequest(held_of(bound, amounts, bags[0] if bags else None), makes=makes)


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
