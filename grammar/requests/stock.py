"""What is left in the house, told or asked for."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.exchange import amounts_of
from grammar.frames import Bound, Frame, Slot, fits
from grammar.stance import THING, ids_of, is_thing


@dataclass(frozen=True, slots=True)
class Held:
    """So much of one thing: ids it may mean, likeliest first; g, or an amount and unit by the cup, spoon or bag, or a
    count of pieces."""

    ids: tuple[str, ...]
    g: float | None = None
    measure: tuple[float, str] | None = None
    count: float | None = None


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
    if bound.said("stock:makes"):
        return StockRequest(makes=True)
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    amounts, loose = amounts_of(bound, places)
    if asks or bound.asks():
        return StockRequest(listed=True) if bound.said("stock:list") and not amounts else None
    if not amounts or loose or any(bound.phrases[i].negated for i in places):
        return None
    if bound.said("stance:called_for", "stance:will_take", "mistake:*", "piece:*", "bread:*", "act:*", "ask:*"):
        return None
    if any(i not in amounts for i in places) or {one.dim for one in amounts.values()} - {"mass", "volume", "count"}:
        return None
    if not bound.said("stock:*"):
        return None
    held = tuple(
        Held(
            ids_of(bound.phrases[place]),
            one.value if one.dim == "mass" else None,
            (one.said, one.unit) if one.dim == "volume" and one.unit is not None else None,
            one.value if one.dim == "count" else None,
        )
        for place, one in amounts.items()
    )
    return StockRequest(held)


def only_left(bound: Bound) -> bool:
    """Whether a line tells what is left in the house rather than what is lacking."""
    return any(fits(p, ("stock:*",)) and not p.negated for p in bound.phrases)


FRAME = Frame(
    StockRequest,
    "stock",
    build,
    slots={
        "mass": Slot({"mass": 1.4, "volume": 1.0}, cues=THING, bare=-0.5, low=1, high=100000, many=True),
        "count": Slot({"num": 1.4}, cues=("ingredient:egg*",), low=1, high=400, many=True),
        "thing": Slot(term=THING, many=True),
    },
    cues={
        "stock:*": 3.4, "cue:limit": 0.6, "cue:missing": 0.4, "cue:only_this": 0.4, "stance:at_hand": 0.8,
        "clock:running": 0.0, "ask:what": 0.6, "ask:how_much": 0.4, "cue:kitchen": 0.0, "tail:*": 0.0,
        "cue:fridge": 0.0, "card:write": 0.2, "state:moved": 0.0, "act:add": 0.2,
        "cue:all_of_it": 0.2, "act:show": 0.4, "ask:plan": 0.4,
    },
    needs=("stock:*",),
    rules_out=("symptom:*", "mistake:*", "feeding:*", "ingredient:starter*", "clock:timer"),
    help_topic="cost",
)  # fmt: skip
